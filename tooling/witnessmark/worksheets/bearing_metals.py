"""What published lists allow for the metals of plain bearings, read from the table beside it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated

from pydantic import Field

from witnessmark.model.fields import Id, Prose, Quantity, Written
from witnessmark.model.quantity import convert, parse_quantity
from witnessmark.worksheets.declare import Source
from witnessmark.worksheets.table_reading import WrittenTable, read_table

Printed = Annotated[tuple[Quantity, ...], Field(max_length=2)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowed:
    """The lowest and the highest figure that the lists print, in base units."""

    low: Fraction
    high: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class BearingMetal:
    """One metal; a limit is None where no list prints one."""

    name: str
    pressure: Allowed | None
    velocity: Allowed | None
    pv: Allowed | None
    source: str


class _WrittenMetal(Written):
    pressure: Printed = ()
    velocity: Printed = ()
    pv: Printed = ()
    source: Prose = Field(alias="from")

    def typed(self, name: str) -> BearingMetal:
        return BearingMetal(
            name=name,
            pressure=_allowed(self.pressure, unit="MPa"),
            velocity=_allowed(self.velocity, unit="m/s"),
            pv=_allowed(self.pv, unit="MPa m/s"),
            source=self.source,
        )


class _Metals(WrittenTable):
    metals: dict[Id, _WrittenMetal]


def _allowed(printed: tuple[str, ...], *, unit: str) -> Allowed | None:
    quantities = [parse_quantity(text) for text in printed]
    for quantity in quantities:
        convert(quantity, unit)  # a slip of dimension in the table stops here
    if not quantities:
        return None
    values = [quantity.in_base for quantity in quantities]
    return Allowed(low=min(values), high=max(values))


def _read() -> _Metals:
    return read_table("plain-bearing-metals", kind=_Metals)


def bearing_metals() -> Mapping[str, BearingMetal]:
    """Give every metal of the table by its name."""
    return {name: metal.typed(name) for name, metal in _read().metals.items()}


def sources() -> tuple[Source, ...]:
    """Give the sources of the table."""
    return _read().cited()
