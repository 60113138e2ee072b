"""Ten slips a curator may make, each told at its own line and column, and how to mend it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from calling import Record, call


def _found(demo: Path, code: str) -> list[dict[str, Any]]:
    called = call("check", str(demo), "--format", "json")
    assert 1 == called.code
    return [row for row in called.json["diagnostics"] if row["code"] == code]


def _only(demo: Path, code: str) -> tuple[int, int]:
    (row,) = _found(demo, code)
    assert row["message"]
    assert row["why"]
    assert row["fix"]
    return row["line"], row["column"]


def test_the_demo_museum_checks_clean(demo: Path) -> None:
    called = call("check", str(demo), "--format", "json")
    assert (0, []) == (called.code, called.json["diagnostics"])
    assert len(list(demo.glob("*/20[0-9][0-9]-[0-9][0-9][0-9]-*.yml"))) == called.json["records"]


def test_an_unknown_field_is_told_with_what_was_meant(demo: Path, bushes: Record) -> None:
    line = bushes.change("hazards:\n", "saftey: 4\nhazards:\n")
    (row,) = _found(demo, "WM012")
    assert (line, 1) == (row["line"], row["column"])
    assert 'no field called "saftey"' in row["message"]


def test_a_slip_in_a_field_name_is_told_with_the_one_it_resembles(
    demo: Path, bushes: Record
) -> None:
    bushes.change("relies_on:", "relys_on:")
    assert 'Did you mean "relies_on"?' in _found(demo, "WM012")[0]["message"]


def test_a_part_that_does_not_exist_is_told_where_it_is_named(demo: Path, bushes: Record) -> None:
    bushes.change("about: [slewing-gear/upper-bush", "about: [slewing-gear/uper-bush")
    line = bushes.line_of("about: [")
    rows = _found(demo, "WM030")
    assert (line, 9) == (rows[0]["line"], rows[0]["column"])
    assert 'Did you mean "slewing-gear/upper-bush"?' in rows[0]["message"]


def test_a_score_off_the_scale_is_told_at_the_number(demo: Path, bushes: Record) -> None:
    bushes.change("use: {likely: 3", "use: {likely: 9")
    line, column = _only(demo, "WM077")
    text = bushes.path.read_text(encoding="utf-8").splitlines()[line - 1]
    assert "9" == text[column - 1]


def test_a_day_the_calendar_does_not_have_is_told(demo: Path, bushes: Record) -> None:
    line = bushes.change("opened: 2024-02-11", "opened: 2024-02-30")
    assert (line, 9) == _only(demo, "WM076")


def test_a_field_written_twice_is_told_at_the_second(demo: Path, bushes: Record) -> None:
    line = bushes.change("opened: 2024-02-11\n", "opened: 2024-02-11\nopened: 2024-02-12\n")
    assert (line + 1, 1) == _only(demo, "WM005")


def test_a_word_that_other_readers_take_for_false_is_told(demo: Path, bushes: Record) -> None:
    line = bushes.change("state: done", "state: NO")
    assert (line, 8) == _only(demo, "WM006")


def test_a_colon_in_prose_is_told_at_the_colon_and_the_rest_is_still_read(
    demo: Path, bushes: Record
) -> None:
    line = bushes.change(
        "title: Leave the bushes as they are", "title: Leave the bushes: as they are"
    )
    (row,) = _found(demo, "WM004")
    assert (line, 28) == (row["line"], row["column"])
    assert ">-" in row["fix"]


def test_an_option_that_answers_no_hazard_is_told_once_a_hazard(demo: Path, bushes: Record) -> None:
    bushes.change(
        "answers:\n      jib-swings: {after: 2C}\n      seizure: {after: 2C}\n", "answers:\n"
    )
    rows = _found(demo, "WM060") + _found(demo, "WM073")
    assert rows
    assert {bushes.line_of("    answers:\n"), bushes.line_of("- id: leave")} & {
        row["line"] for row in rows
    }


def test_an_agreed_record_with_one_signature_is_told(demo: Path, bushes: Record) -> None:
    text = bushes.path.read_text(encoding="utf-8")
    signed = [line for line in text.splitlines(keepends=True) if line.startswith("  - {role:")]
    for line in signed[1:]:
        text = text.replace(line, "", 1)
    bushes.path.write_text(text, encoding="utf-8")
    assert (bushes.line_of("agreed:"), 1) == _only(demo, "WM160")


def test_a_removed_original_without_a_label_is_told(demo: Path, bushes: Record) -> None:
    bushes.change(", labels: [MQ-0112]", "")
    rows = _found(demo, "WM132")
    assert bushes.line_of("part: slewing-gear/upper-bush, fate: stored") in {
        row["line"] for row in rows
    }


def test_all_of_them_in_one_record_are_told_in_one_run(demo: Path, bushes: Record) -> None:
    bushes.change("hazards:\n", "saftey: 4\nhazards:\n")
    bushes.change("about: [slewing-gear/upper-bush", "about: [slewing-gear/uper-bush")
    bushes.change("use: {likely: 3", "use: {likely: 9")
    bushes.change("opened: 2024-02-11\n", "opened: 2024-02-30\nopened: 2024-02-12\n")
    bushes.change("title: Leave the bushes as they are", "title: Leave the bushes: as they are")
    bushes.change(", labels: [MQ-0112]", "")
    called = call("check", str(bushes.path), "--format", "json")
    codes = {row["code"] for row in called.json["diagnostics"]}
    assert {"WM012", "WM030", "WM077", "WM076", "WM005", "WM004", "WM132"} <= codes


def test_a_record_with_faults_is_never_published_and_the_old_site_stands(
    demo: Path, bushes: Record, tmp_path: Path
) -> None:
    site = tmp_path / "site"
    words = ("publish", str(demo), "--as-of", "demo", "--skin", "plain", "--out", str(site))
    assert 0 == call(*words).code
    before = {p: p.read_bytes() for p in site.rglob("*") if p.is_file()}
    bushes.change("use: {likely: 3", "use: {likely: 9")
    refused = call(*words)
    assert 1 == refused.code
    assert "the old site stands" in refused.err
    assert before == {p: p.read_bytes() for p in site.rglob("*") if p.is_file()}
