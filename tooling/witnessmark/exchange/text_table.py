"""A small table for a terminal: columns as wide as they need to be, the last one folded."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap

WIDTH = 92
"""Text for a terminal is folded here; it still fits a window a little wider than 80 columns."""

GAP = "  "
LEAST_LAST = 20


def render_table(
    heading: Sequence[str], rows: Sequence[Sequence[str]], *, numbers: frozenset[int] = frozenset()
) -> list[str]:
    """Give the lines of a table; columns in `numbers`, counted from 0, are set to the right.

    >>> render_table(["id", "value"], [["rebush", "3"], ["stop", "2.8"]], numbers=frozenset({1}))
    ['id      value', 'rebush      3', 'stop      2.8']
    """
    every = [heading, *rows]
    widths = [max(len(row[place]) for row in every) for place in range(len(heading))]
    return [line for row in every for line in _row(row, widths, numbers)]


def _row(row: Sequence[str], widths: Sequence[int], numbers: frozenset[int]) -> list[str]:
    cells = [
        cell.rjust(width) if place in numbers else cell.ljust(width)
        for place, (cell, width) in enumerate(zip(row, widths, strict=True))
    ]
    before = "".join(f"{cell}{GAP}" for cell in cells[:-1])
    room = max(WIDTH - len(before), LEAST_LAST)
    first, *rest = wrap(cells[-1], room, break_on_hyphens=False) or [""]
    aligned = cells[-1] if len(cells[-1]) <= room else first
    lines = [f"{before}{aligned}", *(f"{' ' * len(before)}{line}" for line in rest)]
    return [line.rstrip() for line in lines]


def folded(text: str, *, indent: str = "", rest: str | None = None) -> list[str]:
    """Give prose folded to the terminal, every line indented, those after the first as `rest`."""
    further = indent if rest is None else rest
    # Ids hold hyphens; one broken in two could not be copied.
    return wrap(
        text,
        WIDTH,
        initial_indent=indent,
        subsequent_indent=further,
        break_on_hyphens=False,
    ) or [indent]
