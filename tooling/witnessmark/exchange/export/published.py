"""What a museum publishes as data, read from JSON into values of our own.

Anybody can do the same from a museum's site: nothing here knows the records or the public model.
Names that are not known are passed over, so that a museum may publish more than this program reads.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field
from pydantic_core import PydanticCustomError

from witnessmark.model.fields import (
    ADDRESS_PATTERN,
    DECISION_PATTERN,
    FINDING_PATTERN,
    ID_PATTERN,
    LABEL_PATTERN,
    Day,
)
from witnessmark.model.words import (
    Aspect,
    Basis,
    Criterion,
    Do,
    Fate,
    Grade,
    Kept,
    Kind,
    Like,
    MadeTo,
    Origin,
    Role,
    State,
)

_EXACT = re.compile(r"-?[0-9]{1,200}(/[1-9][0-9]{0,199})?")


def _as_exact(value: object) -> Fraction:
    if isinstance(value, str) and _EXACT.fullmatch(value):
        return Fraction(value)
    raise PydanticCustomError("exact_form", 'an exact figure is a text such as "51/16"')


def _is_web(value: str) -> str:
    if not re.fullmatch(r"https?://[^\s<>\"{}|\\^`]+", value):
        raise PydanticCustomError("web_form", "a web address starts with https:// or http://")
    return value


Exact = Annotated[Fraction, BeforeValidator(_as_exact)]
Id = Annotated[str, Field(pattern=ID_PATTERN, max_length=64)]
DecisionId = Annotated[str, Field(pattern=DECISION_PATTERN)]
FindingId = Annotated[str, Field(pattern=FINDING_PATTERN)]
Address = Annotated[str, Field(pattern=ADDRESS_PATTERN, max_length=129)]
Label = Annotated[str, Field(pattern=LABEL_PATTERN, max_length=64)]
Web = Annotated[str, AfterValidator(_is_web)]


class Read(BaseModel):
    """Something read from published data: frozen, and names not known are passed over."""

    model_config = ConfigDict(frozen=True, extra="ignore")


class Step(Read):
    """A step or a consequence, as a sentence and as facts."""

    text: str
    undo: int | None
    because: str | None
    do: Do | None
    places: tuple[Address, ...]
    count: int | None
    fate: Fate | None
    labels: tuple[Label, ...]
    like: Like | None
    what: str | None
    material: str | None
    drawing: str | None
    marked: str | None
    source: tuple[Id, Address] | None
    becomes: str | None


class Score(Read):
    """Three levels, or the reasons why there are none."""

    low: Exact | None
    likely: Exact | None
    high: Exact | None
    facts: tuple[str, ...]
    withheld: tuple[str, ...]


class AspectScore(Read):
    """One of the six aspects; no score where it does not apply."""

    aspect: Aspect
    weight: Exact
    how: str
    because: str
    by: str | None
    score: Score | None


class CriterionScore(Read):
    """One of the three criteria."""

    criterion: Criterion
    score: Score


class Pieces(Read):
    """Original pieces in question: how many stay, leave and are kept, or are lost."""

    stay: int
    kept: int
    lost: int


class Option(Read):
    """One option with its scores."""

    id: Id
    kind: Kind
    title: str
    what: str | None
    steps: tuple[Step, ...]
    consequences: tuple[Step, ...]
    pieces: Pieces | None
    not_scored: str | None
    way_back: str | None
    why_not: str | None
    is_chosen: bool
    set_aside: tuple[str, ...]
    aspects: tuple[AspectScore, ...]
    scores: tuple[CriterionScore, ...]


class Dissent(Read):
    """Who thought otherwise, and the answer."""

    who: str
    what: str
    answer: str


class Choice(Read):
    """What was chosen and why."""

    option: Id | None
    because: str
    gives_up: str
    would_change_our_mind: str
    dissent: tuple[Dissent, ...]
    departs_from_ranking: str | None


class Weighed(Read):
    """How one option came out."""

    option: Id
    standing: str
    value: Exact | None
    chance: Exact | None
    share_all: Exact | None
    share_policy: Exact | None


class Weighing(Read):
    """How sure the result is, and how each option came out."""

    verdict: str
    options: tuple[Weighed, ...]


class RuleNote(Read):
    """A rule that rests or is not followed, with the reason."""

    rule: Id
    title: str
    because: str
    approver: str | None
    until: Day | None


class Rules(Read):
    """What the rules say of one decision."""

    met: tuple[Id, ...]
    broken: tuple[Id, ...]
    waived: tuple[RuleNote, ...]
    explained: tuple[RuleNote, ...]


class Precedent(Read):
    """An earlier decision that is followed or departed from."""

    decision: DecisionId
    how: str
    because: str | None


class Work(Read):
    """Work that has begun; `ended` is None while it goes on."""

    started: Day
    ended: Day | None
    by: tuple[str, ...]
    as_done: tuple[Step, ...]
    departures: tuple[str, ...]


class OldPart(Read):
    """What came off, or will: no day while it is only planned."""

    machine: Id
    address: Address
    day: Day | None
    origin: Origin | None
    name: str
    count: int
    label: Label | None
    fate: Fate | None
    now_in: str | None


class Outcome(Read):
    """What was seen when somebody looked again."""

    day: Day
    by: str
    what: str


class LookAgain(Read):
    """When somebody looks again."""

    day: Day | None
    after: str | None


class Agreement(Read):
    """Who agreed, in which role, and the start of the seal."""

    role: Role
    by: str
    day: Day
    seal: str


class Finding(Read):
    """A finding marked public."""

    id: FindingId
    day: Day
    by: str | None
    part: str | None
    place: Address | None
    basis: Basis
    what: str
    grade: Grade
    measurement: str | None
    instrument: str | None
    put_off_until: Day | None
    put_off_because: str | None
    is_open: bool


class Aim(Read):
    """What the decision was for."""

    what: str
    because: str


class Decision(Read):
    """One published decision."""

    id: DecisionId
    machine: Id
    machine_name: str
    kept: Kept
    title: str
    question: str
    aim: Aim
    about: tuple[Address, ...]
    findings: tuple[Finding, ...]
    policy: Id
    departs_from_policy: str | None
    state: State
    opened: Day
    settled: Day
    until: Day | None
    proposed_by: str
    judged_by: str | None
    options: tuple[Option, ...]
    choice: Choice
    weighing: Weighing | None
    rules: Rules
    precedents: tuple[Precedent, ...]
    emergency: str | None
    work: Work | None
    old_parts: tuple[OldPart, ...]
    outcomes: tuple[Outcome, ...]
    look_again: LookAgain
    agreed: tuple[Agreement, ...]
    replaced_by: DecisionId | None
    replaces: DecisionId | None


class Part(Read):
    """A place in the machine, and in words what sits there today."""

    address: Address
    name: str
    count: int
    origin: Origin
    made_to: MadeTo
    mass: str | None
    material: str | None
    drawing: str | None
    can_be_made: bool | str
    last_known: bool
    today: tuple[str, ...]


class Assembly(Read):
    """Parts that belong together."""

    id: Id
    name: str
    parts: tuple[Part, ...]


class Picture(Read):
    """A picture; `path` is its address in the site."""

    path: str
    alt: str


class Machine(Read):
    """One machine."""

    id: Id
    name: str
    what: str
    built: str | None
    number: str | None
    as_of: Day
    kept_now: Kept
    matters: str
    judged_against: str
    assemblies: tuple[Assembly, ...]
    findings: tuple[Finding, ...]
    pictures: tuple[Picture, ...]


class Rule(Read):
    """One rule of the book, or the museum's own, which `policy` names."""

    id: Id
    code: str
    level: str
    waivable: bool
    title: str
    why: str
    family: str
    scope: str
    when: str
    holds: str
    remedy: str
    policy: Id | None


class Policy(Read):
    """One dated policy."""

    id: Id
    title: str | None
    valid_from: Day


class Withheld(Read):
    """In place of a record that is not shown."""

    id: DecisionId
    machine: Id
    because: str


class Museum(Read):
    """The museum, and the ids of what else it publishes."""

    name: str
    place: str | None
    web: Web | None
    about: str | None
    machines: tuple[Id, ...]
    decisions: tuple[DecisionId, ...]
    withheld: tuple[Withheld, ...]
    rules: tuple[Rule, ...]
    policies: tuple[Policy, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """All that one museum publishes, as on a day, machines and decisions in the order of ids."""

    as_of: str
    museum: Museum
    machines: tuple[Machine, ...]
    decisions: tuple[Decision, ...]

    @property
    def name(self) -> str:
        """What tells this museum from others: its web address, else its name."""
        return self.museum.web or self.museum.name
