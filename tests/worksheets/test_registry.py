"""Which sheets there are, and what is answered to a name that cannot be run."""

from __future__ import annotations

import pytest

from witnessmark.worksheets import NAMES, SheetUnknown, built_names, find_sheet, registry


def test_there_are_twenty_seven_names_each_once() -> None:
    expected = 27
    assert expected == len(NAMES) == len(set(NAMES))


def test_every_sheet_that_can_be_run_bears_its_own_name() -> None:
    assert built_names() == tuple(find_sheet(name).id for name in built_names())


def test_bearing_clearance_can_be_run() -> None:
    assert "bearing-clearance" in built_names()


def test_every_name_can_be_run() -> None:
    assert NAMES == built_names()


def test_a_name_without_a_module_is_refused_by_name(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(registry, "NAMES", (*NAMES, "gas-bill"))
    with pytest.raises(SheetUnknown, match="'gas-bill' comes in a later version"):
        find_sheet("gas-bill")


@pytest.mark.parametrize(
    ("name", "nearest"),
    [("bearing-clearence", "bearing-clearance"), ("Bolt_Preload", "bolt-preload")],
)
def test_a_misspelt_sheet_is_answered_with_the_nearest(name: str, nearest: str) -> None:
    with pytest.raises(SheetUnknown, match=nearest):
        find_sheet(name)


@pytest.mark.parametrize("name", ["", "declare", "../run", "os.path", "run"])
def test_a_name_that_is_no_sheet_imports_nothing(name: str) -> None:
    with pytest.raises(SheetUnknown, match="There is no worksheet called"):
        find_sheet(name)
