"""What became of published decisions, day by day, and when each last changed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from witnessmark.publish.public_decision import PublicDecision, PublicEvent


@dataclass(frozen=True, slots=True)
class Change:
    """Something that became of a published decision on a day."""

    day: date
    decision: PublicDecision
    what: str


def changes(decisions: Iterable[PublicDecision]) -> tuple[Change, ...]:
    """Everything from agreement on, the newest first; within a day by decision."""
    found = [change for decision in decisions for change in _of(decision)]
    return tuple(sorted(found, key=lambda one: (one.day, one.decision.id), reverse=True))


def last_changed(decision: PublicDecision) -> date:
    """The day on which something last became of a decision; filing it anew is no change."""
    days = [event.day for event in decision.timeline if _came_about(event)]
    return max([decision.settled, *days])


def _of(decision: PublicDecision) -> Iterator[Change]:
    for event in decision.timeline:
        if _came_about(event) and event.day >= decision.settled:
            yield Change(event.day, decision, event.what)


def _came_about(event: PublicEvent) -> bool:
    """True for what happened; a day for which something was promised brings nothing by itself."""
    return not event.is_ahead and not event.is_due
