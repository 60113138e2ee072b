"""The steps that count: what is to be done, or what was done once the record says it."""

from __future__ import annotations

from witnessmark.model.decision import Decision
from witnessmark.model.options import Step
from witnessmark.model.words import State

ENDED = frozenset({State.DONE, State.REPLACED})


def is_told(decision: Decision) -> bool:
    """True once the work has ended and the record says what was done, so that no plan counts."""
    return decision.state in ENDED and bool(decision.work and decision.work.as_done)


def steps_in_force(decision: Decision) -> tuple[Step, ...]:
    """The steps as done, and those of the chosen option while they are still to be done."""
    done = decision.work.as_done if decision.work else ()
    planned = decision.chosen.steps if decision.chosen and not is_told(decision) else ()
    return (*planned, *done)
