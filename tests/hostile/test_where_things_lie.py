"""Names, paths, links and odd files: refused by name, never followed, never opened.

The cases are those of this project's own table of bad input, 32 to 38, 41, 42 and 61; photographs
(39 and 40) are tested where they are re-encoded.
"""

from __future__ import annotations

import os
import shutil
from pathlib import Path
from typing import Any

import pytest

from building import DECISION, FINDINGS, MACHINE
from calling import call_here
from conftest import SOAK
from keeping import keep
from sound_museum import TEXTS, signed, sound
from witnessmark.repository.sketches import sketch_fault

RECORD = TEXTS[DECISION]
NOT_FOLLOWED = "links are not followed"
PATHS = ["../../etc/passwd", "a/b", '"C:\\\\x"', ".git", "x" * 300, '"\U0001f600"', "Con", "con"]
PICTURES = ["../x.jpg", "/etc/passwd", "http://x/y.jpg", "file:x.jpg", "photos/../../people.yml"]


def told(museum: Path) -> list[dict[str, Any]]:
    called = call_here("check", str(museum), "--format", "json")
    assert 1 == called.code
    found: list[dict[str, Any]] = called.json["diagnostics"]
    return [one for one in found if one["level"] != "note"]


def pairs(museum: Path) -> set[tuple[str, str]]:
    return {(one["code"], one["file"]) for one in told(museum)}


def named(museum: Path, file: str) -> str:
    return " ".join(one["message"] for one in told(museum) if one["file"] == f"museum/{file}")


