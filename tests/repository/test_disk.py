"""Reading a museum folder: the nearest one upward, ordinary files only, nothing followed."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from witnessmark.errors import NoMuseumError, UnknownNameError
from witnessmark.repository.disk import find_museum, read_museum


def _museum(tmp_path: Path) -> Path:
    folder = tmp_path / "decisions"
    (folder / "crane" / "photos").mkdir(parents=True)
    (folder / "museum.yml").write_text("witnessmark: 1\n", encoding="utf-8")
    (folder / "crane" / "machine.yml").write_text("name: Crane\n", encoding="utf-8")
    (folder / "crane" / "photos" / "side.svg").write_text("<svg/>", encoding="utf-8")
    return folder


def test_the_museum_is_the_nearest_folder_upward(tmp_path: Path) -> None:
    folder = _museum(tmp_path)
    assert folder.resolve() == find_museum(folder / "crane" / "machine.yml")


def test_a_path_outside_any_museum_is_said_to_be_so(tmp_path: Path) -> None:
    with pytest.raises(NoMuseumError, match=r"No museum\.yml"):
        find_museum(tmp_path)


def test_a_path_that_does_not_exist_is_said_to_be_so(tmp_path: Path) -> None:
    with pytest.raises(UnknownNameError, match="nothing at"):
        find_museum(tmp_path / "nowhere")


def test_yaml_is_read_and_pictures_are_named(tmp_path: Path) -> None:
    found = read_museum(_museum(tmp_path))
    assert {"museum.yml", "crane/machine.yml"} == set(found.files)
    assert frozenset({"crane/photos/side.svg"}) == found.names


def test_links_are_refused_and_never_followed(tmp_path: Path) -> None:
    folder = _museum(tmp_path)
    outside = tmp_path / "outside"
    outside.mkdir()
    (outside / "secret.yml").write_text("a: 1\n", encoding="utf-8")
    (folder / "crane" / "link.yml").symlink_to(outside / "secret.yml")
    (folder / "attic").symlink_to(outside)
    found = read_museum(folder)
    assert {"crane/link.yml", "attic"} == set(found.refused)
    assert "attic/secret.yml" not in found.files


def test_a_folder_or_a_pipe_named_like_a_record_is_refused_without_hanging(tmp_path: Path) -> None:
    folder = _museum(tmp_path)
    (folder / "crane" / "2024-001.yml").mkdir()
    os.mkfifo(folder / "crane" / "2024-002.yml")
    found = read_museum(folder)
    assert {"crane/2024-001.yml", "crane/2024-002.yml"} == set(found.refused)


def test_a_file_too_large_is_refused_by_its_size(tmp_path: Path) -> None:
    folder = _museum(tmp_path)
    (folder / "crane" / "2024-001.yml").write_bytes(b"a: " + b"x" * 300_000)
    reason, _ = read_museum(folder).refused["crane/2024-001.yml"]
    assert "a record holds at most 256 KB" in reason


def test_hidden_files_are_left_alone(tmp_path: Path) -> None:
    folder = _museum(tmp_path)
    (folder / ".cache").mkdir()
    (folder / ".cache" / "x.yml").write_text("a: 1\n", encoding="utf-8")
    assert ".cache/x.yml" not in read_museum(folder).files
