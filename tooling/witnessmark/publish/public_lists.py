"""What the public may see across machines: old parts, old stock, what is due, and what runs."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from witnessmark.model.words import Fate, MadeTo, Purpose
from witnessmark.rules.due_kinds import DueKind
from witnessmark.rules.removed import Seen
from witnessmark.rules.runs_today import Runs


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicReason:
    """Why a machine runs or stands; `says` is None where it rests on a record that is not shown."""

    weight: Runs
    says: str | None
    decision: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicRuns:
    """Whether a machine runs on the day of the site, as the records have it; no certificate."""

    runs: Runs
    reasons: tuple[PublicReason, ...]
    notice: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicRemoved:
    """An original that came off under a published decision; never the place where it lies."""

    machine: str
    machine_name: str
    name: str
    count: int
    label: str | None
    fate: Fate | None
    seen: Seen
    now_in: str | None
    day: date
    decision: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicDraw:
    """Pieces that came out of a lot; `decision` is None where that decision is not shown."""

    decision: str | None
    count: int
    day: date | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicLot:
    """A lot of old stock in plain numbers: no giver, no condition, no place.

    `lasts` is in whole years, soonest, likely and latest; None where no end is in sight.
    """

    what: str
    made_to: MadeTo
    can_be_made: bool | str
    purpose: Purpose
    counted: date
    count: int
    left: int
    reserved: int
    draws: tuple[PublicDraw, ...]
    lasts: tuple[int, int | None, int | None] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicDue:
    """Something the museum has promised to come back to by a day."""

    kind: DueKind
    day: date
    machine: str
    machine_name: str
    what: str
    decision: str | None
    is_overdue: bool
