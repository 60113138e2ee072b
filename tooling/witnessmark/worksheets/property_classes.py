"""Proof stress and tensile strength of steel bolts by the class on their heads: ISO 898-1."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from witnessmark.model.fields import Exact, Written
from witnessmark.worksheets.declare import CannotCompute, Source
from witnessmark.worksheets.table_reading import WrittenTable, read_table


class Strength(Written):
    """Stresses in MPa that hold up to a nominal size in mm."""

    up_to: Exact
    proof: Exact
    tensile: Exact


@dataclass(frozen=True, slots=True, kw_only=True)
class PropertyClass:
    """A class such as 8.8, with its strengths by size, smallest first."""

    name: str
    strengths: tuple[Strength, ...]

    def at(self, diameter: float, *, name: str) -> Strength:
        """Give the strength at a nominal size in mm; refuse a size the class does not reach."""
        for strength in self.strengths:
            if diameter <= strength.up_to:
                return strength
        most = float(self.strengths[-1].up_to)
        raise CannotCompute(
            name,
            message=f"ISO 898-1 gives class {self.name} only up to M{most:g}.",
            fix="Give the proof stress in MPa, with its source in the record.",
        )


class _Classes(WrittenTable):
    classes: dict[str, tuple[Strength, ...]]


def _table() -> _Classes:
    return read_table("property-classes", kind=_Classes)


def sources() -> tuple[Source, ...]:
    """Give the sources of the table."""
    return _table().cited()


def property_classes() -> Mapping[str, PropertyClass]:
    """Give every class by the ways it is written: 8.8, class 8.8 and class: 8.8."""
    found = {
        name: PropertyClass(name=name, strengths=strengths)
        for name, strengths in _table().classes.items()
    }
    return {
        f"{before}{name}": row
        for before in ("", "class ", "class: ")
        for name, row in found.items()
    }
