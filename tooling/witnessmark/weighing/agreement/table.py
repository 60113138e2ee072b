"""Ratings read from a table of comma-separated values: unit, rater, score and, if any, decision."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from dataclasses import dataclass
from io import StringIO
from typing import Final

from witnessmark.errors import WitnessmarkError
from witnessmark.weighing.agreement.ratings import Rating, Ratings
from witnessmark.weighing.exact_json import exact_number, quoted

NEEDED: Final = ("unit", "rater", "score")
KNOWN: Final = (*NEEDED, "decision")


@dataclass(frozen=True, slots=True)
class _Row:
    """One row of the table: its cells by column, and the line it ends on."""

    line: int
    place: str
    cells: dict[str, str]


def read_ratings(text: str, *, name: str = "The table") -> Ratings:
    """Give the ratings a table holds, a blank score being one that was not given.

    `name` is what the messages call the table. Any number may be a score.

    Raises:
        WitnessmarkError: a column or a cell is missing, stands twice, or cannot be read.

    """
    rows = list(_rows(text, name))
    if not rows:
        raise WitnessmarkError(
            f"{name} holds no ratings.", remedy="Write one row for each score, below the columns."
        )
    _refuse_twice(rows)
    _refuse_split_units(rows)
    return Ratings.of(rating for row in rows if (rating := _rating(row)) is not None)


def _rows(text: str, name: str) -> Iterator[_Row]:
    """Give the rows below the heading, rows without any text left out."""
    reader = csv.reader(StringIO(text.removeprefix("\ufeff"), newline=""), strict=True)
    heading: list[str] | None = None
    try:
        for cells in reader:
            written = [cell.strip() for cell in cells]
            place = f"{name}, line {reader.line_num}"
            if not any(written):
                continue
            if heading is None:
                heading = _heading(written, place)
            else:
                yield _row(heading, written, place, reader.line_num)
    except csv.Error as fault:
        raise WitnessmarkError(
            f"{name}, line {reader.line_num}: the row cannot be read ({fault}).",
            remedy="Close every quotation mark, and save the table as plain text with commas.",
        ) from None
    if heading is None:
        raise WitnessmarkError(
            f"{name} is empty.", remedy=f"Begin it with the columns {', '.join(NEEDED)}."
        )


def _heading(written: list[str], place: str) -> list[str]:
    columns = [cell.casefold() for cell in written]
    if len(columns) == 1 and (";" in columns[0] or "\t" in columns[0]):
        raise WitnessmarkError(
            f"{place}: the columns are not parted by commas.", remedy="Save it with commas."
        )
    missing = [column for column in NEEDED if column not in columns]
    if missing:
        raise WitnessmarkError(
            f"{place}: no column is called {' or '.join(missing)}.",
            remedy=f"Name the columns {', '.join(NEEDED)} and, if you wish, decision.",
        )
    for column in columns:
        if column not in KNOWN:
            raise WitnessmarkError(
                f"{place}: the column {quoted(column)} is not known here.",
                remedy=f"Keep only {', '.join(KNOWN)}.",
            )
        if columns.count(column) > 1:
            raise WitnessmarkError(
                f"{place}: the column {column} stands twice.", remedy="Keep one of them."
            )
    return columns


def _row(heading: list[str], written: list[str], place: str, line: int) -> _Row:
    if len(written) != len(heading):
        raise WitnessmarkError(
            f"{place}: there are {len(written)} cells under {len(heading)} columns.",
            remedy="Give each column its cell; leave a missing score blank between its commas.",
        )
    cells = dict(zip(heading, written, strict=True))
    for column in ("unit", "rater"):
        if not cells[column]:
            raise WitnessmarkError(
                f"{place}: the {column} is blank.", remedy=f"Write the {column}, or drop the row."
            )
    return _Row(line, place, cells)


def _rating(row: _Row) -> Rating | None:
    written = row.cells["score"]
    if not written:
        return None
    try:
        score = exact_number(written, place=row.place)
    except WitnessmarkError as fault:
        raise WitnessmarkError(
            fault.message,
            remedy="Write a score such as 3 or 2.5; leave it blank where none was given.",
        ) from None
    return Rating(row.cells["unit"], row.cells["rater"], score, row.cells.get("decision") or None)


def _refuse_twice(rows: list[_Row]) -> None:
    seen: dict[tuple[str, str], int] = {}
    for row in rows:
        unit, rater = row.cells["unit"], row.cells["rater"]
        if (unit, rater) in seen:
            raise WitnessmarkError(
                f"{row.place}: {quoted(rater)} already scored {quoted(unit)} on line"
                f" {seen[unit, rater]}.",
                remedy="Keep the score that was given first, before any talk.",
            )
        seen[unit, rater] = row.line


def _refuse_split_units(rows: list[_Row]) -> None:
    """Refuse a unit of two decisions: all its scores are drawn together or not at all."""
    homes: dict[str, _Row] = {}
    for row in rows:
        earlier = homes.setdefault(row.cells["unit"], row)
        home, other = (each.cells.get("decision", "") for each in (earlier, row))
        if home != other:
            raise WitnessmarkError(
                f"{row.place}: {quoted(row.cells['unit'])} belongs to"
                f" {quoted(other) if other else 'no decision'} here and to"
                f" {quoted(home) if home else 'none'} on line {earlier.line}.",
                remedy="Name one decision in every row of a unit.",
            )
