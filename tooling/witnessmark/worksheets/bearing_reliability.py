"""How much shorter the life is that more than nine bearings in ten reach: ISO 281, factor a1."""

from __future__ import annotations

from fractions import Fraction

from witnessmark.model.fields import Exact
from witnessmark.worksheets.declare import CannotCompute, Number, Source
from witnessmark.worksheets.table_reading import WrittenTable, read_table


class _Reliability(WrittenTable):
    editions: dict[str, dict[str, Exact]]


def _table() -> _Reliability:
    return read_table("bearing-reliability", kind=_Reliability)


def sources() -> tuple[Source, ...]:
    """Give the sources of the factors."""
    return _table().cited()


def reliability_factor(share: Number, *, edition: str) -> Fraction:
    """Give a1 of an edition for a reliability as a share; only what the table holds is given."""
    row = _table().editions[edition]
    for percent, factor in row.items():
        if Fraction(percent) / 100 == share:
            return factor
    raise CannotCompute(
        "reliability",
        message=f"ISO 281:{edition} gives no factor for {float(share) * 100:g} %.",
        fix=f"Write one of {', '.join(row)} %.",
    )
