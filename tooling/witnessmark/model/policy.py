"""policy/2023-04.yml: the museum's values, dated; never edited once a decision relies on them."""

from __future__ import annotations

from fractions import Fraction
from typing import Any, Literal

from pydantic import Field

from witnessmark.model.fields import Day, Exact, Id, Level, Prose, Share, Text, Weight, Written
from witnessmark.model.words import Criterion, Do, Kept, Role

Weights = dict[Criterion, Exact]
"""One weight a criterion."""

DEFAULT_LEVEL_VALUES: tuple[Fraction, ...] = tuple(Fraction(n) for n in range(5))


class FabricRow(Written):
    """How much of a part's worth as evidence is left after one kind of treatment."""

    last: Share
    wear: Share


class FabricTable(Written):
    """The seven kinds of treatment, in the order of harm (the museum's own judgement)."""

    untouched: FabricRow = FabricRow(last=Fraction(1), wear=Fraction(1))
    altered_restorable: FabricRow = FabricRow(last=Fraction(3, 4), wear=Fraction(3, 4))
    altered_for_good: FabricRow = FabricRow(last=Fraction(1, 4), wear=Fraction(1, 2))
    kept_successor_alike: FabricRow = FabricRow(last=Fraction(1, 2), wear=Fraction(3, 4))
    kept_otherwise: FabricRow = FabricRow(last=Fraction(1, 2), wear=Fraction(1, 2))
    lost_can_be_made: FabricRow = FabricRow(last=Fraction(0), wear=Fraction(1, 2))
    lost_for_good: FabricRow = FabricRow(last=Fraction(0), wear=Fraction(1, 4))


class FabricPolicy(Written):
    """How original material is reckoned."""

    worst: Share = Fraction(3, 4)
    table: FabricTable = FabricTable()


class VerdictPolicy(Written):
    """From which chance on a verdict may be called firm, or be said to hold."""

    firm_chance: Share = Fraction(9, 10)
    holds_chance: Share = Fraction(3, 5)


class WaiverPolicy(Written):
    """Who may let a rule rest, and for how long."""

    most_days: int = Field(default=730, ge=1)
    approver_roles: tuple[Role, ...] = (Role.GOVERNING,)


Swings = dict[Criterion, Weight]
"""Points for lifting each criterion from 0 to 4, the one lifted first at 100."""


class Pairs(Written):
    """How many times as much one criterion matters as another, as somebody answered in pairs.

    Not used for any weight: it only shows whether the answers hang together.
    """

    authenticity_to_safety: Weight
    authenticity_to_reversibility: Weight
    safety_to_reversibility: Weight


class Elicited(Written):
    """How the weights were asked for, of whom, and what they said.

    With `swings` it is the answer of one person, named by id, for the ways of keeping in `kept_as`
    (all that the policy weighs, if none is named): with everything at 0, which criterion would you
    lift to 4 first (100 points), and how many points are the others worth beside it? `trade_off` is
    the cross-check asked afterwards, in words; `pairs` another one, in numbers. `because` says why
    the museum's ranges leave this person's answer out.
    """

    question: Prose
    answer: Prose
    who: Text
    when: Day
    kept_as: tuple[Kept, ...] = ()
    swings: Swings = {}
    trade_off: Prose | None = None
    pairs: Pairs | None = None
    because: Prose | None = None


class HouseRule(Written):
    """A rule of the book that this museum keeps otherwise, and why; `because` has its own check."""

    rule: Id
    because: Prose | None = None


class Policy(Written):
    """One dated policy.

    `rules_off` switches shoulds of the book off, and `held_as_must` holds shoulds as musts.
    """

    witnessmark: Literal[1]
    valid_from: Day
    title: Text | None = None
    statement: Prose | None = None
    weights: dict[Kept, Weights]
    ranges: dict[Kept, dict[Criterion, tuple[Exact, Exact]]] = {}
    floors: dict[Kept, dict[Criterion, Exact]] = {}
    level_values: tuple[Exact, Exact, Exact, Exact, Exact] = DEFAULT_LEVEL_VALUES  # type: ignore[assignment]
    fabric: FabricPolicy = FabricPolicy()
    undo: dict[Do, Level] = {}
    verdict: VerdictPolicy = VerdictPolicy()
    waivers: WaiverPolicy = WaiverPolicy()
    elicited: tuple[Elicited, ...] = ()
    own_rules: tuple[dict[str, Any], ...] = ()
    rules_off: tuple[HouseRule, ...] = ()
    held_as_must: tuple[HouseRule, ...] = ()
    review: Day | None = None
