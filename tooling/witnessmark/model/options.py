"""What could be done: options with their steps, consequences, answers and judged values."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from witnessmark.model.fields import (
    LIST,
    MAPPING,
    Address,
    Count,
    Day,
    Exact,
    Flag,
    Id,
    Label,
    Level,
    Prose,
    Quantity,
    Text,
    Written,
    either,
)
from witnessmark.model.words import (
    Aspect,
    CarriedOn,
    Do,
    DoneBy,
    Fate,
    Floor,
    Kind,
    Like,
    Lubricant,
    Order,
    RuledOutBy,
)

FITS = frozenset({Do.FIT_NEW, Do.FIT_OLD_STOCK, Do.FIT_FROM_DONOR})
ALTERS = frozenset(
    {Do.SLEEVE, Do.COAT, Do.SEAL, Do.HONE, Do.MACHINE, Do.GRIND, Do.DRILL, Do.WELD, Do.BUILD_UP}
    | {Do.HEAT, Do.MARK}
)
RISK_PATTERN = r"^[1-4][A-F]$"
Risk = Annotated[str, Field(pattern=RISK_PATTERN)]
"""Severity 1 to 4 and probability A to F, as in 2C (MIL-STD-882E, 2012, Tables I and II)."""


class NoneBecause(Written):
    """Nothing, with the reason."""

    none: Prose


class SignedNone(Written):
    """Nothing, said by somebody who answers for it."""

    by: Id
    because: Prose


class NoneSigned(Written):
    """None, signed."""

    none: SignedNone


class OnParts(Written):
    """Something that acts on one part or several."""

    part: Address | None = None
    parts: tuple[Address, ...] = ()

    @property
    def addresses(self) -> tuple[str, ...]:
        """Every part address it acts on, in the order written."""
        return ((self.part,) if self.part else ()) + self.parts


class Step(OnParts):
    """One step of the work.

    For a lubricant: `lubricant` is what goes in, `suits` how it was found to suit the metals,
    seals and felts it meets, `residue` what becomes of what was in there. For old stock and
    donors: `inspected` is what was seen when the piece was looked at, `conditions_met` how the
    giver's conditions are kept, `leaves` what stays behind in the machine that gives. For a move:
    `over` which floor, `carried_on` what, and `rubber_left` the least rubber above the steel of
    its pads. `comes_off_with` is what takes a coat or seal off again.

    For a new part: `pattern` is what its shape was taken from where there is no drawing,
    `copied_marks` the marks of identity copied on to it and how the copy is told, or none, and
    `interchange` what came of trying the other hand's part. `care` is how a kept part was made
    safe to keep.
    """

    do: Do
    count: Count | None = None
    fate: Fate | None = None
    label: Label | None = None
    labels: tuple[Label, ...] = ()
    place: Id | None = None
    like: Like | None = None
    source: Text | None = Field(default=None, alias="from")
    what: Text | None = None
    material: Text | None = None
    drawing: Text | None = None
    made_by: Text | None = None
    marked: Text | None = None
    pattern: Text | None = None
    copied_marks: Text | None = None
    interchange: Prose | None = None
    care: Prose | None = None
    undo: Level | None = None
    lubricant: Lubricant | None = None
    suits: Prose | None = None
    residue: Prose | None = None
    inspected: Prose | None = None
    conditions_met: Prose | None = None
    leaves: Prose | None = None
    over: Floor | None = None
    carried_on: CarriedOn | None = None
    rubber_left: Quantity | None = None
    comes_off_with: Text | None = None
    because: Prose | None = None
    note: Prose | None = None

    @model_validator(mode="after")
    def _has_what_its_verb_needs(self) -> Self:
        if not self.addresses:
            raise PydanticCustomError("step_part", "a step names the part it acts on")
        if self.do in FITS and self.like is None:
            raise PydanticCustomError("step_like", "a fit says like: same or unlike")
        if self.do in {Do.FIT_OLD_STOCK, Do.FIT_FROM_DONOR} and self.source is None:
            raise PydanticCustomError("step_from", "this fit says from where the part comes")
        if self.do is Do.EXCHANGE and len(self.addresses) != 2:  # noqa: PLR2004  two places
            raise PydanticCustomError("step_exchange", "an exchange names two places")
        return self

    @property
    def all_labels(self) -> tuple[str, ...]:
        """Labels given to what comes out, in the order of the parts."""
        return ((self.label,) if self.label else ()) + self.labels


class Consequence(OnParts):
    """What happens to a part although nobody works on it."""

    becomes: Text
    count: Count | None = None
    undo: Level | None = None
    because: Prose

    @model_validator(mode="after")
    def _names_a_part(self) -> Self:
        if not self.addresses:
            raise PydanticCustomError("step_part", "a consequence names the part it acts on")
        return self


class Control(Written):
    """Something that makes a hazard less likely or less severe."""

    order: Order
    what: Prose


class Answer(Written):
    """What is left of a hazard under this option, or why it is not there."""

    after: Risk | None = None
    none: Prose | None = None
    because: Prose | None = None
    controls: tuple[Control, ...] = ()

    @model_validator(mode="after")
    def _says_one_thing(self) -> Self:
        if (self.after is None) == (self.none is None):
            raise PydanticCustomError(
                "answer_form", "an answer has either `after` (such as 2E) or `none` with the reason"
            )
        return self


class JudgedRange(Written):
    """A judged level with its range; low and high default to likely."""

    low: Level | None = None
    likely: Level
    high: Level | None = None
    because: Prose

    @model_validator(mode="after")
    def _is_in_order(self) -> Self:
        has_range = self.low is not None or self.high is not None
        if has_range and not self.lowest <= self.likely <= self.highest:
            raise PydanticCustomError("range_order", "low, likely and high do not rise in order")
        return self

    @property
    def lowest(self) -> int:
        """The low end."""
        return self.likely if self.low is None else self.low

    @property
    def highest(self) -> int:
        """The high end."""
        return self.likely if self.high is None else self.high


class SecondJudged(JudgedRange):
    """The same value as another person judged it without having seen the first.

    It stands beside the first and never replaces it: no score uses it, and it only tells how alike
    people judge. So it lies outside the seal and outside the digest of the words, and may be added
    after agreement: nobody signed it, a later second look would otherwise void signatures that it
    does not touch, and a museum would stop looking.
    """

    by: Id
    date: Day


class Judged(JudgedRange):
    """A judged value, and how others judged it without having seen it.

    Who judged it and when may be said once for the whole record, under `judged_by`.
    """

    by: Id | None = None
    date: Day | None = None
    second: tuple[SecondJudged, ...] = ()


class JudgedBy(Written):
    """Who judged, and when."""

    by: Id
    date: Day


class RuledOut(Written):
    """Who or what shuts this option out."""

    by: RuledOutBy
    because: Prose
    ref: Text | None = None


class Effort(Written):
    """What the option would take; private unless the museum shows it."""

    hours: tuple[Exact, Exact] | None = None
    cost: tuple[Exact, Exact] | None = None
    done_by: DoneBy | None = None


Consequences = Annotated[
    Annotated[tuple[Consequence, ...], LIST] | Annotated[NoneBecause, MAPPING],
    either("a list of consequences is wanted, or `none:` with the reason"),
]


class Option(Written):
    """One thing that could be done; `temporary` where it is meant to be taken back."""

    id: Id
    kind: Kind
    title: Prose
    temporary: Flag = False
    what: Prose | None = None
    steps: tuple[Step, ...] = ()
    consequences: Consequences = ()
    answers: dict[Id, Answer] = {}
    relies_on: tuple[Id, ...] = ()
    judged: dict[Aspect, Judged] = {}
    unaffected: dict[Aspect, Prose] = {}
    not_applicable: dict[Aspect, Prose] = {}
    ruled_out: RuledOut | None = None
    misses_aim: Prose | None = None
    not_scored: Prose | None = None
    way_back: Prose | None = None
    forecloses: Prose | None = None
    later_cost: Prose | None = None
    effort: Effort | None = None
    why_not: Prose | None = None

    @property
    def listed_consequences(self) -> tuple[Consequence, ...]:
        """The consequences, none when it is said that there are none."""
        return () if isinstance(self.consequences, NoneBecause) else self.consequences
