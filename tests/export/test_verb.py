"""The verb export: whole or not at all, the same bytes, and a clear line where it cannot."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from calling import DEMO, Record, call
from exported import demo, demo_json
from witnessmark.errors import WitnessmarkError
from witnessmark.exchange.export import export_files

ALL = ("--format", "csv", "--format", "jsonl", "--format", "parquet", "--format", "jsonld")


def files_in(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_two_exports_are_the_same_in_every_byte(tmp_path: Path) -> None:
    for name in ("one", "two"):
        out = str(tmp_path / name)
        assert 0 == call("export", str(DEMO), *ALL, "--as-of", "demo", "--out", out).code
    assert files_in(tmp_path / "one") == files_in(tmp_path / "two")


def test_a_published_site_gives_the_same_export_as_its_records(tmp_path: Path) -> None:
    for path, text in demo_json().items():
        (tmp_path / "site" / path).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "site" / path).write_bytes(text)
    of_site, of_records = tmp_path / "of-site", tmp_path / "of-records"
    site = ("--site", str(tmp_path / "site"))
    assert 0 == call("export", *site, *ALL, "--out", str(of_site)).code
    call("export", str(DEMO), *ALL, "--as-of", "demo", "--out", str(of_records))
    assert files_in(of_records) == files_in(of_site)


def test_a_site_without_data_is_told_in_one_message(tmp_path: Path) -> None:
    called = call("export", "--site", str(tmp_path), "--out", str(tmp_path / "out"))
    assert (2, True) == (called.code, "museum.json cannot be read" in called.err)


def test_two_museums_make_one_set_of_tables() -> None:
    other = demo().museum.model_copy(update={"web": "https://other.example/", "name": "Another"})
    from dataclasses import replace

    both = export_files([demo(), replace(demo(), museum=other)], ["jsonl"])
    assert 2 * len(demo().decisions) == both["decisions.jsonl"].count(b"\n")


def test_with_an_error_in_a_record_nothing_is_exported(bushes: Record, tmp_path: Path) -> None:
    bushes.change("state: done", "state: finished")
    out = tmp_path / "out"
    called = call("export", str(bushes.path.parents[1]), "--out", str(out))
    assert (1, False) == (called.code, out.exists())


def test_a_folder_of_somebody_elses_is_not_replaced(tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("mine", encoding="utf-8")
    called = call("export", str(DEMO), "--as-of", "demo", "--out", str(tmp_path))
    assert (1, ["letter.txt"]) == (called.code, [path.name for path in tmp_path.iterdir()])


def test_linked_data_asks_for_a_web_address(demo: Path, tmp_path: Path) -> None:
    museum = Record(demo / "museum.yml")
    museum.change("web: https://marramquay.example/\n", "")
    out = tmp_path / "out"
    called = call("export", str(demo), "--format", "jsonld", "--out", str(out))
    assert (2, True, False) == (called.code, "web address" in called.err, out.exists())


def test_a_museum_without_a_web_address_still_has_tables(demo: Path, tmp_path: Path) -> None:
    Record(demo / "museum.yml").change("web: https://marramquay.example/\n", "")
    out = tmp_path / "out"
    assert 0 == call("export", str(demo), "--out", str(out), "--as-of", "demo").code
    assert b"\r\nMarram Quay Museum of Working Machines," in (out / "museums.csv").read_bytes()


def test_without_pyarrow_parquet_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    # None in sys.modules is how Python itself marks a module that cannot be imported.
    monkeypatch.setitem(sys.modules, "pyarrow", None)
    monkeypatch.setitem(sys.modules, "pyarrow.parquet", None)
    with pytest.raises(WitnessmarkError, match="pip install witnessmark\\[export\\]"):
        export_files([demo()], ["parquet"])
