"""The history in one file: git clones it, however the repository is packed."""

from __future__ import annotations

from pathlib import Path

from keeping import kept_museum
from witnessmark.repository.bundle import read_history


def test_git_verifies_it_and_gives_back_every_commit(tmp_path: Path) -> None:
    kept = kept_museum(tmp_path / "here")
    kept.change("museum.yml", "name: ", "name: Renamed. ")
    kept.commit("renamed")
    bundle = tmp_path / "h.bundle"
    bundle.write_bytes(read_history(kept.museum, with_bundle=True).bundle or b"")
    kept.git("bundle", "verify", "-q", str(bundle))
    kept.git("clone", "-q", str(bundle), str(tmp_path / "back"))
    told = kept.git("-C", str(tmp_path / "back"), "log", "--format=%H %s")
    assert (kept.git("log", "--format=%H %s"), 2) == (told, len(told.splitlines()))


def test_it_is_the_same_however_the_repository_is_packed(tmp_path: Path) -> None:
    kept = kept_museum(tmp_path / "here")
    for n in range(6):
        kept.change("museum.yml", "name: ", f"name: {n} ")
        kept.commit(f"change {n}")
    loose = read_history(kept.museum, with_bundle=True).bundle
    kept.git("repack", "-adfq", "--depth=3", "--window=4")
    kept.branch("another-name")
    assert loose == read_history(kept.museum, with_bundle=True).bundle


def test_outside_git_there_is_none(tmp_path: Path) -> None:
    assert read_history(tmp_path, with_bundle=True).bundle is None
