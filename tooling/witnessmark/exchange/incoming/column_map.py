"""The map: which column of somebody else's list holds which of our fields."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Literal

from witnessmark.errors import RefusedError
from witnessmark.exchange.incoming.table import Row
from witnessmark.model.corrections import MISSING
from witnessmark.model.day_spellings import Order
from witnessmark.model.fields import Text, Written
from witnessmark.model.shape import shape
from witnessmark.model.source import read
from witnessmark.model.spelling import hint


class ColumnMap(Written):
    """What a map file says.

    `columns`: our field by the header of the list; `always`: a field with the same value in every
    row; `words`: by field, our word for each of theirs; `dates`: whether 3/4/1998 is the third of
    April (day-first) or not; `separator`: the sign between cells, where it cannot be told.
    """

    columns: dict[str, Text]
    always: dict[str, Text] = {}
    words: dict[str, dict[str, Text]] = {}
    dates: Literal["day-first", "month-first"] | None = None
    separator: Literal[";", ","] | None = None

    @property
    def order(self) -> Order | None:
        """How two numbers before a year are read, if the house has settled it."""
        return Order(self.dates) if self.dates else None


def read_map(raw: bytes, *, file: str, fields: Sequence[str]) -> ColumnMap:
    """The map in a file.

    Raises:
        RefusedError: it has a fault, or names a field that this kind of list does not have.
    """
    shaped = shape(read(file, raw), ColumnMap)
    # A name that is misspelt says more than the field that is missing because of it.
    for fault in sorted(shaped.diagnostics, key=lambda one: one.code == MISSING):
        raise RefusedError(f"{file}, line {fault.line}: {fault.message}", remedy=fault.fix)
    found = shaped.value
    if found is None:
        raise RefusedError(f"{file} cannot be read.", remedy="Write it as --example shows.")
    for name in (*found.columns.values(), *found.always, *found.words):
        if name not in fields:
            remedy = hint(name, fields).strip() or f"Use one of: {', '.join(fields)}."
            raise RefusedError(f'{file}: there is no field "{name}" here.', remedy=remedy)
    return found


def map_of_headers(headers: Sequence[str], *, fields: Sequence[str], file: str) -> ColumnMap:
    """The map of a list whose headers are our own field names.

    Raises:
        RefusedError: a header is none of them.
    """
    for header in headers:
        if header and header not in fields:
            meant = hint(header, fields).strip()
            raise RefusedError(
                f'{file}: "{header}" is none of our fields, and no --map says what it is.',
                remedy=meant or "Write a map; --example shows one.",
            )
    return ColumnMap(columns={header: header for header in headers if header})


def refuse_strange_columns(found: ColumnMap, headers: Sequence[str], *, file: str) -> None:
    """Nothing, where every column that the map names is there.

    Raises:
        RefusedError: one is not.
    """
    for header in found.columns:
        if header not in headers:
            remedy = hint(header, headers).strip() or f"Use one of: {', '.join(headers)}."
            raise RefusedError(f'{file} has no column "{header}".', remedy=remedy)


def mapped(row: Row, found: ColumnMap) -> Mapping[str, str]:
    """Our fields of one row, their words turned into ours; several columns make one note."""
    given: dict[str, str] = dict(found.always)
    notes: list[str] = []
    for header, cell in row.cells.items():
        name = found.columns.get(header)
        if name == "note" and list(found.columns.values()).count("note") > 1:
            notes.append(f"{header}: {cell}.")
        elif name:
            given[name] = _ours(cell, found.words.get(name, {}))
    return {**given, "note": " ".join(notes)} if notes else given


def _ours(cell: str, words: Mapping[str, str]) -> str:
    known = {theirs.casefold(): ours for theirs, ours in words.items()}
    return known.get(cell.casefold(), cell)


def not_taken(headers: Sequence[str], found: ColumnMap) -> Iterator[str]:
    """The columns that the map leaves out."""
    return (header for header in headers if header and header not in found.columns)
