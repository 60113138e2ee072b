"""The tables as CSV, with a description by CSV on the Web beside them.

Sources: RFC 4180 (2005) for the files, with CRLF line ends and UTF-8; W3C, Metadata Vocabulary for
Tabular Data, 17 December 2015, for the description, which stands at `csv-metadata.json`, the place
where a reader looks (W3C, Model for Tabular Data and Metadata on the Web, 2015, 5.3).

A spreadsheet program reads a cell that starts with = + - or @ as a formula, and a cell of a
stranger's file may so be made to run something (OWASP, CSV Injection: these four, a tab, a carriage
return, and the wide forms of the four). A cell of text that starts with one of these therefore has
an apostrophe before it; so has one that starts with an apostrophe, so that taking one apostrophe
away always gives the text as written. Figures and days are never touched.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from fractions import Fraction

from witnessmark.exchange.export.columns import PLACES, Cell, Column, Link, Table
from witnessmark.exchange.export.published import Published
from witnessmark.exchange.export.tables import TABLES, rows_of

METADATA = "csv-metadata.json"
APOSTROPHE = "'"
STARTS_A_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")  # noqa: RUF001
GUARD_NOTE = (
    "A text that starts with = + - @, a tab, a line end or an apostrophe has an apostrophe before"
    " it, so that no spreadsheet runs it. Take one apostrophe away to get the text as written."
)


def csv_files(museums: Sequence[Published]) -> dict[str, bytes]:
    """Each table's file and the one description of all."""
    files = {f"{table.name}.csv": _csv(table, museums) for table in TABLES}
    return files | {METADATA: _metadata(museums)}


def _csv(table: Table, museums: Sequence[Published]) -> bytes:
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow([column.name for column in table.columns])
    for row in rows_of(table, museums):
        writer.writerow([written(cell) for cell in row])
    return text.getvalue().encode()


def written(cell: Cell) -> str:
    """A cell as CSV has it.

    >>> written("=1+1"), written("'tis"), written(Fraction(51, 16)), written(-1), written(None)
    ("'=1+1", "''tis", '3.1875', '-1', '')
    """
    if cell is None:
        return ""
    if isinstance(cell, bool):
        return "true" if cell else "false"
    if isinstance(cell, Fraction):
        return decimal(cell)
    if isinstance(cell, date):
        return cell.isoformat()
    text = str(cell)
    if isinstance(cell, str) and text.startswith((APOSTROPHE, *STARTS_A_FORMULA)):
        return f"{APOSTROPHE}{text}"
    return text


def decimal(figure: Fraction) -> str:
    """A figure as a decimal, without the noughts at its end.

    >>> decimal(Fraction(3)), decimal(Fraction(-2, 3))
    ('3', '-0.666667')
    """
    scaled = Decimal(round(figure * 10**PLACES)).scaleb(-PLACES)
    return f"{scaled:f}".rstrip("0").rstrip(".")


def _metadata(museums: Sequence[Published]) -> bytes:
    names = ", ".join(sorted(published.museum.name for published in museums))
    group = {
        "@context": ["http://www.w3.org/ns/csvw", {"@language": "en"}],
        "dc:title": f"Decisions about machines: {names}",
        "dc:description": GUARD_NOTE,
        "dialect": {"encoding": "utf-8", "lineTerminators": ["\r\n"], "header": True},
        "tables": [_table(table) for table in TABLES],
    }
    return f"{json.dumps(group, ensure_ascii=False, indent=1)}\n".encode()


def _table(table: Table) -> dict[str, object]:
    keys = [_link(link) for link in table.links]
    return {
        "url": f"{table.name}.csv",
        "dc:title": table.name,
        "dc:description": table.means,
        "tableSchema": {
            "columns": [_column(column, table) for column in table.columns],
            "primaryKey": list(table.key),
            **({"foreignKeys": keys} if keys else {}),
        },
    }


def _column(column: Column, table: Table) -> dict[str, object]:
    return {
        "name": column.name,
        "titles": column.name,
        "dc:description": column.means,
        "datatype": column.datatype.value,
        **({"separator": ";"} if column.many else {}),
        **({"required": True} if column.name in table.key else {}),
    }


def _link(link: Link) -> dict[str, object]:
    return {
        "columnReference": list(link.columns),
        "reference": {"resource": f"{link.table}.csv", "columnReference": list(link.there)},
    }
