"""What the public may see of a policy: the museum's values, as numbers people can read."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from itertools import groupby

from witnessmark.model.library import Library
from witnessmark.model.policy import Elicited, FabricTable, HouseRule, Policy
from witnessmark.model.words import Criterion, Do, Kept, Role
from witnessmark.publish.shown_names import Names
from witnessmark.scoring.undo import DEFAULT_UNDO
from witnessmark.weighing.elicited import weights_of_swings

TREATMENTS: tuple[tuple[str, str], ...] = (
    ("untouched", "Untouched, or taken out and put back"),
    ("altered_restorable", "Altered, can be restored"),
    ("altered_for_good", "Altered for good"),
    ("kept_successor_alike", "Taken out and kept, replaced alike"),
    ("kept_otherwise", "Taken out and kept, replaced by another kind or not at all"),
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
    """A question that was asked to find the weights, and how it was answered.

    `points` are one person's, where it was asked in points: a criterion, its points, and the weight
    that follows. `because` says why the museum's ranges leave this answer out.
    """

    question: str
    answer: str
    who: tuple[str, ...]
    day: date
    kept_as: tuple[Kept, ...]
    points: tuple[tuple[Criterion, Fraction, Fraction], ...]
    trade_off: str | None
    because: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicPolicy:
    """One dated policy; `rules_off` and `held_as_must` name rules of the book, with a reason."""

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

    @property
    def asked(self) -> tuple[tuple[str, tuple[PublicElicited, ...]], ...]:
        """Each question, with the answers to it that follow each other."""
        found = groupby(self.elicited, key=lambda each: each.question)
        return tuple((question, tuple(answers)) for question, answers in found)

    rules_off: tuple[tuple[str, str], ...]
    held_as_must: tuple[tuple[str, str], ...]


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
        rules_off=_house_rules(policy.rules_off),
        held_as_must=_house_rules(policy.held_as_must),
    )


def _house_rules(listed: Iterable[HouseRule]) -> tuple[tuple[str, str], ...]:
    return tuple((one.rule, one.because) for one in listed if one.because)


def _elicited(asked: Elicited, names: Names) -> PublicElicited:
    """A question with its answer; who answered by title, as far as they hold a role here."""
    people = (names.in_words(who.strip()) for who in asked.who.split(","))
    return PublicElicited(
        question=asked.question,
        answer=asked.answer,
        who=tuple(filter(None, people)),
        day=asked.when,
        kept_as=asked.kept_as,
        points=_points(asked),
        trade_off=asked.trade_off,
        because=asked.because,
    )


def _points(asked: Elicited) -> tuple[tuple[Criterion, Fraction, Fraction], ...]:
    points = {criterion: asked.swings.get(criterion, Fraction(0)) for criterion in Criterion}
    if not any(points.values()):
        return ()
    first, second, third = points.values()
    weights = weights_of_swings((first, second, third))
    return tuple(
        (criterion, given, weight)
        for (criterion, given), weight in zip(points.items(), weights, strict=True)
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
