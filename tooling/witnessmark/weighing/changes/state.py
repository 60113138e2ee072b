"""Moves of a decision from state to state: which there are, and what a move means."""

from __future__ import annotations

from collections.abc import Mapping

from witnessmark.model.words import State
from witnessmark.weighing.changes.change import Change, Kind, Weight

MOVES: Mapping[State, frozenset[State]] = {
    State.DRAFT: frozenset({State.FOR_REVIEW, State.WITHDRAWN}),
    State.FOR_REVIEW: frozenset({State.DRAFT, State.AGREED, State.WITHDRAWN}),
    State.AGREED: frozenset({State.UNDER_WAY, State.WITHDRAWN, State.REPLACED}),
    State.UNDER_WAY: frozenset({State.DONE}),
    State.DONE: frozenset({State.REPLACED}),
    State.WITHDRAWN: frozenset(),
    State.REPLACED: frozenset(),
}
"""What may follow what; anything else is an error in review."""


def passing_through(before: State, after: State) -> tuple[State, ...] | None:
    """The states between, by the shortest way that the moves allow; None where there is no way."""
    ways: list[tuple[State, ...]] = [(before,)]
    seen = {before}
    while ways:
        way = ways.pop(0)
        for following in sorted(MOVES[way[-1]]):
            if following is after:
                return way[1:]
            if following not in seen:
                seen.add(following)
                ways.append((*way, following))
    return None


def state_change(record: str, before: State, after: State) -> Change:
    """A move as a change: plain, in a stride over states between, or not allowed."""
    between = passing_through(before, after)
    said = f"The state goes from {before.value} to {after.value}"
    if between is None:
        says = f"{said}, which is no allowed move. A new record that replaces this one is the way."
        return _state(Kind.STATE_BACK, record, says, before, after)
    if between:
        passed = " and ".join(state.value for state in between)
        says = f"{said} in one review, passing {passed}."
        return _state(Kind.STATE, record, says, before, after, weight=Weight.LOOK)
    return _state(Kind.STATE, record, f"{said}.", before, after)


def _state(
    kind: Kind, record: str, says: str, before: State, after: State, *, weight: Weight | None = None
) -> Change:
    return Change.of(
        kind, record, "state", says, before=before.value, after=after.value, weight=weight
    )
