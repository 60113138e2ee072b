"""Which findings of a machine are still open on a day, and what answers the others."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from witnessmark.model.decision import Decision
from witnessmark.model.findings import Finding
from witnessmark.model.library import Library
from witnessmark.model.words import State

WORK_ENDED = frozenset({State.DONE, State.REPLACED})


@dataclass(frozen=True)
class OpenFinding:
    """A finding that nothing answers; `ran_out` is a decision whose answer has ended, and when."""

    finding: Finding
    ran_out: tuple[str, date] | None = None


def open_findings(library: Library, machine: str, *, on: date) -> Iterator[OpenFinding]:
    """The findings of a machine that stand open on a day, oldest first.

    A finding is answered by a later one that says so, by a decision whose work has ended, or by
    one that was agreed and asks for no work. A temporary answer ends with the decision's `until`.
    """
    log = [finding for finding in library.findings_of(machine) if finding.date <= on]
    settled = {name for finding in log for name in finding.answers}
    decisions = list(library.decisions_of(machine))
    for finding in sorted(log, key=lambda found: (found.date, found.id)):
        if finding.id in settled:
            continue
        naming = [one for one in decisions if finding.id in one.findings and answers(one, on=on)]
        if not any(is_in_time(one, on=on) for one in naming):
            ends = [(one.id, one.until) for one in naming if one.until]
            yield OpenFinding(finding, max(ends, key=lambda end: end[1]) if ends else None)


def answers(decision: Decision, *, on: date) -> bool:
    """True when the decision had answered its findings by this day, run out or not."""
    if decision.state in WORK_ENDED:
        ended = decision.work.ended if decision.work else None
        return ended is not None and ended <= on
    chosen = decision.chosen
    needs_work = chosen is None or bool(chosen.steps)
    return decision.is_settled and not needs_work and agreed_by(decision, on=on)


def agreed_by(decision: Decision, *, on: date) -> bool:
    """True when the last agreement was recorded by this day."""
    days = [signature.date for signature in decision.agreed]
    return bool(days) and max(days) <= on


def is_in_time(decision: Decision, *, on: date) -> bool:
    """True unless the decision was for a time that is over."""
    return decision.until is None or on <= decision.until
