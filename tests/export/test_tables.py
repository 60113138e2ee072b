"""Tables as other programs read them: frictionless, csvw, DuckDB and pyarrow."""

from __future__ import annotations

import csv
import io
import json
import shutil
from collections import Counter
from fractions import Fraction
from importlib import import_module
from pathlib import Path
from typing import Any

import duckdb
import frictionless
import pytest

from exported import demo, demo_files
from witnessmark.exchange.export.csv_files import METADATA, written
from witnessmark.exchange.export.tables import TABLES, rows_of

# Neither has type stubs.
csvw, parquet = import_module("csvw"), import_module("pyarrow.parquet")
KINDS = {"decimal": "number"}
"""The one datatype that Table Schema (frictionless) calls otherwise than CSV on the Web."""


def descriptor(folder: Path) -> dict[str, Any]:
    """The CSVW description as a package of frictionless, which reads its own form only."""
    described = json.loads((folder / METADATA).read_text(encoding="utf-8"))
    return {"name": "export", "resources": [_resource(t) for t in described["tables"]]}


def _resource(table: dict[str, Any]) -> dict[str, Any]:
    schema = table["tableSchema"]
    fields = [
        {
            "name": column["name"],
            "type": KINDS.get(column["datatype"], column["datatype"]),
            "constraints": {"required": column.get("required", False)},
        }
        for column in schema["columns"]
    ]
    keys = [
        {
            "fields": key["columnReference"],
            "reference": {
                "resource": _name(key["reference"]["resource"]),
                "fields": key["reference"]["columnReference"],
            },
        }
        for key in schema.get("foreignKeys", [])
    ]
    return {
        "name": _name(table["url"]),
        "type": "table",
        "path": table["url"],
        "schema": {"fields": fields, "primaryKey": schema["primaryKey"], "foreignKeys": keys},
    }


def _name(file: str) -> str:
    return file.removesuffix(".csv").replace("_", "-")


def faults(folder: Path) -> list[str]:
    package = frictionless.Package.from_descriptor(descriptor(folder), basepath=str(folder))
    return [str(row[0]) for row in package.validate().flatten(["type"])]


def changed(folder: Path, where: Path, file: str, *, change: tuple[str, str]) -> Path:
    """A copy of the tables with the first of some words put otherwise."""
    copy = Path(shutil.copytree(folder, where / "copy"))
    text, (before, after) = (copy / file).read_bytes().decode(), change
    assert before in text
    (copy / file).write_bytes(text.replace(before, after, 1).encode())
    return copy


def test_frictionless_finds_no_fault_in_the_tables(tables: Path) -> None:
    assert [] == faults(tables)


@pytest.mark.parametrize(
    ("file", "before", "after", "fault"),
    [
        ("options.csv", ",2024-003,rebush,", ",2024-999,rebush,", "foreign-key"),
        ("decisions.csv", ",2024-02-11,", ",in spring,", "type-error"),
        ("parts.csv", ",dragline,", ",,", "constraint-error"),
    ],
)
def test_frictionless_finds_a_planted_fault(
    *, file: str, before: str, after: str, fault: str, tables: Path, tmp_path: Path
) -> None:
    assert fault in faults(changed(tables, tmp_path, file, change=(before, after)))


def test_csvw_finds_no_fault_in_the_tables_and_their_description(tables: Path) -> None:
    read = csvw.CSVW(str(tables / METADATA), validate=True)
    assert (True, []) == (read.is_valid, [str(warning.message) for warning in read.warnings])


def test_csvw_finds_that_every_row_named_is_there(tables: Path) -> None:
    group = csvw.TableGroup.from_file(tables / METADATA)
    assert group.check_referential_integrity()


def test_csvw_finds_a_planted_fault(tables: Path, tmp_path: Path) -> None:
    copy = changed(tables, tmp_path, "decisions.csv", change=(",2024-02-11,", ",in spring,"))
    with pytest.raises(UserWarning, match="in spring"):
        assert not csvw.CSVW(str(copy / METADATA), validate=True).is_valid


def test_every_column_is_described(tables: Path) -> None:
    described = json.loads((tables / METADATA).read_text(encoding="utf-8"))
    columns = [c for t in described["tables"] for c in t["tableSchema"]["columns"]]
    assert [] == [c["name"] for c in columns if not c["dc:description"].endswith(".")]


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.name)
def test_the_key_of_a_table_tells_its_rows_apart(table: Any) -> None:
    names = [column.name for column in table.columns]
    keys = Counter(
        tuple(row[names.index(name)] for name in table.key) for row in rows_of(table, [demo()])
    )
    assert [] == [key for key, times in keys.items() if times > 1]


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.name)
def test_duckdb_reads_the_same_from_each_format(table: Any, tables: Path) -> None:
    # A row of CSV has an apostrophe where a text looks like a formula; the demo has no such text.
    counted = [
        duckdb.execute(f"SELECT count(*) FROM '{tables}/{table.name}.{form}'").fetchall()  # noqa: S608
        for form in ("csv", "jsonl", "parquet")
    ]
    assert [[(len(list(rows_of(table, [demo()]))),)]] * 3 == counted


def test_parquet_says_what_each_column_means(tables: Path) -> None:
    schema = parquet.read_schema(tables / "scores.parquet")
    assert (
        b"Who judged it, by title; empty where nobody did." == schema.field("by").metadata[b"means"]
    )


@pytest.mark.parametrize("measure", ["low", "likely", "high"])
def test_a_decimal_is_its_exact_figure_rounded(measure: str) -> None:
    # Each is a figure of its own, so that one rounding cannot hide in another.
    rows = list(csv.DictReader(io.StringIO(demo_files("csv")["scores.csv"].decode())))
    given = [row for row in rows if row[measure]]
    wrong = [
        row
        for row in given
        if abs(Fraction(row[measure]) - Fraction(row[f"{measure}_exact"])) > Fraction(1, 2 * 10**6)
    ]
    assert (True, []) == (len(given) > 500, wrong)


# OWASP, CSV Injection (seen from memory): what a spreadsheet takes for the start of a formula.
@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r", "\n", "＝"])  # noqa: RUF001
def test_a_text_that_starts_like_a_formula_is_guarded(start: str) -> None:
    assert f"'{start}1+1" == written(f"{start}1+1")


@pytest.mark.parametrize("text", ["=1+1", "'=1+1", "'tis", "plain", "a=1", ""])
def test_taking_one_apostrophe_away_gives_the_text_as_written(text: str) -> None:
    assert text == written(text).removeprefix("'")


def test_a_figure_below_nought_is_not_guarded() -> None:
    assert ("-1", "-0.5") == (written(-1), written(Fraction(-1, 2)))


def test_the_same_museum_gives_the_same_bytes() -> None:
    from witnessmark.exchange.export import export_files

    every = ("csv", "jsonl", "parquet", "jsonld")
    assert export_files([demo()], every) == export_files([demo()], every)
