"""What a rule sees of the museum, of a machine and of a finding."""

from __future__ import annotations

from typing import TypedDict

from witnessmark.rules.view_words import (
    AspectWord,
    BasisWord,
    FoundMadeToWord,
    GradeWord,
    KeptWord,
    Known,
    MadeToWord,
    OriginWord,
    PurposeWord,
    RoleWord,
)


class LotView(TypedDict):
    """A lot of old stock; `left_before` and `left_after` are pieces around this option's drawing.

    Where nothing is drawn, `drawn` is 0 and both are what is left.
    """

    id: str
    what: str
    is_known: bool
    origin: OriginWord
    made_to: MadeToWord
    can_be_made: Known
    has_pattern: bool
    conditions: str
    giver: str
    purpose: PurposeWord
    because: str
    drawn: int
    left_before: int
    left_after: int


class MuseumView(TypedDict):
    """The museum as a whole; `roles_held` are the roles that somebody holds or has held."""

    name: str
    roles_held: list[RoleWord]
    lots: list[LotView]


class CarriedView(TypedDict):
    """How much of a machine's value an aspect of authenticity carries."""

    aspect: AspectWord
    weight: float


class MachineView(TypedDict):
    """A machine, as a decision about it sees it; `kept` is as on the day it is read.

    `kept_since` is when that way of keeping began. The lists hold the addresses of parts as
    machine.yml lists them: last known, with tack-welded heads, made left and right, ones a scratch
    could crack, and ones that bear marks of identity.
    """

    id: str
    name: str
    kept: KeptWord
    owner: str
    is_museums_own: bool
    conditions: str
    statement: str
    judged_against: str
    carried_by: list[CarriedView]
    kept_since: str
    running_shows: str
    last_known: list[str]
    tacked: list[str]
    handed: list[str]
    highly_stressed: list[str]
    bearing_marks: list[str]


class PartView(TypedDict):
    """A part as machine.yml lists it; `index` counts inside its assembly, from 0."""

    assembly: str
    assembly_index: int
    index: int
    part: str
    name: str
    origin: OriginWord
    made_to: MadeToWord
    count: int
    can_be_made: Known
    is_last_known: bool
    sought: str
    made_to_known_from: str
    material: str
    drawing: str
    plating: str
    note: str


class WholeMachineView(MachineView):
    """A machine with all its parts, as rules about machines see it.

    `decided` and `kept_look_again` are of the way of keeping that machine.yml says last, and
    `kept_index` is its place in the file.
    """

    as_of: str
    kept_index: int
    decided: str
    kept_look_again: str
    parts: list[PartView]


class AnsweringView(TypedDict):
    """A decision that rests on a finding."""

    id: str
    is_settled: bool


class FindingView(TypedDict):
    """One finding; dates are texts such as 2024-02-11, so that they compare as days do.

    `made_to` is that of its part, empty where the finding names none.
    """

    id: str
    found_on: str
    by: str
    part: str
    made_to: FoundMadeToWord
    basis: BasisWord
    told_by: str
    grade: GradeWord
    what: str
    measurement: str
    instrument: str
    limit: str
    limit_from: str
    cause: str
    has_photo: bool
    put_off_until: str
    put_off_because: str
    decisions: list[AnsweringView]
