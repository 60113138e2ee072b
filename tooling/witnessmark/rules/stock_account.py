"""What has become of each lot of old stock: drawn, left, reserved, and how long it will last."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from witnessmark.model.library import Library
from witnessmark.model.position import draws_on, stock_left
from witnessmark.model.stores import Lot
from witnessmark.model.words import Purpose
from witnessmark.weighing.steady_rate import steady_rate

DAYS_A_YEAR = 365.25
TO_BE_USED = frozenset({Purpose.SPARES, Purpose.UNDECIDED})
"""Purposes for which it makes sense to ask how long a lot lasts."""


@dataclass(frozen=True)
class Draw:
    """Pieces one decision drew, and the day its work ended; no day while they are reserved."""

    decision: str
    count: int
    day: date | None


@dataclass(frozen=True)
class Lasting:
    """How many more years a lot lasts at the rate so far; None where no end is in sight.

    `draws` and `years` are what the range rests on: it is for a steady rate of draws, each of as
    many pieces as they had on the mean so far (one, before the first).
    """

    soonest: float
    likely: float | None
    latest: float | None
    draws: int
    years: float


@dataclass(frozen=True, kw_only=True)
class LotAccount:
    """One lot on a day: what was counted, drawn and reserved, what is left, how long it lasts."""

    lot: Lot
    counted: date
    drawn: tuple[Draw, ...]
    reserved: tuple[Draw, ...]
    left: int
    lasting: Lasting | None

    @property
    def free(self) -> int:
        """Pieces left that no agreed work has reserved."""
        return self.left - sum(draw.count for draw in self.reserved)

    @property
    def is_last_of_its_kind(self) -> bool:
        """True where the type cannot be made again."""
        return self.lot.can_be_made is False

    @property
    def owes_a_decision(self) -> bool:
        """True where nobody has decided what the lot is for."""
        return self.lot.purpose is Purpose.UNDECIDED


def stock_accounts(library: Library, *, on: date) -> tuple[LotAccount, ...]:
    """The account of each lot by the end of a day, in the order of the stores' file."""
    return tuple(_accounts(library, on))


def _accounts(library: Library, on: date) -> Iterator[LotAccount]:
    stores = library.stores_file.value if library.stores_file else None
    for lot in stores.lots if stores else ():
        if stores:
            draws = _by_decision(library, lot.id)
            drawn = tuple(d for d in draws if d.day and stores.as_of <= d.day <= on)
            left = stock_left(library, lot.id, on + timedelta(days=1))
            yield LotAccount(
                lot=lot,
                counted=stores.as_of,
                drawn=drawn,
                reserved=tuple(draw for draw in draws if draw.day is None),
                left=left,
                lasting=_lasting(drawn, left=left, since=stores.as_of, on=on)
                if lot.purpose in TO_BE_USED
                else None,
            )


def _by_decision(library: Library, lot: str) -> tuple[Draw, ...]:
    """The draws on a lot, all that one decision took as one draw, by day and decision."""
    pieces: dict[tuple[date | None, str], int] = {}
    for day, decision, count in draws_on(library, lot):
        pieces[day, decision] = pieces.get((day, decision), 0) + count
    found = [Draw(decision, count, day) for (day, decision), count in pieces.items()]
    return tuple(sorted(found, key=lambda draw: (draw.day or date.max, draw.decision)))


def _lasting(drawn: tuple[Draw, ...], *, left: int, since: date, on: date) -> Lasting | None:
    """How long what is left lasts; none where nothing is left or no time has passed."""
    years = (on - since).days / DAYS_A_YEAR
    if left <= 0 or years <= 0:
        return None
    rate = steady_rate(len(drawn), years=years)
    each = sum(draw.count for draw in drawn) / len(drawn) if drawn else 1.0
    jobs = left / each
    return Lasting(
        soonest=jobs / rate.high,
        likely=jobs / rate.likely if rate.likely else None,
        latest=jobs / rate.low if rate.low else None,
        draws=len(drawn),
        years=years,
    )
