"""Scores on a scale from 0 to 4: a tick for the likely score on a pale band for its range.

No bar starts at nought: a bar makes the values inside it look likelier (Correll and Gleicher,
Error bars considered harmful, 2014, as digested).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from witnessmark.publish.figures.figure import LEFT, Figure, Table, units
from witnessmark.publish.public_decision import PublicScore

RIGHT = 238
"""Where the scale ends; the numbers stand behind it."""
STEP = Fraction(RIGHT - LEFT, 4)
_HEADING, _ROW, _GAP = 20, 20, 12
_SHADES = 4  # options beyond the fourth share one neutral shade and are told by their letters


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One score: its letter, its tick, its band and its number; `is_given` false draws dashes."""

    letter: str
    shade: int
    is_chosen: bool
    y: int
    tick: str
    band: str
    span: str
    text: str
    is_given: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """The marks of one criterion or aspect under its name."""

    name: str
    y: int
    marks: tuple[Mark, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Scales:
    """Every group, and the lines of the levels."""

    groups: tuple[Group, ...]
    grid: tuple[tuple[str, str], ...]
    floor: int


Row = tuple[str, Sequence[tuple[str, PublicScore | None]]]
"""A criterion or aspect, and for each option its letter and score, None where it does not apply."""


def scales_figure(
    rows: Sequence[Row], *, name: str, title: str, finding: str, chosen: str | None = None
) -> Figure:
    """The figure of some criteria or aspects for all options."""
    groups, top = [], 0
    for heading, scores in rows:
        groups.append(_group(heading, scores, top, chosen))
        top += _HEADING + _ROW * len(scores) + _GAP
    grid = tuple((units(float(LEFT + STEP * n)), str(n)) for n in range(5))
    letters = [letter for letter, _ in rows[0][1]] if rows else []
    return Figure(
        id=name,
        template="figures/scales.svg",
        title=title,
        finding=finding,
        height=top + _HEADING,
        drawing=Scales(groups=tuple(groups), grid=grid, floor=top),
        table=Table(
            head=("", *(f"Option {letter}" for letter in letters)),
            rows=tuple((heading, *(_text(s) for _, s in scores)) for heading, scores in rows),
        ),
    )


def _group(
    heading: str, scores: Sequence[tuple[str, PublicScore | None]], top: int, chosen: str | None
) -> Group:
    first = top + _HEADING + _ROW // 2
    marks = tuple(
        _mark(letter, shade, score, first + shade * _ROW, chosen)
        for shade, (letter, score) in enumerate(scores)
    )
    return Group(name=heading, y=top + 14, marks=marks)


def _text(score: PublicScore | None) -> str:
    return "does not apply" if score is None else score.text


def _mark(letter: str, shade: int, score: PublicScore | None, y: int, chosen: str | None) -> Mark:
    given = score if score is not None and score.is_given else None
    low, likely, high = (given.low, given.likely, given.high) if given else (0, 0, 4)
    return Mark(
        letter=letter,
        shade=min(shade, _SHADES),
        is_chosen=letter == chosen,
        y=y,
        tick=units(float(LEFT + STEP * likely)),
        band=units(float(LEFT + STEP * low)),
        span=units(float(STEP * (high - low))),
        text=_text(score),
        is_given=given is not None,
    )
