"""The ISO 286 tables cell by cell against a second source: the PyPI package isofits 1.0, as data.

1480 cells from over 3 up to 400 mm in 74 classes. Six of them are wrong there, and each is shown to
be wrong by the source's own table: the limits of a class lie as far apart as those of H (or h) of
the same grade.
"""

from __future__ import annotations

import csv
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest

from witnessmark.worksheets.iso_286 import Deviations, hole_deviations, shaft_deviations

TABLE = Path(__file__).with_name("isofits_limits.csv")
CELLS, CLASSES = 1480, 74
# Class and size step, in mm, over and up to and including.
WRONG_THERE = {
    ("E7", 315, 355),
    ("E7", 355, 400),
    ("K6", 6, 10),
    ("f6", 120, 140),
    ("f6", 140, 160),
    ("f6", 160, 180),
}


class Cell(NamedTuple):
    """One class in one size step: limits in micrometres, upper then lower."""

    written: str
    over: int
    to: int
    limits: Deviations

    @property
    def place(self) -> tuple[str, int, int]:
        return self.written, self.over, self.to

    @property
    def width(self) -> Fraction:
        return self.limits[0] - self.limits[1]


@cache  # read once for all checks
def cells() -> tuple[Cell, ...]:
    with TABLE.open(encoding="utf-8") as file:
        head, *rows = csv.reader(line for line in file if not line.startswith("#"))
    steps = [tuple(map(int, step.split("-"))) for step in head[1:]]
    return tuple(
        Cell(written, over, to, _limits(text))
        for written, *texts in rows
        for (over, to), text in zip(steps, texts, strict=True)
    )


def _limits(text: str) -> Deviations:
    upper, lower = map(Fraction, text.split("/"))
    return upper, lower


def ours(cell: Cell, *, size: Fraction) -> Deviations:
    deviations = hole_deviations if cell.written[0].isupper() else shaft_deviations
    return deviations(cell.written, size=size)


def test_the_second_source_is_whole() -> None:
    assert CELLS == len(cells())
    assert CLASSES == len({cell.written for cell in cells()})


def test_every_cell_agrees_but_those_that_are_wrong_there() -> None:
    differing = {
        cell.place for cell in cells() if cell.limits != ours(cell, size=Fraction(cell.to))
    }
    assert WRONG_THERE == differing


def test_a_step_begins_over_its_lower_end() -> None:
    just_over = Fraction(1, 1000)
    differing = {
        cell.place for cell in cells() if cell.limits != ours(cell, size=cell.over + just_over)
    }
    assert WRONG_THERE == differing


@pytest.mark.parametrize("place", sorted(WRONG_THERE), ids=str)
def test_a_cell_that_is_wrong_there_is_as_wide_here_as_the_source_itself_has_its_grade(
    place: tuple[str, int, int],
) -> None:
    found = {cell.place: cell for cell in cells()}
    cell = found[place]
    upper, lower = ours(cell, size=Fraction(cell.to))
    basis = found[("H" if cell.written[0].isupper() else "h") + cell.written[1:], *place[1:]]
    assert basis.width == upper - lower
    assert basis.width != cell.width
