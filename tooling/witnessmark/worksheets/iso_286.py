"""Limit deviations of a hole or shaft class, looked up in the tables of ISO 286-1, never reckoned.

Deviations are in micrometres from the nominal size, as (upper, lower). The rules from shaft to
hole are those of ISO 286-1:2010 (clauses from memory, checked with a printed table of holes).
"""

from __future__ import annotations

import bisect
import re
from fractions import Fraction
from typing import Annotated, TypeAlias

from pydantic import AfterValidator, Field

from witnessmark.model.fields import Exact, Whole
from witnessmark.worksheets.declare import CannotCompute, Source
from witnessmark.worksheets.table_reading import WrittenTable, read_table

Deviations: TypeAlias = tuple[Fraction, Fraction]

_CLASS = re.compile(r"(?P<letters>[A-Za-z]{1,2})(?P<grade>\d{1,2})", re.ASCII)
# Grades up to which holes K, M and N, and holes P and beyond, take the delta; and the grades in
# which shaft k has a deviation of its own (ISO 286-1:2010, footnotes of its tables, from memory).
_DELTA_KMN, _DELTA_P_ON, _K_FROM, _K_TO = 8, 7, 4, 7
_SMALLEST_STEP = Fraction(3)
# ISO 286-2:2010: M6 over 250 up to 315 mm has ES = -9, where the rule would give -11.
_M6_FROM, _M6_TO, _M6_UPPER = Fraction(250), Fraction(315), Fraction(-9)


def _long_or_short(row: tuple[Fraction | None, ...]) -> tuple[Fraction | None, ...]:
    if len(row) not in (13, 25):
        raise ValueError(f"a row of {len(row)} figures fits no list of steps")
    return row


_Row = Annotated[tuple[Exact | None, ...], AfterValidator(_long_or_short)]
_Row13 = Annotated[tuple[Exact, ...], Field(min_length=13, max_length=13)]


class _Iso286(WrittenTable):
    steps: tuple[Whole, ...]
    fine_steps: tuple[Whole, ...]
    tolerances: dict[str, _Row13]
    shafts_under: dict[str, _Row]
    shafts_over: dict[str, _Row]
    shafts_j: dict[str, _Row13]
    holes_j: dict[str, _Row13]
    delta: dict[str, _Row13]

    def at(self, row: _Row, *, size: Fraction) -> Fraction | None:
        """Give the figure of a row for a size: over the step before, up to and including its own.

        The row has as many figures as there are steps, or as there are fine steps.
        """
        steps = self.steps if len(row) == len(self.steps) else self.fine_steps
        return row[bisect.bisect_left(steps, size)]


def _table() -> _Iso286:
    return read_table("iso-286", kind=_Iso286)


def sources() -> tuple[Source, ...]:
    """Give the sources of the tables."""
    return _table().cited()


def letters() -> tuple[str, ...]:
    """Give the shaft letters of the tables; the holes have the same in capitals."""
    table = _table()
    return tuple(sorted([*table.shafts_under, *table.shafts_over, "j", "js"]))


def shaft_deviations(written: str, *, size: Fraction) -> Deviations:
    """Give the upper and lower deviation of a shaft class, such as p6."""
    letter, grade = _parted(written, name="shaft")
    width = _tolerance(written, grade=grade, size=size, name="shaft")
    if letter == "js":
        return width / 2, -width / 2
    table = _table()
    if letter in table.shafts_under:
        upper = _figure(written, table.shafts_under[letter], size=size, name="shaft")
        return upper, upper - width
    lower = _shaft_lower(written, letter=letter, grade=grade, size=size)
    return lower + width, lower


def hole_deviations(written: str, *, size: Fraction) -> Deviations:
    """Give the upper and lower deviation of a hole class, such as H7."""
    letter, grade = _parted(written, name="hole")
    width = _tolerance(written, grade=grade, size=size, name="hole")
    if letter == "js":
        return width / 2, -width / 2
    table = _table()
    if letter in table.shafts_under:
        lower = -_figure(written, table.shafts_under[letter], size=size, name="hole")
        return lower + width, lower
    upper = _hole_upper(written, letter=letter, grade=grade, size=size)
    return upper, upper - width


def _parted(written: str, *, name: str) -> tuple[str, int]:
    found = _CLASS.fullmatch(written)
    if found is None:
        raise TypeError(f"{written} passed the pattern of the sheet")
    word = found["letters"]
    if word != (word.upper() if name == "hole" else word.lower()):
        raise CannotCompute(
            name,
            message=f"'{written}' is not the class of a {name}.",
            fix="A hole class has capital letters, as in H7; a shaft class small ones, as in p6.",
        )
    if word.lower() not in letters():
        raise CannotCompute(
            name,
            message=f"The tables here have no '{written}'.",
            fix=f"They hold {', '.join(letters())}, for holes in capitals.",
        )
    return word.lower(), int(found["grade"])


def _tolerance(written: str, *, grade: int, size: Fraction, name: str) -> Fraction:
    table = _table()
    row = table.tolerances.get(f"IT{grade}")
    if row is None:
        raise CannotCompute(
            name,
            message=f"The tables here have no grade {grade}, so not '{written}'.",
            fix=f"They hold {', '.join(table.tolerances)}.",
        )
    return _figure(written, row, size=size, name=name)


def _figure(written: str, row: _Row | None, *, size: Fraction, name: str) -> Fraction:
    figure = None if row is None else _table().at(row, size=size)
    if figure is None:
        raise CannotCompute(
            name,
            message=f"The standard gives no '{written}' at {float(size):g} mm.",
            fix="Take a class it gives at this size, or check the size.",
        )
    return figure


def _shaft_lower(written: str, *, letter: str, grade: int, size: Fraction) -> Fraction:
    if letter == "k" and not _K_FROM <= grade <= _K_TO:
        return Fraction(0)
    table = _table()
    row = table.shafts_j.get(f"IT{grade}") if letter == "j" else table.shafts_over[letter]
    return _figure(written, row, size=size, name="shaft")


def _hole_upper(written: str, *, letter: str, grade: int, size: Fraction) -> Fraction:
    table = _table()
    if letter == "j":
        return _figure(written, table.holes_j.get(f"IT{grade}"), size=size, name="hole")
    mirrored = -_figure(written, table.shafts_over[letter], size=size, name="hole")
    if letter == "m" and grade == 6 and _M6_FROM < size <= _M6_TO:  # noqa: PLR2004 - grade 6
        return _M6_UPPER
    if grade <= (_DELTA_KMN if letter in "kmn" else _DELTA_P_ON):
        return mirrored + _figure(written, table.delta[f"IT{grade}"], size=size, name="hole")
    if letter == "n" and size > _SMALLEST_STEP:
        return Fraction(0)
    if letter == "k" and size > _SMALLEST_STEP:
        return _figure(written, None, size=size, name="hole")
    return mirrored
