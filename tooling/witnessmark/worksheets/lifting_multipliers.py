"""The multipliers of the NIOSH revised lifting equation, in either of its two sets of constants.

The US and the metric constants are no exact conversions of each other, so a run keeps to one set.
All figures are exact fractions. Rounded stepwise, a half goes up: the manual's tables round all
fifteen of theirs so.

Source: Waters, Putz-Anderson and Garg, NIOSH 94-110 (1994, revised September 2021), section 1.3;
the formulas as read in a public transcription with page numbers.
"""

from __future__ import annotations

import math
from fractions import Fraction
from functools import cache
from itertools import pairwise
from typing import NamedTuple

from witnessmark.model.fields import Exact, Text, Written
from witnessmark.worksheets.table_reading import WrittenTable, read_table

_CENT = Fraction(1, 100)
# Page 12: no asymmetry over 135 degrees.
_MOST_TWIST = 135


class Constants(NamedTuple):
    """One set of constants; lengths in `length` metres, loads in `mass` kilograms."""

    length: Fraction
    mass: Fraction
    load: int
    near: int
    far: int
    knuckle: int
    slope: Fraction
    reach: int
    rise: Fraction
    least_travel: int
    most_travel: int


# Pages 7 to 11; the metric far reach is 63 cm in text and table 1, where 25 in are 63.5.
SYSTEMS = {
    "us": Constants(
        length=Fraction("0.0254"),
        mass=Fraction("0.45359237"),
        load=51,
        near=10,
        far=25,
        knuckle=30,
        slope=Fraction("0.0075"),
        reach=70,
        rise=Fraction("1.8"),
        least_travel=10,
        most_travel=70,
    ),
    "metric": Constants(
        length=Fraction("0.01"),
        mass=Fraction(1),
        load=23,
        near=25,
        far=63,
        knuckle=75,
        slope=Fraction("0.003"),
        reach=175,
        rise=Fraction("4.5"),
        least_travel=25,
        most_travel=175,
    ),
}


class _Frequency(Written):
    per_minute: Exact
    short: tuple[Exact, Exact]
    moderate: tuple[Exact, Exact]
    long: tuple[Exact, Exact]


class _Cell(Written):
    system: Text
    multiplier: Text
    at: Exact
    printed: Exact


class _Lifting(WrittenTable):
    frequency: tuple[_Frequency, ...]
    coupling: dict[Text, tuple[Exact, Exact]]
    printed_otherwise: tuple[_Cell, ...]


@cache  # a part of the program; read where it is first needed
def table() -> _Lifting:
    """Give the manual's tables."""
    return read_table("niosh-lifting", kind=_Lifting)


def horizontal(h: Fraction, *, constants: Constants) -> Fraction:
    """Give HM: near / H, 1 where the load is nearer than that, 0 out of reach."""
    return Fraction(0) if h > constants.far else constants.near / max(h, Fraction(constants.near))


def vertical(v: Fraction, *, constants: Constants) -> Fraction:
    """Give VM: less the farther the hands are from knuckle height, 0 out of reach."""
    away = abs(v - constants.knuckle)
    return Fraction(0) if v > constants.reach else 1 - constants.slope * away


def distance(d: Fraction, *, constants: Constants) -> Fraction:
    """Give DM: 0.82 + rise / D, 1 up to the least travel, 0 over the most."""
    if d > constants.most_travel:
        return Fraction(0)
    return Fraction("0.82") + constants.rise / max(d, Fraction(constants.least_travel))


def asymmetry(a: Fraction) -> Fraction:
    """Give AM for a twist in degrees: 1 - 0.0032 A, 0 over 135 degrees."""
    return Fraction(0) if a > _MOST_TWIST else 1 - Fraction("0.0032") * a


def frequency(f: Fraction, *, duration: str, is_high: bool) -> Fraction:
    """Give FM for F lifts a minute.

    Up to 0.2 the first row holds (pages 14 and 15). Between rows the multiplier goes straight from
    one to the next (page 7, and the manual's example 7). Where the next row is 0, the greatest
    frequency is passed and FM is 0: the manual does not say, and we take the safe side.
    """
    rows = [(row.per_minute, _cell(row, duration=duration)[is_high]) for row in table().frequency]
    if f <= rows[0][0]:
        return rows[0][1]
    for (under, low), (over, high) in pairwise(rows):
        if f == over:
            return high
        if f < over:
            return low + (high - low) * (f - under) / (over - under) if high else Fraction(0)
    return Fraction(0)


def _cell(row: _Frequency, *, duration: str) -> tuple[Fraction, Fraction]:
    return {"short": row.short, "moderate": row.moderate, "long": row.long}[duration]


def coupling(grip: str, *, is_high: bool) -> Fraction:
    """Give CM for a grip, with the hands at or over knuckle height, or under it."""
    return table().coupling[grip][is_high]


def as_printed(value: Fraction, *, multiplier: str, at: Fraction, system: str) -> Fraction:
    """Give a multiplier to two places as the manual's tables print it, three odd cells included."""
    for cell in table().printed_otherwise:
        if (cell.system, cell.multiplier, cell.at) == (system, multiplier, at):
            return cell.printed
    return math.floor(value / _CENT + Fraction(1, 2)) * _CENT
