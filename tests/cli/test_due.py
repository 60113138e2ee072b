"""The verb `due`, and `check --due`, as a person calls them."""

from __future__ import annotations

from pathlib import Path

from building import on_disk
from calling import DEMO, call


def test_due_tells_the_day_how_far_off_and_why() -> None:
    told = call("due", "--as-of", "demo", "--museum", str(DEMO)).out
    assert "2026-05-01  137 days over  look-again  2023-004" in told
    assert "2026-10-01  in 16 days  look-again  2024-001" in told


def test_due_counts_days_from_the_day_it_is_read() -> None:
    found = call("due", "--as-of", "2026-09-30", "--museum", str(DEMO), "--format", "json").json
    days = {one["name"]: one["days"] for one in found["due"] if one["kind"] == "look-again"}
    assert ("2026-09-30", 1) == (found["as_of"], days["2024-001"])


def test_due_says_when_there_is_nothing(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    called = call("due", "--as-of", "2024-01-01", "--days", "0", "--museum", str(root))
    assert (0, "Nothing is due by then, as read on 2024-01-01.\n") == (called.code, called.out)


def test_check_fails_no_record_because_time_passed() -> None:
    assert 0 == call("check", str(DEMO), "--as-of", "2040-01-01").code


def test_check_warns_of_what_is_due_when_it_is_asked_to() -> None:
    called = call("check", str(DEMO), "--due", "--as-of", "demo", "--format", "json")
    due = call("due", "--days", "0", "--as-of", "demo", "--museum", str(DEMO), "--format", "json")
    warned = sorted(d["file"] for d in called.json["diagnostics"] if d["code"] == "WM098")
    assert 1 == called.code
    assert sorted(one["file"] for one in due.json["due"]) == warned


def test_check_warns_only_of_what_lies_under_the_path() -> None:
    path = str(DEMO / "dragline")
    found = call("check", path, "--due", "--as-of", "demo", "--format", "json").json
    files = {d["file"] for d in found["diagnostics"] if d["code"] == "WM098"}
    assert {"decisions/dragline/findings.yml"} == files


def test_the_warning_can_be_explained() -> None:
    assert "promised" in call("explain", "WM098").out
