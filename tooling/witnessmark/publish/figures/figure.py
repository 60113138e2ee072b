"""What every figure has: a title, a finding in a sentence, a drawing and a table of its numbers."""

from __future__ import annotations

from dataclasses import dataclass

WIDTH = 320  # units across: one unit is one pixel on the narrowest phone
LEFT = 26
"""Where bars and scales start; option letters stand before it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """The same numbers as the drawing; the first cell of each row heads it.

    `is_wide` keeps each cell on one line, for a table of many short cells that scrolls sideways.
    """

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    is_wide: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A drawing and its table, made from the same numbers; `template` draws `drawing`.

    `reading` says how to read the drawing, where that is not plain.
    """

    id: str
    template: str
    title: str
    finding: str
    height: int
    drawing: object
    table: Table
    reading: str = ""


def units(value: float) -> str:
    """A place on the drawing: fixed decimals, so that the same numbers give the same bytes.

    >>> units(12.0), units(1 / 3)
    ('12', '0.33')
    """
    return f"{value:.2f}".rstrip("0").rstrip(".")
