"""Every table of the sheets: read strictly, and honest about where its figures come from."""

from __future__ import annotations

from importlib.resources import files

import pytest

from witnessmark.model.source import read
from witnessmark.worksheets.table_reading import WrittenTable, read_table

TABLES = sorted(
    entry.name.removesuffix(".yml")
    for entry in (files("witnessmark.worksheets") / "tables").iterdir()
)


class Other(WrittenTable):
    """A table of no file."""

    nothing_of_the_kind: str


@pytest.mark.parametrize("name", TABLES)
def test_a_table_reads_without_a_slip_and_names_its_sources(name: str) -> None:
    raw = (files("witnessmark.worksheets") / "tables" / f"{name}.yml").read_bytes()
    document = read(f"{name}.yml", raw)
    assert () == document.problems
    assert isinstance(document.data, dict)
    assert document.data["sources"]


def test_a_table_that_is_not_of_its_kind_stops_the_program() -> None:
    with pytest.raises(ValueError, match=r"plain-bearing-metals\.yml"):
        read_table("plain-bearing-metals", kind=Other)
