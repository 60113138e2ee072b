"""A table as data: its columns, what tells its rows apart, and which other tables it names."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from enum import Enum
from fractions import Fraction
from typing import TypeAlias

from witnessmark.exchange.export.published import Published


class Datatype(Enum):
    """What a cell holds, by its name in CSV on the Web (W3C, 2015, Metadata Vocabulary, 5.11)."""

    TEXT = "string"
    WHOLE = "integer"
    NUMBER = "decimal"
    YES_NO = "boolean"
    DAY = "date"


Cell: TypeAlias = "str | int | Fraction | bool | date | None"
Row: TypeAlias = tuple[Cell, ...]
"""The cells of a row in the order of the columns; None where there is nothing to say."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its name, what it holds and what that means; `many` holds several, parted by ;."""

    name: str
    datatype: Datatype
    means: str
    many: bool = False


@dataclass(frozen=True, slots=True)
class Link:
    """Columns that name a row of another table, by its columns of the same order."""

    columns: tuple[str, ...]
    table: str
    there: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table: `key` are the columns that tell its rows apart, `rows` gives them for a museum."""

    name: str
    means: str
    columns: tuple[Column, ...]
    key: tuple[str, ...]
    links: tuple[Link, ...] = ()
    rows: Callable[[Published], Iterator[Row]]


def text(name: str, means: str) -> Column:
    """A column of text."""
    return Column(name, Datatype.TEXT, means)


def texts(name: str, means: str) -> Column:
    """A column that holds several texts, parted by a semicolon."""
    return Column(name, Datatype.TEXT, means, many=True)


def whole(name: str, means: str) -> Column:
    """A column of whole numbers."""
    return Column(name, Datatype.WHOLE, means)


def yes_no(name: str, means: str) -> Column:
    """A column of true and false."""
    return Column(name, Datatype.YES_NO, means)


def day(name: str, means: str) -> Column:
    """A column of calendar days."""
    return Column(name, Datatype.DAY, means)


def exact(name: str, means: str) -> tuple[Column, Column]:
    """Two columns for one figure: a decimal to reckon with, and the exact figure as text."""
    return (
        Column(name, Datatype.NUMBER, f"{means} Rounded to {PLACES} places."),
        Column(f"{name}_exact", Datatype.TEXT, f"{means} As an exact fraction."),
    )


PLACES = 6


def both(figure: Fraction | None) -> tuple[Fraction | None, str | None]:
    """The two cells of an exact figure.

    >>> both(Fraction(51, 16))
    (Fraction(51, 16), '51/16')
    """
    return (None, None) if figure is None else (round(figure, PLACES), str(figure))


MUSEUM = text("museum", "Which museum: its web address, or its name where it has none.")
