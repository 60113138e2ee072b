"""What git tells of a museum's files, from real repositories."""

from __future__ import annotations

import subprocess
from datetime import date
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from witnessmark.repository.past import read_past

UTC = ZoneInfo("Etc/UTC")


def _git(folder: Path, *words: str, day: str = "2024-03-02T23:30:00+00:00") -> None:
    who = {"NAME": "A Fitter <script>", "EMAIL": "fitter@example.org", "DATE": day}
    env = {
        f"GIT_{side}_{key}": value for side in ("AUTHOR", "COMMITTER") for key, value in who.items()
    }
    env |= {"HOME": str(folder), "GIT_CONFIG_NOSYSTEM": "1", "PATH": "/usr/bin:/bin"}
    subprocess.run(["git", *words], cwd=folder, env=env, check=True, capture_output=True)


@pytest.fixture
def repo(tmp_path: Path) -> Path:
    museum = tmp_path / "work" / "decisions"
    museum.mkdir(parents=True)
    (museum / "museum.yml").write_text("witnessmark: 1\n", encoding="utf-8")
    (museum / 'höhe "x".yml').write_text("a: 1\n", encoding="utf-8")
    _git(museum.parent, "init", "-q", "-b", "main")
    _git(museum.parent, "add", ".")
    _git(museum.parent, "commit", "-qm", "first")
    (museum / "museum.yml").write_text("witnessmark: 1\nname: x\n", encoding="utf-8")
    _git(museum.parent, "commit", "-qam", "second", day="2025-01-05T10:00:00+00:00")
    return museum


def test_the_day_of_head_is_when_it_was_filed(repo: Path) -> None:
    head = read_past(repo, zone=UTC).history.head
    assert head is not None
    assert date(2025, 1, 5) == head.day


def test_days_are_told_in_the_museums_time_zone(repo: Path) -> None:
    last = read_past(repo, zone=ZoneInfo("Etc/GMT-2")).history.last
    assert date(2024, 3, 3) == last['decisions/höhe "x".yml'].day


def test_each_file_has_its_own_last_change(repo: Path) -> None:
    last = read_past(repo, zone=UTC).history.last
    days = {name: revision.day for name, revision in last.items()}
    expected = {
        "decisions/museum.yml": date(2025, 1, 5),
        'decisions/höhe "x".yml': date(2024, 3, 2),
    }
    assert expected == days


def test_a_folder_in_no_repository_has_no_history(tmp_path: Path) -> None:
    assert read_past(tmp_path, zone=UTC).history.head is None


def test_a_shallow_clone_says_so_and_tells_no_last_changes(repo: Path, tmp_path: Path) -> None:
    _git(tmp_path, "clone", "-q", "--depth", "1", f"file://{repo.parent}", "shallow")
    history = read_past(tmp_path / "shallow" / "decisions", zone=UTC).history
    assert history.is_shallow
    assert {} == dict(history.last)


def test_a_museum_that_is_the_repository_itself_is_named_alike(tmp_path: Path) -> None:
    museum = tmp_path / "decisions"
    museum.mkdir()
    (museum / "museum.yml").write_text("witnessmark: 1\n", encoding="utf-8")
    _git(museum, "init", "-q", "-b", "main")
    _git(museum, "add", ".")
    _git(museum, "commit", "-qm", "first")
    assert {"decisions/museum.yml"} == set(read_past(museum, zone=UTC).history.last)
