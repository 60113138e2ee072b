"""How a decision changed since it became public, told from the versions that git keeps.

Only versions that were public themselves are read from: drafts are private, and so is everything a
record held before it was agreed and marked to be published, or while it was withheld.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from witnessmark.model.decision import Decision
from witnessmark.model.library import DecisionFile
from witnessmark.model.shape import Shaped, shape
from witnessmark.model.source import read
from witnessmark.model.words import State
from witnessmark.publish.public_decision import PublicHistory, PublicTold
from witnessmark.repository.record_versions import RecordVersions
from witnessmark.weighing.changes import how_it_changed

PUBLIC_STATES = frozenset({State.AGREED, State.UNDER_WAY, State.DONE, State.REPLACED})
"""Every record not yet agreed, and every one withdrawn, stays in the house."""

NO_VERSIONS = RecordVersions()
_OPENED = "Became public, in the state"
_FIRST_READ = "The first version that can be read today, in the state"


@dataclass(frozen=True)
class _Version:
    day: date
    shaped: Shaped[Decision]

    @property
    def is_read(self) -> bool:
        return self.shaped.value is not None and self.shaped.whole

    @property
    def is_public(self) -> bool:
        decision = self.shaped.value
        return decision is not None and is_shown(decision)


def is_shown(decision: Decision) -> bool:
    """True for a record that the public may read: agreed or beyond, and marked so."""
    is_open = decision.state in PUBLIC_STATES and decision.publish is True
    return is_open and decision.choice is not None


def public_history(entry: DecisionFile, versions: RecordVersions) -> PublicHistory | None:
    """What changed since the record became public; None where git keeps no version of it."""
    if versions.is_shallow:
        return PublicHistory(is_shallow=True)
    filed = versions.by_id.get(entry.named, ())
    if not filed or entry.value is None:
        return None
    every = list(_versions(filed, entry))
    closed = [n for n, version in enumerate(every) if version.is_read and not version.is_public]
    since = every[closed[-1] + 1 :] if closed else every
    dated = [(v.day, v.shaped.value) for v in since if v.is_read and v.shaped.value]
    unread = len(since) - len(dated)
    first = _OPENED if closed else None if since and since[0].is_read else _FIRST_READ
    return PublicHistory(
        told=_told(dated, entry.value, first=first),
        is_from_the_start=not closed,
        passed_over=unread,
        is_edited=not dated or dated[-1][1] != entry.value,
    )


def _versions(filed: Sequence[tuple[date, bytes]], entry: DecisionFile) -> Iterator[_Version]:
    """Each version as read today; the one that lies on disk has been read already."""
    for day, raw in filed:
        document = read(entry.file, raw)
        is_here = document.text == entry.shaped.document.text
        yield _Version(day, entry.shaped if is_here else shape(document, Decision))


def _told(
    dated: Sequence[tuple[date, Decision]], today: Decision, *, first: str | None
) -> tuple[PublicTold, ...]:
    """The latest first; `first` replaces what is said of a version that was not the first words."""
    told = [
        PublicTold(day=found.day, sentences=found.sentences)
        for found in how_it_changed(dated, today=today)
    ]
    if told and first:
        state = dated[0][1].state.value.replace("-", " ")
        told[0] = PublicTold(day=told[0].day, sentences=(f"{first}: {state}.",))
    return tuple(reversed(told))
