"""Every published decision, and what only shows when they are seen beside each other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from witnessmark.model.library import DecisionFile
from witnessmark.publish.public_across import PublicReplay, PublicReplays
from witnessmark.publish.public_decision import PublicDecision
from witnessmark.publish.shown_decision import Surroundings, public_decision
from witnessmark.publish.shown_precedents import Met, with_precedents
from witnessmark.publish.shown_replays import public_replays, replays_of
from witnessmark.weighing.case import work_out
from witnessmark.weighing.precedents import portrait_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """The published decisions in order of id, and all of them under each other policy."""

    decisions: tuple[PublicDecision, ...]
    replays: tuple[PublicReplays, ...]


def shown_decisions(entries: Iterable[DecisionFile], around: Surroundings) -> Shown:
    """The decisions of some files, each worked out once."""
    found = list(_each(entries, around))
    return Shown(
        decisions=with_precedents([met for met, _ in found]),
        replays=public_replays(around.library, [one for _, several in found for one in several]),
    )


def _each(
    entries: Iterable[DecisionFile], around: Surroundings
) -> Iterator[tuple[Met, tuple[tuple[str, PublicReplay], ...]]]:
    """One decision after the other; what was reckoned for it is let go with the next."""
    for entry in entries:
        if entry.value is None:
            continue
        case = work_out(entry.value, entry.machine, around.library)
        public = public_decision(entry, around, case=case)
        if public is not None:
            met = Met(
                public=public,
                written=entry.value,
                machine_name=public.machine_name,
                portrait=portrait_of(case),
            )
            yield met, tuple(replays_of(case, library=around.library, names=around.names))
