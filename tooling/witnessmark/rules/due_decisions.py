"""What is due about decisions: second looks, and everything that was let for a time."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from witnessmark.model.decision import Decision
from witnessmark.model.library import DecisionFile, Library
from witnessmark.model.remains import Path
from witnessmark.rules.due_kinds import Due, DueKind

Promised = tuple[DueKind, date, Path, str, str]
"""What is due, when, where in the record, its name there, and in words."""


def due_of_decisions(library: Library) -> Iterator[Due]:
    """What decisions that stand have promised; drafts promise nothing yet."""
    for entry in library.decisions:
        decision = entry.value
        if decision and decision.is_settled:
            for promised in _promised(decision):
                yield _due(entry, decision, promised)


def _due(entry: DecisionFile, decision: Decision, promised: Promised) -> Due:
    kind, day, path, name, says = promised
    return Due(
        kind=kind,
        day=day,
        name=f"{entry.id}/{name}" if name else entry.id,
        says=says,
        file=entry.file,
        path=path,
        written=max((signature.date for signature in decision.agreed), default=decision.opened),
        machine=entry.machine,
        decision=entry.id,
    )


def _promised(decision: Decision) -> Iterator[Promised]:
    title = decision.title.rstrip(".")
    if decision.until:
        says = f"The time of this decision ends: {title}."
        yield DueKind.RUNS_OUT, decision.until, ("until",), "", says
    look = decision.look_again
    if look and look.date and not _has_looked(decision, look.date):
        after = f" (or after {look.or_after})" if look.or_after else ""
        says = f"Look again{after}: {title}."
        yield DueKind.LOOK_AGAIN, look.date, ("look_again", "date"), "", says
    risk = decision.accepted_risk
    if risk:
        says = f"The risk accepted by {risk.by} in: {title}."
        yield DueKind.ACCEPTED_RISK, risk.until, ("accepted_risk", "until"), "", says
    for index, waiver in enumerate(decision.waivers):
        says = f"The rule {waiver.rule} is to be kept again in: {title}."
        yield DueKind.WAIVER, waiver.until, ("waivers", index, "until"), waiver.rule, says
    if decision.emergency and not decision.emergency.ratified:
        begun = decision.work.started if decision.work else decision.opened
        says = f"Emergency work is to be agreed afterwards: {title}."
        yield DueKind.RATIFY, begun, ("emergency",), "", says


def _has_looked(decision: Decision, day: date) -> bool:
    """True when somebody looked on that day or later; who looks earlier moves the day on."""
    return any(outcome.date >= day for outcome in decision.outcomes)
