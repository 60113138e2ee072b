"""A site is replaced whole or not at all, and nobody else's folder is touched."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from witnessmark.errors import RefusedError, WitnessmarkError
from witnessmark.repository import swapping
from witnessmark.repository.site import (
    MARKER,
    Rewritten,
    keep_unchanged,
    read_pictures,
    write_site,
)


def below(folder: Path) -> dict[str, str]:
    found = sorted(path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_text() for path in found}


def test_pages_lie_at_their_paths(tmp_path: Path) -> None:
    write_site({"d/1/index.html": "one", "a.css": b"two"}, tmp_path / "new" / "site")
    assert {MARKER: "", "a.css": "two", "d/1/index.html": "one"} == below(tmp_path / "new" / "site")


def test_a_new_site_takes_the_place_of_the_old_one(tmp_path: Path) -> None:
    write_site({"old.html": "old"}, tmp_path / "site")
    write_site({"new.html": "new"}, tmp_path / "site")
    assert {MARKER: "", "new.html": "new"} == below(tmp_path / "site")


def test_nothing_is_left_beside_the_site(tmp_path: Path) -> None:
    write_site({"a": "1"}, tmp_path / "site")
    write_site({"a": "2"}, tmp_path / "site")
    assert ["site"] == [path.name for path in tmp_path.iterdir()]


def test_an_empty_folder_may_become_a_site(tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    write_site({"a": "1"}, tmp_path / "site")
    assert {MARKER: "", "a": "1"} == below(tmp_path / "site")


def test_a_folder_of_somebody_else_is_not_replaced(tmp_path: Path) -> None:
    (tmp_path / "photo.txt").write_text("mine")
    with pytest.raises(RefusedError, match="did not write"):
        write_site({"a": "1"}, tmp_path)
    assert {"photo.txt": "mine"} == below(tmp_path)


def test_a_file_or_a_link_is_not_replaced(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("mine")
    (tmp_path / "real").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "real")
    for name in ("file", "link"):
        with pytest.raises(RefusedError):
            write_site({"a": "1"}, tmp_path / name)


@pytest.mark.parametrize("name", ["../a", "/a", "a/../../b", "a\\b", ""])
def test_no_page_leaves_the_site(tmp_path: Path, name: str) -> None:
    with pytest.raises(RefusedError, match="outside"):
        write_site({name: "1"}, tmp_path / "site")
    assert [] == list(tmp_path.iterdir())


def test_a_build_that_fails_leaves_the_old_site_whole(tmp_path: Path) -> None:
    write_site({"a": "old"}, tmp_path / "site")
    with pytest.raises(WitnessmarkError, match="stands as it was"):
        write_site({"a": "new", "a/b": "a page under a page"}, tmp_path / "site")
    assert {MARKER: "", "a": "old"} == below(tmp_path / "site")
    assert ["site"] == [path.name for path in tmp_path.iterdir()]


def test_a_swap_that_fails_puts_the_old_site_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_site({"a": "old"}, tmp_path / "site")
    monkeypatch.setattr(swapping, "_exchanged", lambda *_: False)  # as on disks that cannot
    real, calls = os.rename, []

    def second_fails(source: str, target: str) -> None:
        calls.append(target)
        if len(calls) == 2:
            raise OSError(28, "No space left on device")
        real(source, target)

    monkeypatch.setattr(os, "rename", second_fails)
    with pytest.raises(WitnessmarkError, match="No space left"):
        write_site({"a": "new"}, tmp_path / "site")
    assert {MARKER: "", "a": "old"} == below(tmp_path / "site")


def test_an_interrupted_build_leaves_the_old_site_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_site({"a": "old"}, tmp_path / "site")

    def interrupted(*_: object, **__: object) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr(Path, "write_bytes", interrupted)
    with pytest.raises(KeyboardInterrupt):
        write_site({"a": "new"}, tmp_path / "site")
    monkeypatch.undo()
    assert {MARKER: "", "a": "old"} == below(tmp_path / "site")
    assert ["site"] == [path.name for path in tmp_path.iterdir()]


def test_a_page_that_says_what_it_said_stays_the_file_it_was(tmp_path: Path) -> None:
    write_site({"a": "same", "b": "old", "c": "goes"}, tmp_path / "site")
    before = (tmp_path / "site" / "a").stat()
    told = write_site({"a": "same", "b": "new", "d": "comes"}, tmp_path / "site")
    after = (tmp_path / "site" / "a").stat()
    assert Rewritten(written=2, kept=1, gone=1) == told
    assert (before.st_ino, before.st_mtime_ns) == (after.st_ino, after.st_mtime_ns)
    assert {MARKER: "", "a": "same", "b": "new", "d": "comes"} == below(tmp_path / "site")


def test_a_page_of_the_old_site_that_somebody_changed_is_written_anew(tmp_path: Path) -> None:
    write_site({"a": "same"}, tmp_path / "site")
    (tmp_path / "site" / "a").write_text("else")
    assert Rewritten(written=1, kept=0, gone=0) == write_site({"a": "same"}, tmp_path / "site")
    assert "same" == (tmp_path / "site" / "a").read_text()


def test_a_link_in_the_old_site_is_no_page_of_it(tmp_path: Path) -> None:
    (tmp_path / "mine").write_text("same")
    write_site({"a": "other"}, tmp_path / "site")
    (tmp_path / "site" / "a").unlink()
    (tmp_path / "site" / "a").symlink_to(tmp_path / "mine")
    write_site({"a": "same"}, tmp_path / "site")
    assert not (tmp_path / "site" / "a").is_symlink()


def test_on_a_disk_without_second_names_every_page_is_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_site({"a": "same"}, tmp_path / "site")

    def refused(*_: object) -> None:
        raise OSError(1, "Operation not permitted")

    monkeypatch.setattr(os, "link", refused)
    assert Rewritten(written=1, kept=0, gone=0) == write_site({"a": "same"}, tmp_path / "site")
    assert {MARKER: "", "a": "same"} == below(tmp_path / "site")


def test_a_folder_built_by_another_program_gets_the_old_files_where_they_are_the_same(
    tmp_path: Path,
) -> None:
    write_site({"x/a": "same", "b": "old"}, tmp_path / "site")
    write_site({"x/a": "same", "b": "new", "c": "comes"}, tmp_path / "fresh")
    told = keep_unchanged(tmp_path / "fresh", tmp_path / "site")
    assert Rewritten(written=2, kept=1, gone=0) == told
    assert {MARKER: "", "x/a": "same", "b": "new", "c": "comes"} == below(tmp_path / "fresh")
    assert (tmp_path / "site/x/a").samefile(tmp_path / "fresh/x/a")


def test_only_drawings_and_photos_are_read_as_pictures(tmp_path: Path) -> None:
    for name in ("a.svg", "b.jpg", "c.txt"):
        (tmp_path / name).write_text("x")
    found = read_pictures(tmp_path, ["c.txt", "b.jpg", "a.svg"])
    assert {"a.svg": b"x", "b.jpg": b"x"} == dict(found)
