"""The tables the sheets look things up in: one YAML file each, read as strictly as a record."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from typing import Annotated, TypeVar

from pydantic import BeforeValidator

from witnessmark.model.fields import Prose, Text, Written
from witnessmark.model.shape import shape
from witnessmark.model.source import read
from witnessmark.worksheets.declare import Source, Standing


def _as_standing(value: object) -> object:
    """The standing that a table names in small letters, such as `from-memory`."""
    words = {standing.name.lower().replace("_", "-"): standing for standing in Standing}
    return words[value] if isinstance(value, str) and value in words else value


class WrittenSource(Written):
    """A source as it stands in a table: seen, from-memory or common-practice."""

    author: Text
    title: Prose
    year: Text
    clause: Prose
    standing: Annotated[Standing, BeforeValidator(_as_standing)]
    note: Prose | None = None

    def cited(self) -> Source:
        """Give it as the sheets cite it."""
        return Source(
            author=self.author,
            title=self.title,
            year=self.year,
            clause=self.clause,
            standing=self.standing,
            note=self.note or "",
        )


class WrittenTable(Written):
    """What every table says of itself: what it holds, and where its figures come from."""

    table: Prose
    sources: tuple[WrittenSource, ...]

    def cited(self) -> tuple[Source, ...]:
        """Give its sources as the sheets cite them."""
        return tuple(source.cited() for source in self.sources)


T = TypeVar("T", bound=WrittenTable)


def read_table(name: str, *, kind: type[T]) -> T:
    """Give the table of that name, typed; a slip in it is ours, so it stops the program."""
    table = _read(name, kind)
    if isinstance(table, kind):
        return table
    raise TypeError(f"The table {name} was read as another kind")


# Cached because a table is part of the program: it never changes while we run.
@cache
def _read(name: str, kind: type[WrittenTable]) -> WrittenTable:
    file = f"{name}.yml"
    raw = (files("witnessmark.worksheets") / "tables" / file).read_bytes()
    shaped = shape(read(file, raw), kind)
    if shaped.value is None or not shaped.whole:
        told = "; ".join(f"{one.file}:{one.line}: {one.message}" for one in shaped.diagnostics)
        raise ValueError(f"The table {file} cannot be used: {told}")
    return shaped.value
