"""What the public may see of one decision: frozen values, each field allowed by name."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import TYPE_CHECKING

from witnessmark.model.words import (
    Aspect,
    Carrier,
    Criterion,
    Do,
    Fate,
    Kept,
    Kind,
    Like,
    Origin,
    Phase,
    Role,
    State,
)
from witnessmark.publish.public_across import PublicPrecedent
from witnessmark.publish.public_weighing import PublicWeighing
from witnessmark.rules.rule import RuleLevel
from witnessmark.scoring.score import one_decimal

if TYPE_CHECKING:
    from witnessmark.publish.public import PublicFinding, PublicPicture


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicScore:
    """A score with its facts; `withheld` says why there is none."""

    low: Fraction = Fraction(0)
    likely: Fraction = Fraction(0)
    high: Fraction = Fraction(0)
    facts: tuple[str, ...] = ()
    withheld: tuple[str, ...] = ()

    @property
    def is_given(self) -> bool:
        """True when there is a score."""
        return not self.withheld

    @property
    def text(self) -> str:
        """The score as people read it, the range behind it where there is one."""
        if self.withheld:
            return "not scored"
        low, likely, high = map(one_decimal, (self.low, self.likely, self.high))
        return likely if low == likely == high else f"{likely} ({low}\N{EN DASH}{high})"


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicAspect:
    """One of the six aspects of one option; `score` is None where it does not apply."""

    aspect: Aspect
    weight: Fraction
    score: PublicScore | None
    how: str
    because: str
    by: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicAnswer:
    """A hazard under an option: what was there before, what is left and what was done about it."""

    what: str
    when: Phase
    before: str
    after: str
    because: str | None
    controls: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicStep:
    """One step or consequence in a sentence, with how far it can be undone.

    The sentence is for people; what follows `because` says the same once more for programs. `do` is
    None for a consequence, and `becomes` is None for a step. `places` are part addresses, `source`
    is the part of another machine that a donor gives, as machine and address.
    """

    text: str
    undo: int | None
    because: str | None
    do: Do | None = None
    places: tuple[str, ...] = ()
    count: int | None = None
    fate: Fate | None = None
    labels: tuple[str, ...] = ()
    like: Like | None = None
    what: str | None = None
    material: str | None = None
    drawing: str | None = None
    marked: str | None = None
    source: tuple[str, str] | None = None
    becomes: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Pieces:
    """Original pieces in question: how many stay, leave and are kept, or are lost.

    `altered` counts those of the pieces that stay which are no longer as they were.
    """

    stay: int
    kept: int
    lost: int
    altered: int = 0

    @property
    def in_all(self) -> int:
        """All that are in question."""
        return self.stay + self.kept + self.lost

    @property
    def as_they_are(self) -> int:
        """Those that stay and are left alone."""
        return self.stay - self.altered


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicOption:
    """One option with its scores and how it came out; the same fields for every option."""

    id: str
    letter: str
    kind: Kind
    title: str
    what: str | None
    steps: tuple[PublicStep, ...]
    consequences: tuple[PublicStep, ...]
    no_consequences: str | None
    pieces: Pieces | None
    changed: tuple[tuple[str, str], ...]
    untouched: tuple[str, ...]
    not_scored: str | None
    undone_means: str | None = None
    way_back: str | None
    later_cost: str | None
    why_not: str | None
    effort: tuple[tuple[str, str], ...]
    answers: tuple[PublicAnswer, ...]
    aspects: tuple[PublicAspect, ...]
    scores: tuple[tuple[Criterion, PublicScore], ...]
    aside: tuple[str, ...]
    is_chosen: bool

    def score(self, criterion: str) -> PublicScore | None:
        """The score on one criterion."""
        return next((score for word, score in self.scores if word == criterion), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicSheet:
    """A worksheet as reckoned: each row is a name, a value and what it means.

    `sheet` is the method's id, `id` what the record calls this use of it; `relied_on_by` gives the
    letters of the options that rest on it.
    """

    id: str
    sheet: str
    title: str
    tells: str
    formula: tuple[str, ...]
    is_known: bool
    given: tuple[tuple[str, str, str], ...]
    results: tuple[tuple[str, str, str], ...]
    limits: tuple[str, ...]
    verdict: str | None
    verdict_means: str | None
    cautions: tuple[str, ...]
    source: str
    bears_on: tuple[str, ...]
    relied_on_by: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicRuleNote:
    """A rule that rests or is not followed, with the reason."""

    rule: str
    title: str
    level: RuleLevel | None
    because: str
    approver: str | None = None
    until: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicOldPart:
    """A part that came off, or will: its label and whether it can be seen, never the place.

    `machine` and `address` say where it sat. `day` is the last day of the work that took it off,
    None while it is only planned, and so is `origin`.
    """

    machine: str
    address: str
    day: date | None = None
    origin: Origin | None = None
    name: str
    count: int
    label: str | None
    fate: Fate | None
    now_in: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicLeft:
    """Old stock that some option would fit: what it is, and how much is left; never the place."""

    what: str
    left: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicEvent:
    """One line of the time line; `is_due` where something was promised for that day only."""

    day: date
    what: str
    is_main: bool = False
    is_ahead: bool = False
    is_due: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicRevision:
    """The last revision of the record's file, as git gave it."""

    name: str
    day: date
    url: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicTold:
    """What one filed version changed, in sentences about public fields."""

    day: date
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicHistory:
    """How the record changed since it became public, the latest first.

    `is_shallow`: older versions are missing here, so nothing is told. `is_from_the_start`: it was
    public from its first version on. `passed_over` counts versions that cannot be read today.
    `is_edited`: what this page shows is not filed yet.
    """

    told: tuple[PublicTold, ...] = ()
    is_shallow: bool = False
    is_from_the_start: bool = False
    passed_over: int = 0
    is_edited: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicAgreement:
    """One agreement: the role, who by title, when, and the start of the seal."""

    role: Role
    by: str
    day: date
    seal: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicDecision:
    """One published decision."""

    id: str
    machine: str
    machine_name: str
    kept: Kept
    title: str
    question: str
    aim: str
    aim_because: str
    about: tuple[str, ...]
    places: tuple[str, ...] = ()
    findings: tuple[PublicFinding, ...]
    policy: str
    departs_from_policy: str | None
    state: State
    opened: date
    settled: date
    until: date | None
    proposed_by: str
    judged_by: str | None
    no_hazards: str | None
    options: tuple[PublicOption, ...]
    because: str
    gives_up: str
    would_change_our_mind: str
    dissent: tuple[tuple[str, str, str], ...]
    losses: tuple[tuple[str, tuple[Carrier, ...]], ...]
    no_losses: str | None
    weighing: PublicWeighing | None
    departs_from_ranking: str | None
    precedents: tuple[tuple[str, str], ...]
    met_before: tuple[PublicPrecedent, ...] = ()
    accepted_risk: tuple[str, str, date] | None
    sheets: tuple[PublicSheet, ...]
    waived: tuple[PublicRuleNote, ...]
    explained: tuple[PublicRuleNote, ...]
    met: tuple[tuple[str, str], ...]
    broken: tuple[tuple[str, str], ...]
    emergency: str | None
    started: date | None
    ended: date | None
    done_by: tuple[str, ...]
    as_done: tuple[PublicStep, ...]
    departures: tuple[str, ...]
    old_parts: tuple[PublicOldPart, ...]
    stock: tuple[PublicLeft, ...] = ()
    outcomes: tuple[tuple[date, str, str], ...]
    look_again: date | None
    look_after: str | None
    unknown: tuple[str, ...]
    agreed: tuple[PublicAgreement, ...]
    timeline: tuple[PublicEvent, ...]
    pictures: tuple[PublicPicture, ...]
    replaced_by: str | None
    replaces: str | None
    file: str
    revision: PublicRevision | None
    history: PublicHistory | None = None

    @property
    def chosen(self) -> PublicOption | None:
        """The option that was chosen."""
        return next((option for option in self.options if option.is_chosen), None)

    @property
    def nothing_done(self) -> tuple[PublicOption, ...]:
        """The options that leave things as they are."""
        return tuple(option for option in self.options if option.kind is Kind.LEAVE_AS_FOUND)

    @property
    def set_aside(self) -> tuple[PublicOption, ...]:
        """The options ruled out before weighing."""
        return tuple(option for option in self.options if option.aside)

    @property
    def looked_on(self) -> date | None:
        """The day on which the promised second look was taken; who looks early moves the day on."""
        due = self.look_again
        return next((day for day, *_ in self.outcomes if due and day >= due), None)

    @property
    def year(self) -> str:
        """The year in the id, by which decisions are listed."""
        return self.id[:4]
