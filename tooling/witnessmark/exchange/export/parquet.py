"""The tables as Parquet, for those who query many museums at once.

The same museum gives the same bytes with the same version of the library that writes them.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from importlib import import_module
from types import ModuleType

from witnessmark.errors import WitnessmarkError
from witnessmark.exchange.export.columns import Cell, Datatype, Table
from witnessmark.exchange.export.csv_files import decimal
from witnessmark.exchange.export.published import Published
from witnessmark.exchange.export.tables import TABLES, rows_of


def parquet_files(museums: Sequence[Published]) -> dict[str, bytes]:
    """Each table's file.

    Raises:
        WitnessmarkError: pyarrow is not installed.
    """
    arrow = _arrow()
    return {f"{table.name}.parquet": _file(table, museums, arrow) for table in TABLES}


def _arrow() -> ModuleType:
    try:
        import_module("pyarrow.parquet")
        return import_module("pyarrow")
    except ImportError:
        raise WitnessmarkError(
            "Parquet needs the library pyarrow, which is not installed.",
            remedy="Install it with `pip install witnessmark[export]`, or use --format csv.",
        ) from None


def _file(table: Table, museums: Sequence[Published], arrow: ModuleType) -> bytes:
    kinds = {
        Datatype.TEXT: arrow.string(),
        Datatype.WHOLE: arrow.int64(),
        Datatype.NUMBER: arrow.float64(),
        Datatype.YES_NO: arrow.bool_(),
        Datatype.DAY: arrow.date32(),
    }
    schema = arrow.schema(
        [
            arrow.field(column.name, kinds[column.datatype], metadata={"means": column.means})
            for column in table.columns
        ],
        metadata={"means": table.means},
    )
    names = [column.name for column in table.columns]
    rows = [dict(zip(names, map(_plain, row), strict=True)) for row in rows_of(table, museums)]
    sink = arrow.BufferOutputStream()
    arrow.parquet.write_table(arrow.Table.from_pylist(rows, schema=schema), sink)
    content: bytes = sink.getvalue().to_pybytes()
    return content


def _plain(cell: Cell) -> object:
    return float(decimal(cell)) if isinstance(cell, Fraction) else cell
