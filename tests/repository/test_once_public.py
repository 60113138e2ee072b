"""What was public once and is private now is warned of, from real repositories."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from building import DECISION, FINDINGS, MACHINE, MUSEUM, PEOPLE
from calling import call_here
from keeping import Kept, keep
from sound_museum import signed

PHOTO = "photos: [{file: photos/bush.svg, alt: A bush, public: true}]\n"
NAME = "title: Fitter, public_name: Zacharias Quill"


@pytest.fixture
def kept(tmp_path: Path) -> Kept:
    museum = signed(tmp_path / "work", changes={MUSEUM: {"shown": {"money": True}}})
    (museum / "winch" / "photos").mkdir()
    (museum / "winch" / "photos" / "bush.svg").write_text("<svg/>", encoding="utf-8")
    with (museum / MACHINE).open("a", encoding="utf-8") as file:
        file.write(PHOTO)
    with (museum / FINDINGS).open("a", encoding="utf-8") as file:
        file.write("  public: true\n")
    people = museum / PEOPLE
    people.write_text(
        people.read_text(encoding="utf-8").replace("title: Fitter", NAME), encoding="utf-8"
    )
    return keep(museum)


def warned(kept: Kept, *, path: str = "") -> list[dict[str, Any]]:
    called = call_here("check", str(kept.museum / path), "--history", "--format", "json")
    return [one for one in called.json["diagnostics"] if one["code"] == "WM099"]


def test_nothing_is_warned_of_while_all_is_still_public(kept: Kept) -> None:
    kept.change("museum.yml", "Upstairs", "Downstairs")
    kept.commit()
    assert [] == warned(kept)


CHANGES = {
    "a record withheld": (
        DECISION, "publish: true", "publish: {withheld: The owner asked}", "The record 2024-001"
    ),
    "a record kept in the house": (
        DECISION, "publish: true", "publish: false", "The record 2024-001"
    ),
    "a public name taken out": (
        PEOPLE, ", public_name: Zacharias Quill", "", "The public name that fitter had"
    ),
    "a public name changed": (
        PEOPLE, "Zacharias Quill", "Z. Q.", "The public name that fitter had"
    ),
    "a picture no longer public": (
        MACHINE, "public: true", "public: false", "The picture winch/photos/bush.svg"
    ),
    "a finding no longer public": (
        FINDINGS, "public: true", "public: false", "The finding f-001 of winch"
    ),
    "money no longer shown": (
        MUSEUM, "money: true", "money: false", "What every option takes in money"
    ),
}  # fmt: skip


@pytest.mark.parametrize(("file", "before", "after", "said"), CHANGES.values(), ids=CHANGES)
def test_what_was_public_once_is_warned_of_with_the_day(
    kept: Kept, file: str, before: str, after: str, said: str
) -> None:
    kept.change(file, before, after)
    kept.commit(day="2024-06-01T10:00:00+00:00")
    name = kept.git("rev-parse", "HEAD~1")[:10]
    expected = f"{said} was public on 2024-05-01 ({name}) and is not public now."
    assert [("warning", expected)] == [(one["level"], one["message"]) for one in warned(kept)]


def test_the_warning_stands_at_the_place_of_today(kept: Kept) -> None:
    kept.change(DECISION, "publish: true", "publish: false")
    [found] = warned(kept)
    lines = (kept.museum / DECISION).read_text(encoding="utf-8").splitlines()
    assert ("museum/" + DECISION, "publish: false") == (found["file"], lines[found["line"] - 1])


def test_a_record_that_was_taken_away_is_warned_of_in_the_museum_file(kept: Kept) -> None:
    (kept.museum / DECISION).unlink()
    [found] = warned(kept)
    assert ("museum/museum.yml", True) == (found["file"], "2024-001" in found["message"])


def test_what_was_public_on_a_branch_only_is_warned_of_too(kept: Kept) -> None:
    kept.branch("topic")
    kept.change(PEOPLE, "title: Engineer", "title: Engineer, public_name: Yvonne Vex")
    kept.commit()
    kept.change(PEOPLE, ", public_name: Yvonne Vex", "")
    kept.commit()
    kept.git("checkout", "-q", "main")
    kept.git("merge", "-q", "--no-ff", "-m", "merged", "topic")
    assert ["The public name that engineer had"] == [
        one["message"].partition(" was public")[0] for one in warned(kept)
    ]


def test_no_old_value_is_told(kept: Kept) -> None:
    kept.change(PEOPLE, ", public_name: Zacharias Quill", "")
    kept.commit()
    for form in ("text", "json", "sarif", "github"):
        called = call_here("check", str(kept.museum), "--history", "--format", form)
        assert (1, False) == (called.code, "Quill" in called.out)


def test_a_shallow_clone_cannot_be_looked_at(kept: Kept, tmp_path: Path) -> None:
    kept.change("museum.yml", "Upstairs", "Downstairs")
    kept.commit()
    kept.git("clone", "-q", "--depth", "1", f"file://{kept.top}", str(tmp_path / "shallow"))
    called = call_here("check", str(tmp_path / "shallow" / "museum"), "--history")
    assert (2, True) == (called.code, "shallow clone" in called.err)


def test_outside_git_the_option_says_what_is_missing(tmp_path: Path) -> None:
    called = call_here("check", str(signed(tmp_path)), "--history")
    assert (2, True) == (called.code, "no history in git" in called.err)


def test_a_version_that_cannot_be_read_is_passed_over(kept: Kept) -> None:
    path = kept.museum / PEOPLE
    whole = path.read_bytes()
    path.write_bytes(b"public: [\xff")
    kept.commit()
    path.write_bytes(whole)
    kept.commit()
    assert [] == warned(kept)
