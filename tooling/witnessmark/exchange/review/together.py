"""The strong warning: weights and scores changed in one review can choose a winner."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from witnessmark.exchange.review.sides import Side
from witnessmark.weighing.changes.change import Change, Kind

_SCORING = frozenset({Kind.RISK, Kind.UNDO, Kind.HAZARD, Kind.HAZARD_REMOVED})
_POLICY = frozenset({Kind.POLICY, Kind.POLICY_EDITED})


def together(found: Sequence[Change], head: Side) -> list[Change]:
    """A warning for each record scored, and weighed by other numbers, in the same review."""
    return list(_warnings(found, head))


def _warnings(found: Sequence[Change], head: Side) -> Iterator[Change]:
    policies = {c.record.removeprefix("policy/") for c in found if _is_of_a_policy(c)}
    renamed = {c.record for c in found if c.kind is Kind.POLICY and c.field == "policy"}
    scored = {c.record for c in found if is_scoring(c) or c.kind is Kind.NEW}
    for record in sorted(scored & head.records.keys()):
        value = head.records[record].value
        if value and (value.policy in policies or record in renamed):
            says = (
                f"The policy {value.policy} and the scores of this record change in one review. "
                "Whoever sets both can choose the winner; ask for two reviews, the policy first."
            )
            yield Change.of(Kind.POLICY_AND_SCORES, record, "policy", says)


def _is_of_a_policy(change: Change) -> bool:
    return change.kind in _POLICY and change.record.startswith("policy/")


def is_scoring(change: Change) -> bool:
    """True for a change of what people judge, not of what is computed from it."""
    return change.kind in _SCORING or (change.kind is Kind.SCORE and ".scores." not in change.field)
