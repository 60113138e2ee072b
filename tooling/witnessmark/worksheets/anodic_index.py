"""How noble metals are beside each other, and how far apart two in contact may be."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from witnessmark.model.fields import Exact, Id, Prose, Written
from witnessmark.worksheets.declare import Source
from witnessmark.worksheets.table_reading import WrittenTable, read_table


@dataclass(frozen=True, slots=True, kw_only=True)
class Metal:
    """A metal with its anodic index in volts: the higher, the sooner it wastes."""

    name: str
    index: Fraction
    words: str


class _WrittenMetal(Written):
    index: Exact
    words: Prose


class _Indices(WrittenTable):
    places: dict[Id, Exact]
    metals: dict[Id, _WrittenMetal]


def _table() -> _Indices:
    return read_table("anodic-index", kind=_Indices)


def sources() -> tuple[Source, ...]:
    """Give the sources of the list."""
    return _table().cited()


def metals() -> Mapping[str, Metal]:
    """Give every metal of the list by its name."""
    return {
        name: Metal(name=name, index=row.index, words=row.words)
        for name, row in _table().metals.items()
    }


def allowed_difference(place: str) -> Fraction:
    """Give the difference in volts allowed between two metals kept in such a place."""
    return _table().places[place]
