"""An earlier deposit against today: what is new, changed and gone, and which seals do not match."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest

from calling import Called, call
from depositing import Made
from keeping import Kept

BUSHES = "quay-crane/2024-003-slewing-bushes.yml"


@pytest.fixture
def later(frozen: Kept, tmp_path: Path) -> Kept:
    """The frozen museum some time later, free to be changed."""
    shutil.copytree(frozen.top, tmp_path / "later")
    return Kept(tmp_path / "later" / "museum")


def compared(later: Kept, old: Made) -> Called:
    return call("deposit", str(later.museum), "--compare", str(old.folder))


def compared_data(later: Kept, old: Made) -> Any:
    words = ("deposit", str(later.museum), "--compare", str(old.folder), "--format", "json")
    return call(*words).json


@pytest.fixture(params=["public", "sealed"])
def old(request: pytest.FixtureRequest) -> Made:
    found = request.getfixturevalue(request.param)
    assert isinstance(found, Made)
    return found


def test_nothing_changed_is_told_so(later: Kept, old: Made) -> None:
    told = compared(later, old)
    assert (0, "Nothing has changed.") == (told.code, told.out.splitlines()[-1]), told.out


def test_one_changed_word_is_named(later: Kept, old: Made) -> None:
    later.change(BUSHES, "bush is worn past", "bush is worn beyond")
    told = compared(later, old)
    assert 0 == told.code
    assert ["changed  2024-003"] == [
        line[:17] for line in told.out.splitlines() if line.startswith("changed")
    ]
    assert "question: " in told.out
    assert "[-past-] {+beyond+}" in told.out


def test_a_private_change_is_named_by_the_sealed_one_alone(
    later: Kept, public: Made, sealed: Made
) -> None:
    later.change(BUSHES, "place: ", "place: store-a  # ")
    found = [len(compared_data(later, made)["changed"]) for made in (public, sealed)]
    assert [0, 1] == found


def test_a_decision_that_is_gone_needs_a_person(later: Kept, old: Made) -> None:
    (later.museum / BUSHES).unlink()
    told = compared(later, old)
    assert (1, True) == (told.code, "gone     2024-003" in told.out)


def test_a_new_decision_is_named(later: Kept, sealed: Made) -> None:
    (later.museum / "quay-crane/2026-004-hoist-brake-lining.yml").rename(
        later.museum / "quay-crane/2026-090-hoist-brake-lining.yml"
    )
    data = compared_data(later, sealed)
    found = [[row["id"] for row in data[what]] for what in ("new", "gone")]
    assert [["2026-090"], ["2026-004"]] == found


def test_a_judgement_that_no_longer_fits_its_seal_is_named(later: Kept, old: Made) -> None:
    later.change(BUSHES, "before: 2C", "before: 2D")
    told = compared(later, old)
    rows = [row for row in compared_data(later, old)["seals"] if row["id"] == "2024-003"]
    assert 1 == told.code
    assert {"collections", "engineering", "safety"} == {row["role"] for row in rows}
    assert {"The judgement of today does not fit the seal in the record."} == {
        row["says"] for row in rows
    }


def test_another_seal_in_the_record_is_shown_beside_the_old_one(later: Kept, old: Made) -> None:
    later.change(BUSHES, "wm1:ffe7ad47", "wm1:00000000")
    rows = compared_data(later, old)["seals"]
    assert [("wm1:ffe7ad47", "wm1:00000000")] == [(r["then"][:12], r["now"][:12]) for r in rows]


def test_an_agreement_taken_out_is_named(later: Kept, old: Made) -> None:
    path = later.museum / BUSHES
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    kept = [line for line in lines if not ("role: safety" in line and "wm1:" in line)]
    assert len(kept) == len(lines) - 1
    path.write_text("".join(kept), encoding="utf-8")
    rows = compared_data(later, old)["seals"]
    assert [("safety", None)] == [(row["role"], row["now"]) for row in rows]


def test_a_damaged_old_deposit_is_told(later: Kept, public: Made, tmp_path: Path) -> None:
    copy = Path(shutil.copytree(public.folder, tmp_path / "copy"))
    (copy / "data/records/museum.yml").write_text("name: x\n", encoding="utf-8")
    told = compared(later, Made(copy, later))
    assert (1, True) == (told.code, "damaged  data/records/museum.yml" in told.out)


def test_another_file_is_named(later: Kept, sealed: Made) -> None:
    later.change("museum.yml", "name: ", "name: The ")
    assert [{"file": "museum.yml", "what": "changed"}] == compared_data(later, sealed)["files"]


@pytest.mark.parametrize("what", ["empty", "not a tar", "missing"])
def test_what_is_no_deposit_is_met_with_a_remedy(later: Kept, tmp_path: Path, what: str) -> None:
    place = tmp_path / "old"
    if what == "empty":
        place.mkdir()
    if what == "not a tar":
        place.write_text("words")
    told = call("deposit", str(later.museum), "--compare", str(place))
    assert (2, True) == (told.code, "fix" in told.err)


def test_a_comparison_writes_nothing(later: Kept, public: Made, tmp_path: Path) -> None:
    before = sorted(path.name for path in tmp_path.iterdir())
    call("deposit", str(later.museum), "--compare", str(public.folder), cwd=tmp_path)
    assert before == sorted(path.name for path in tmp_path.iterdir())
