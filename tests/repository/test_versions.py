"""A museum at a revision, from real repositories: squashed, rebased, merged, moved, cut short."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import date
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from building import DECISION
from keeping import Kept, kept_museum
from witnessmark.errors import UnknownNameError, WitnessmarkError
from witnessmark.repository.disk import read_museum
from witnessmark.repository.filings import read_filings
from witnessmark.repository.past import read_past
from witnessmark.repository.versions import read_versions

UTC = ZoneInfo("Etc/UTC")
MOST_PROCESSES = 5
TITLE = "Why we made a new bush for the drum"


@pytest.fixture
def kept(tmp_path: Path) -> Kept:
    return kept_museum(tmp_path / "work")


def test_a_revision_is_read_as_the_disk_is(kept: Kept) -> None:
    (kept.museum / "winch" / "photos").mkdir()
    (kept.museum / "winch" / "photos" / "a.svg").write_text("<svg/>", encoding="utf-8")
    kept.commit()
    assert read_museum(kept.museum) == read_versions(kept.museum, base="HEAD").base.folder


def test_without_a_head_the_files_on_disk_are_the_head(kept: Kept) -> None:
    kept.change(DECISION, TITLE, "Another title")
    versions = read_versions(kept.museum)
    assert TITLE.encode() in versions.base.folder.files[DECISION]
    assert b"Another title" in versions.head.folder.files[DECISION]


def test_the_base_is_where_the_head_parted(kept: Kept) -> None:
    kept.branch("topic")
    kept.change(DECISION, TITLE, "On the branch")
    kept.commit()
    kept.git("checkout", "-q", "main")
    kept.change("museum.yml", "Upstairs", "Downstairs")
    kept.commit()
    versions = read_versions(kept.museum, base="main", head="topic")
    assert b"Upstairs" in versions.base.folder.files["museum.yml"]
    assert "Compared with the point where the head parted from main." in versions.notes


@pytest.mark.parametrize("way", ["squash", "merge", "rebase"])
def test_however_a_branch_came_in_the_content_is_the_same(kept: Kept, way: str) -> None:
    start = kept.git("rev-parse", "HEAD")
    kept.branch("topic")
    kept.change(DECISION, TITLE, "On the branch")
    kept.commit()
    kept.git("checkout", "-q", "main")
    kept.change("museum.yml", "Upstairs", "Downstairs")
    kept.commit()
    if way == "rebase":
        kept.git("rebase", "-q", "main", "topic")
        kept.git("checkout", "-q", "main")
        kept.git("merge", "-q", "--ff-only", "topic")
    elif way == "squash":
        kept.git("merge", "-q", "--squash", "topic")
        kept.commit("squashed")
    else:
        kept.git("merge", "-q", "--no-ff", "-m", "merged", "topic")
    versions = read_versions(kept.museum, base=start, head="main")
    assert b"On the branch" in versions.head.folder.files[DECISION]
    assert b"Upstairs" in versions.base.folder.files["museum.yml"]


def test_a_shallow_clone_says_so(kept: Kept, tmp_path: Path) -> None:
    kept.change(DECISION, TITLE, "Later")
    kept.commit()
    kept.git("clone", "-q", "--depth", "1", f"file://{kept.top}", str(tmp_path / "shallow"))
    notes = read_versions(tmp_path / "shallow" / "museum").notes
    assert [True] == ["shallow clone" in note for note in notes]


def test_names_with_quotes_breaks_and_other_alphabets_are_read(kept: Kept) -> None:
    name = 'winch/2024-002-"höhe\n\t\x01ß.yml'
    (kept.museum / name).write_text("id: 2024-002\n", encoding="utf-8")
    kept.commit()
    found = read_versions(kept.museum, base="HEAD", head="HEAD").head.folder.files
    assert b"id: 2024-002\n" == found[name]


def test_links_and_great_files_are_refused_as_on_disk(kept: Kept) -> None:
    (kept.museum / "winch" / "2024-009-link.yml").symlink_to("machine.yml")
    (kept.museum / "winch" / "2024-008-great.yml").write_text("a" * 300_000, encoding="utf-8")
    kept.commit()
    refused = read_versions(kept.museum, base="HEAD", head="HEAD").head.folder.refused
    assert {"winch/2024-008-great.yml", "winch/2024-009-link.yml"} == set(refused)


def test_a_hidden_folder_is_not_part_of_the_museum(kept: Kept) -> None:
    (kept.museum / ".old").mkdir()
    (kept.museum / ".old" / "people.yml").write_text("a: 1\n", encoding="utf-8")
    kept.commit()
    found = read_versions(kept.museum, base="HEAD", head="HEAD").head.folder
    assert [] == [name for name in found.files if name.startswith(".")]


def test_a_folder_in_no_repository_is_told_in_plain_words(tmp_path: Path) -> None:
    with pytest.raises(WitnessmarkError, match="no git repository"):
        read_versions(tmp_path)


@pytest.mark.parametrize("name", ["nowhere", "--output=x", "-h", "a b", "main..HEAD", "a\nb"])
def test_a_revision_that_git_does_not_know_is_told_and_never_an_option(
    kept: Kept, name: str
) -> None:
    with pytest.raises(UnknownNameError, match="Git knows no revision"):
        read_versions(kept.museum, base=name)


def _processes(log: Path) -> int:
    events = [json.loads(line) for line in log.read_text(encoding="utf-8").splitlines()]
    return sum(event["event"] == "start" for event in events)


def _great(kept: Kept, *, files: int, commits: int) -> None:
    """Many records and commits, by git's own stream, since writing each would take minutes."""
    import subprocess

    lines = []
    for number in range(commits):
        share = range(number * files // commits, (number + 1) * files // commits)
        content = f"id: x{number}\n"
        lines.append(f"commit refs/heads/main\ncommitter A <a@b> {1714557600 + number} +0000\n")
        lines.append("data 1\nx\n")
        if number == 0:
            lines.append("from refs/heads/main^0\n")
        for name in share:
            path = f"museum/winch/{2000 + name // 900}-{name % 900 + 100}-x.yml"
            lines.append(f"M 100644 inline {path}\ndata {len(content)}\n{content}\n")
    stream = "".join(lines).encode()
    subprocess.run(
        ["git", "fast-import", "--quiet"], cwd=kept.top, input=stream, check=True, timeout=120
    )


def test_ten_thousand_records_and_1500_commits_take_at_most_five_processes(
    kept: Kept, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    _great(kept, files=10_000, commits=1_500)
    readings: dict[str, Callable[[], object]] = {
        "versions": lambda: read_versions(kept.museum, base="main~9", head="main"),
        "past": lambda: read_past(kept.museum, zone=UTC),
        "filings": lambda: read_filings(kept.museum, zone=UTC, wanted=bool),
    }
    for name, read in readings.items():
        log = tmp_path / f"{name}.log"
        monkeypatch.setenv("GIT_TRACE2_EVENT", str(log))
        read()
        # GitPython asks git for its version once a process; that one is counted as well.
        assert MOST_PROCESSES >= _processes(log) + 1, name


def test_every_version_of_a_record_is_told_through_a_move_and_a_merge(kept: Kept) -> None:
    kept.branch("topic")
    kept.change(DECISION, TITLE, "On the branch")
    kept.commit(day="2024-06-01T10:00:00+00:00")
    kept.git("mv", f"museum/{DECISION}", "museum/winch/2024-001-renamed.yml")
    kept.commit(day="2024-06-02T10:00:00+00:00")
    kept.git("checkout", "-q", "main")
    kept.change("museum.yml", "Upstairs", "Downstairs")
    kept.commit(day="2024-06-03T10:00:00+00:00")
    kept.git("merge", "-q", "--no-ff", "-m", "merged", "topic", day="2024-07-01T10:00:00+00:00")
    found = read_past(kept.museum, zone=UTC).versions.by_id["2024-001"]
    assert [date(2024, 5, 1), date(2024, 7, 1)] == [day for day, _ in found]


def test_a_shallow_clone_tells_no_versions(kept: Kept, tmp_path: Path) -> None:
    kept.git("clone", "-q", "--depth", "1", f"file://{kept.top}", str(tmp_path / "shallow"))
    found = read_past(tmp_path / "shallow" / "museum", zone=UTC).versions
    assert (True, {}) == (found.is_shallow, dict(found.by_id))
