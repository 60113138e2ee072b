"""The tables as JSON, one row a line, each a mapping from a column's name to its cell."""

from __future__ import annotations

import json
from collections.abc import Sequence
from datetime import date
from fractions import Fraction

from witnessmark.exchange.export.columns import Cell
from witnessmark.exchange.export.csv_files import decimal
from witnessmark.exchange.export.published import Published
from witnessmark.exchange.export.tables import TABLES, rows_of


def json_lines_files(museums: Sequence[Published]) -> dict[str, bytes]:
    """Each table's file."""
    files = {}
    for table in TABLES:
        names = [column.name for column in table.columns]
        lines = (
            json.dumps(
                dict(zip(names, map(_plain, row), strict=True)),
                ensure_ascii=False,
                separators=(",", ":"),
            )
            for row in rows_of(table, museums)
        )
        files[f"{table.name}.jsonl"] = "".join(f"{line}\n" for line in lines).encode()
    return files


def _plain(cell: Cell) -> str | int | float | bool | None:
    if isinstance(cell, Fraction):
        return float(decimal(cell))
    return cell.isoformat() if isinstance(cell, date) else cell