def test_32_many_records_are_read(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    (museum / DECISION).unlink()
    how_many = 10_000 if SOAK else 200
    for number in range(how_many):
        machine, name = divmod(number, 900)
        folder = museum / f"winch-{machine}"
        if not name:
            shutil.copytree(museum / "winch", folder)
        record = f"{2000 + machine}-{name + 100}"
        text = RECORD.replace("2024-001", record, 1).replace("TB-0001", f"TB-{number}")
        (folder / f"{record}-x.yml").write_text(text, encoding="utf-8")
    called = call_here("check", str(museum))
    assert (0, f"{how_many:} records read") == (
        called.code,
        called.out.splitlines()[-1].partition(":")[0],
    )


@pytest.mark.parametrize("name", PATHS)
def test_33_a_name_that_is_a_path_is_refused_and_no_path_is_touched(
    name: str, tmp_path: Path
) -> None:
    museum = sound(tmp_path)
    (museum / DECISION).write_text(RECORD.replace("id: leave", f"id: {name}"), encoding="utf-8")
    before = sorted(tmp_path.rglob("*"))
    assert ("WM078", f"museum/{DECISION}") in pairs(museum)
    assert before == sorted(tmp_path.rglob("*"))


@pytest.mark.parametrize("name", ["con", "Winch", "a_b", "x" * 65])
def test_33_a_machines_folder_has_a_name_that_every_disk_can_keep(
    name: str, tmp_path: Path
) -> None:
    museum = sound(tmp_path)
    shutil.copytree(museum / "sister", museum / name)
    assert ("WM092", f"museum/{name}/machine.yml") in pairs(museum)


def test_33_a_file_with_the_name_of_a_device_is_told(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    (museum / "winch" / "photos").mkdir()
    (museum / "winch" / "photos" / "aux.svg").write_text("<svg/>", encoding="utf-8")
    assert "Windows keeps this name" in named(museum, "winch/photos/aux.svg")


def test_34_names_that_differ_only_by_case_are_told_with_both(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    (museum / "winch" / "photos").mkdir()
    for name in ("bush.svg", "Bush.svg"):
        (museum / "winch" / "photos" / name).write_text("<svg/>", encoding="utf-8")
    message = named(museum, "winch/photos/bush.svg")
    assert "This name and winch/photos/Bush.svg are one to many disks." == message


def test_34_ids_that_differ_only_by_case_cannot_be_written(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    (museum / DECISION).write_text(RECORD.replace("id: leave", "id: Rebush"), encoding="utf-8")
    assert {("WM078", f"museum/{DECISION}")} <= pairs(museum)


def test_35_an_id_that_is_not_the_file_names_is_told_with_the_remedy(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    (museum / DECISION).rename(museum / "winch" / "2024-009-drum-bush.yml")
    [found] = told(museum)
    assert ("WM043", "The record says 2024-001, its file name says 2024-009.") == (
        found["code"],
        found["message"],
    )
    assert "Rename the file" in found["fix"]


@pytest.mark.parametrize("name", PICTURES)
@pytest.mark.parametrize("file", [DECISION, MACHINE, FINDINGS])
def test_36_a_picture_lies_in_photos_and_nowhere_else(name: str, file: str, tmp_path: Path) -> None:
    photos = f"photos:\n- {{file: {name}, alt: A bush, public: true}}\n"
    photo = f"  photo: {name}\n"
    museum = sound(tmp_path)
    (museum / file).write_text(
        TEXTS[file] + (photo if file == FINDINGS else photos), encoding="utf-8"
    )
    assert ("WM045", f"museum/{file}") in pairs(museum)


def test_37_a_record_that_is_a_link_out_is_not_followed(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    (tmp_path / "outside.yml").write_text("secret: 1\n", encoding="utf-8")
    (museum / "winch" / "2024-005-x.yml").symlink_to(tmp_path / "outside.yml")
    assert NOT_FOLLOWED in named(museum, "winch/2024-005-x.yml")


def test_37_a_record_that_is_a_link_inside_is_not_followed(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    (museum / "winch" / "2024-005-x.yml").symlink_to(museum / DECISION)
    assert NOT_FOLLOWED in named(museum, "winch/2024-005-x.yml")


def test_37_a_folder_that_is_a_link_is_not_followed(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    (museum / "attic").symlink_to(tmp_path)
    assert NOT_FOLLOWED in named(museum, "attic")


def test_37_a_picture_that_is_a_link_is_not_published(tmp_path: Path) -> None:
    photos = [{"file": "photos/a.svg", "alt": "A bush", "public": True}]
    museum = signed(tmp_path)
    (museum / "winch" / "photos").mkdir()
    (tmp_path / "secret.svg").write_text("<svg/>", encoding="utf-8")
    (museum / "winch" / "photos" / "a.svg").symlink_to(tmp_path / "secret.svg")
    with (museum / DECISION).open("a", encoding="utf-8") as file:
        file.write(f"photos: {photos}\n".replace("True", "true"))
    assert NOT_FOLLOWED in named(museum, "winch/photos/a.svg")
    called = call_here("publish", str(museum), "--skin", "plain", "--out", str(tmp_path / "site"))
    assert (1, False) == (called.code, (tmp_path / "site").exists())


def test_37_museum_yml_that_is_a_link_is_told_once(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    (museum / "museum.yml").rename(tmp_path / "m.yml")
    (museum / "museum.yml").symlink_to(tmp_path / "m.yml")
    assert {("WM090", "museum/museum.yml")} == pairs(museum)


@pytest.mark.parametrize("kind", ["pipe", "folder", "device"])
def test_38_what_is_no_ordinary_file_is_refused_without_a_hang(kind: str, tmp_path: Path) -> None:
    museum = sound(tmp_path)
    path = museum / "winch" / "2024-006-x.yml"
    if kind == "pipe":
        os.mkfifo(path)
    elif kind == "folder":
        path.mkdir()
    else:
        try:
            os.mknod(path, 0o020666, os.makedev(1, 5))
        except PermissionError:
            pytest.skip("only root may make a device")
    assert "not an ordinary file" in named(museum, "winch/2024-006-x.yml")


def test_41_a_drawing_with_a_script_is_not_copied(tmp_path: Path) -> None:
    museum = signed(tmp_path)
    (museum / "winch" / "photos").mkdir()
    drawing = '<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'
    (museum / "winch" / "photos" / "a.svg").write_text(drawing, encoding="utf-8")
    with (museum / DECISION).open("a", encoding="utf-8") as file:
        file.write("photos: [{file: photos/a.svg, alt: A bush, public: true}]\n")
    call_here("publish", str(museum), "--skin", "plain", "--out", str(tmp_path / "site"))
    found = [p for p in (tmp_path / "site").rglob("*") if p.is_file() and b"alert(1)" in
             p.read_bytes()]  # fmt: skip
    assert [] == found


def _uses_of_uses(levels: int) -> str:
    """A drawing of ten times ten times ten ... lines, in a few bytes."""
    uses = (
        f'<g id="u{level + 1}">' + f'<use href="#u{level}"/>' * 10 + "</g>"
        for level in range(levels)
    )
    return "".join(['<line id="u0" x2="1"/>', *uses])


@pytest.mark.parametrize(
    "inside",
    [
        _uses_of_uses(9),
        '<g id="a"><use href="#a"/></g>',
        '<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>',
        "<g>" * 5000 + "</g>" * 5000,
        "<line/>" * 20_001,
    ],
    ids=["billions", "of itself", "of each other", "deep", "many"],
)
def test_40_a_drawing_that_grows_while_it_is_drawn_is_refused(inside: str) -> None:
    drawing = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">{inside}</svg>'
    fault = sketch_fault(drawing.encode())
    assert fault is not None
    assert (True, True) == (bool(fault.message.strip()), bool(fault.fix.strip()))


def test_40_a_drawing_that_uses_a_part_of_it_often_is_shown() -> None:
    drawing = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">'
    assert sketch_fault(f"{drawing}{_uses_of_uses(2)}</svg>".encode()) is None


def test_38_a_pipe_in_place_of_museum_yml_is_told_without_a_hang(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    (museum / "museum.yml").unlink()
    os.mkfifo(museum / "museum.yml")
    called = call_here("check", str(museum))
    assert (1, True) == (called.code, "museum.yml: 1 error" in called.out)
    assert "not an ordinary file" in called.out


@pytest.mark.parametrize("alt", ["", "alt: '', ", "alt: ' ', "])
def test_42_a_picture_without_words_is_an_error(alt: str, tmp_path: Path) -> None:
    museum = sound(tmp_path)
    text = f"{RECORD}photos: [{{file: photos/a.svg, {alt}public: true}}]\n"
    (museum / DECISION).write_text(text, encoding="utf-8")
    assert {"WM072", "WM073"} & {code for code, _ in pairs(museum)}


def test_61_outside_git_a_check_works_and_a_review_says_what_is_missing(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    called = call_here("review", "--museum", str(museum))
    assert (2, True) == (called.code, "in no git repository" in called.err)
    assert 0 == call_here("check", str(museum)).code


def test_61_a_shallow_clone_is_named_as_such(tmp_path: Path) -> None:
    kept = keep(sound(tmp_path / "work"))
    kept.change("museum.yml", "Upstairs", "Downstairs")
    kept.commit()
    kept.git("clone", "-q", "--depth", "1", f"file://{kept.top}", str(tmp_path / "shallow"))
    called = call_here("review", "HEAD", "--museum", str(tmp_path / "shallow" / "museum"))
    assert (0, True) == (called.code, "shallow clone" in called.out)


def test_61_a_base_that_git_does_not_know_is_told(tmp_path: Path) -> None:
    kept = keep(sound(tmp_path / "work"))
    called = call_here("review", "nowhere", "--museum", str(kept.museum))
    assert (2, True) == (called.code, 'Git knows no revision "nowhere"' in called.err)
