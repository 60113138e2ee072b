"""What the public may see of a policy: the museum's values, as numbers people can read."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from witnessmark.model.library import Library
from witnessmark.model.policy import Elicited, FabricTable, Policy
from witnessmark.model.words import Criterion, Do, Kept, Role
from witnessmark.publish.shown_names import Names
from witnessmark.scoring.undo import DEFAULT_UNDO

TREATMENTS: tuple[tuple[str, str], ...] = (
    ("untouched", "Untouched, or taken out and put back"),
    ("altered_restorable", "Altered, can be restored"),
    ("altered_for_good", "Altered for good"),
    ("kept_successor_alike", "Taken out and kept, a like part in its place"),
    ("kept_otherwise", "Taken out and kept, an unlike part or nothing in its place"),
    ("lost_can_be_made", "Taken out and not kept, the type can still be made"),
    ("lost_for_good", "Taken out and not kept, it cannot be made again"),
)
"""The rows of the fabric table in the order of harm, in words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicWeight:
    """One criterion for one way of keeping: its weight, the range allowed, and the floor."""

    criterion: Criterion
    weight: Fraction
    least: Fraction | None
    most: Fraction | None
    floor: Fraction | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicElicited:
    """A question that was asked to find the weights, and how it was answered."""

    question: str
    answer: str
    who: tuple[str, ...]
    day: date


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicPolicy:
    """One dated policy."""

    id: str
    title: str | None
    statement: str | None
    valid_from: date
    weights: tuple[tuple[Kept, tuple[PublicWeight, ...]], ...]
    level_values: tuple[Fraction, ...]
    worst: Fraction
    fabric: tuple[tuple[str, Fraction, Fraction], ...]
    undo: tuple[tuple[Do, int], ...]
    firm_chance: Fraction
    holds_chance: Fraction
    most_days: int
    approvers: tuple[Role, ...]
    elicited: tuple[PublicElicited, ...]


def public_policies(library: Library, names: Names) -> tuple[PublicPolicy, ...]:
    """Every policy of a museum, the newest first."""
    found = [_policy(name, policy, names) for name, policy in library.policies.items()]
    return tuple(sorted(found, key=lambda policy: (policy.valid_from, policy.id), reverse=True))


def _policy(name: str, policy: Policy, names: Names) -> PublicPolicy:
    return PublicPolicy(
        id=name,
        title=policy.title,
        statement=policy.statement,
        valid_from=policy.valid_from,
        weights=tuple((kept, _weights(policy, kept)) for kept in Kept if kept in policy.weights),
        level_values=policy.level_values,
        worst=policy.fabric.worst,
        fabric=_fabric(policy.fabric.table),
        undo=tuple((do, policy.undo.get(do, DEFAULT_UNDO[do])) for do in Do),
        firm_chance=policy.verdict.firm_chance,
        holds_chance=policy.verdict.holds_chance,
        most_days=policy.waivers.most_days,
        approvers=policy.waivers.approver_roles,
        elicited=tuple(_elicited(each, names) for each in policy.elicited),
    )


def _elicited(asked: Elicited, names: Names) -> PublicElicited:
    """A question with its answer; who answered by title, as far as they hold a role here."""
    people = (names.in_words(who.strip()) for who in asked.who.split(","))
    return PublicElicited(
        question=asked.question,
        answer=asked.answer,
        who=tuple(filter(None, people)),
        day=asked.when,
    )


def _weights(policy: Policy, kept: Kept) -> tuple[PublicWeight, ...]:
    ranges, floors = policy.ranges.get(kept, {}), policy.floors.get(kept, {})
    return tuple(
        PublicWeight(
            criterion=criterion,
            weight=policy.weights[kept].get(criterion, Fraction(0)),
            least=ranges[criterion][0] if criterion in ranges else None,
            most=ranges[criterion][1] if criterion in ranges else None,
            floor=floors.get(criterion),
        )
        for criterion in Criterion
    )


def _fabric(table: FabricTable) -> tuple[tuple[str, Fraction, Fraction], ...]:
    rows = ((words, getattr(table, name)) for name, words in TREATMENTS)
    return tuple((words, row.last, row.wear) for words, row in rows)
