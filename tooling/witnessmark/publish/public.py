"""What the public may see: a separate set of frozen values, each field allowed by name.

Templates and feeds get these and nothing else, so a new field of a record stays private until
somebody adds it here and in the module that fills it.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from witnessmark.model.words import Aspect, Basis, Grade, Kept, MadeTo, Origin, Role, Stage, State
from witnessmark.publish.public_across import PublicLikeness, PublicReplays
from witnessmark.publish.public_decision import PublicDecision
from witnessmark.publish.public_lists import PublicDue, PublicLot, PublicRemoved, PublicRuns
from witnessmark.publish.public_policy import PublicPolicy
from witnessmark.publish.public_rule import PublicRule
from witnessmark.publish.public_worksheet import PublicWorksheet


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicPicture:
    """A picture marked public; `path` is its address on the site, width and height in pixels.

    `sizes` are the addresses and widths of all its copies, the narrowest first.
    """

    path: str
    width: int
    height: int
    sizes: tuple[tuple[str, int], ...]
    alt: str
    caption: str | None
    day: date | None
    stage: Stage | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicFinding:
    """A finding marked public; `answered_by` are published decisions that name it."""

    id: str
    day: date
    by: str | None
    part: str | None
    place: str | None = None
    basis: Basis
    what: str
    grade: Grade
    measurement: str | None
    instrument: str | None
    put_off_until: date | None
    put_off_because: str | None
    answered_by: tuple[str, ...]
    is_open: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicKept:
    """A way of keeping, from a day on."""

    since: date
    how: Kept
    because: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicPart:
    """A place in the machine, and in words what sits there today."""

    address: str
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


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicAssembly:
    """Parts that belong together."""

    id: str
    name: str
    parts: tuple[PublicPart, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """How much sits in the machine by where it comes from, and how much has come off."""

    as_built: Fraction = Fraction(0)
    in_service: Fraction = Fraction(0)
    unknown: Fraction = Fraction(0)
    museum_made: Fraction = Fraction(0)
    kept: Fraction = Fraction(0)
    elsewhere: Fraction = Fraction(0)
    lost: Fraction = Fraction(0)

    @property
    def in_place(self) -> Fraction:
        """All that sits in the machine."""
        return self.as_built + self.in_service + self.unknown + self.museum_made

    @property
    def originals(self) -> Fraction:
        """What sits in the machine and was not made for it by a museum."""
        return self.in_place - self.museum_made

    @property
    def whole(self) -> Fraction:
        """All that is accounted for, in the machine or off it."""
        return self.in_place + self.kept + self.elsewhere + self.lost


@dataclass(frozen=True, slots=True, kw_only=True)
class Account:
    """A machine's metal after one day; `decision` is the published decision that changed it."""

    day: date
    decision: str | None
    pieces: Tally
    kilograms: Tally
    unweighed: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicMachine:
    """One machine; `decisions` are its published decisions, newest first."""

    id: str
    name: str
    what: str
    built: str | None
    number: str | None
    as_of: date
    kept: tuple[PublicKept, ...]
    kept_now: Kept
    matters: str
    judged_against: str
    carried_by: tuple[tuple[Aspect, Fraction, int], ...]
    assemblies: tuple[PublicAssembly, ...]
    account: tuple[Account, ...]
    findings: tuple[PublicFinding, ...]
    pictures: tuple[PublicPicture, ...]
    decisions: tuple[str, ...]
    runs: PublicRuns

    @property
    def stops(self) -> tuple[PublicFinding, ...]:
        """Open findings for which the machine stands."""
        return tuple(f for f in self.findings if f.is_open and f.grade is Grade.STOP)


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicWithheld:
    """In place of a record: what machine it is about and why it is not shown."""

    id: str
    machine: str
    machine_name: str
    because: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicRole:
    """A role and the titles of those who hold it on the day of the site."""

    role: Role
    holders: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicMuseum:
    """All that the site shows, as of a day; `beside` are files that stand beside the pages.

    `is_demo` when that day is the one on which a demonstration museum is set.
    """

    name: str
    place: str | None
    web: str | None
    about: str | None
    licence: str | None
    as_of: date
    machines: tuple[PublicMachine, ...]
    decisions: tuple[PublicDecision, ...]
    withheld: tuple[PublicWithheld, ...]
    rules: tuple[PublicRule, ...]
    worksheets: tuple[PublicWorksheet, ...]
    policies: tuple[PublicPolicy, ...]
    replays: tuple[PublicReplays, ...]
    likeness: PublicLikeness | None
    roles: tuple[PublicRole, ...]
    removed: tuple[PublicRemoved, ...]
    stock: tuple[PublicLot, ...]
    due: tuple[PublicDue, ...]
    beside: frozenset[str] = frozenset()
    is_demo: bool = False

    @property
    def web_root(self) -> str | None:
        """The address under which every page stands, with a slash at its end."""
        return f"{self.web.rstrip('/')}/" if self.web else None

    def machine(self, name: str) -> PublicMachine:
        """One machine by id."""
        return next(machine for machine in self.machines if machine.id == name)

    def decision(self, name: str) -> PublicDecision | None:
        """One published decision by id."""
        return next((decision for decision in self.decisions if decision.id == name), None)

    def rule(self, name: str) -> PublicRule | None:
        """One rule by id."""
        return next((rule for rule in self.rules if rule.id == name), None)

    @property
    def standing(self) -> tuple[PublicDecision, ...]:
        """Decisions that stand, the one settled last first."""
        kept = [d for d in self.decisions if d.state is not State.REPLACED]
        return tuple(sorted(kept, key=lambda d: (d.settled, d.id), reverse=True))
