"""Names and quantities in the fields about hazards, hearings and moves lead somewhere.

The fields and their checks are the project's own; no text outside says them.
"""

from __future__ import annotations

from pathlib import Path

import pytest

import witnessmark.rules
from witnessmark.model.library import Folder, assemble
from witnessmark.rules.check import check
from witnessmark.rules.rulebook_check import load_shipped

BASE = Path(witnessmark.rules.__path__[0]) / "case_base"
TRACTOR = "dune-tractor/2023-003-summer-service.yml"
CRUSH = "id: crush, what: The tractor comes down on the fitter"
SERVICE = "{do: lubricate, part: drive/axle-bush, lubricant: oil,"
LOOK = "look_again: {date: 2026-03-01}\n"


def told(*changes: tuple[str, str]) -> list[tuple[str, str]]:
    """Code and field of what the check says of the tractor's record with these changes."""
    files = {p.relative_to(BASE).as_posix(): p.read_bytes() for p in BASE.rglob("*.yml")}
    text = files[TRACTOR].decode()
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    files[TRACTOR] = text.encode()
    found = check(assemble(Folder("decisions", files)), rulebook=load_shipped()).diagnostics
    wanted = {"WM030", "WM032", "WM044", "WM071"}
    return [(d.code, d.field or "") for d in found if d.file.endswith(TRACTOR) and d.code in wanted]


def test_the_record_as_it_stands_names_nothing_that_is_not_there() -> None:
    assert [] == told()


@pytest.mark.parametrize(
    ("part", "expected"),
    [
        ("part: springing/struts", []),
        ("part: springing/strut", [("WM030", "hazards[1].part")]),
        ("parts: [tracks/pads, tracks/shoes]", [("WM030", "hazards[1].parts[1]")]),
    ],
)
def test_a_hazard_sits_in_parts_of_the_machine(part: str, expected: list[tuple[str, str]]) -> None:
    assert expected == told((CRUSH, f"{part}, {CRUSH}"))


def test_a_hazard_may_sit_outside_the_assemblies_that_the_record_is_about() -> None:
    about = "about: [tracks/pads, springing/struts, drive/axle-bush]\n"
    narrow = (about, "about: [drive/axle-bush]\n")
    assert [] == told(narrow, (CRUSH, f"part: springing/struts, {CRUSH}"))


def test_whoever_was_heard_stands_in_the_register() -> None:
    heard = "heard: [{by: objecter, role: objector, what: I would wait another year for that.}]\n"
    assert [("WM032", "heard[0].by")] == told((LOOK, heard + LOOK))


def test_whoever_agrees_to_a_new_loss_stands_in_the_register() -> None:
    work = (
        "work: {started: 2023-06-01, new_loss: "
        "{by: nobody, role: collections, date: 2023-06-02, because: It broke.}}\n"
    )
    assert [("WM032", "work.new_loss.by")] == told((LOOK, work + LOOK))


@pytest.mark.parametrize(
    ("written", "expected"), [("9 mm", []), ("3/8 in", []), ("9", ["WM071"]), ("9 kg", ["WM071"])]
)
def test_the_rubber_that_is_left_is_a_thickness(written: str, expected: list[str]) -> None:
    found = told((SERVICE, f"{SERVICE} rubber_left: {written},"))
    assert expected == [code for code, _ in found]
