"""The past of a museum as git keeps it: last changes, and every version of every record.

Three git calls whatever the size: the day of HEAD, the list of changes, and one reading of all
contents. GitPython itself asks twice for git's version.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from witnessmark.repository.history import Filed, History, Revision, last_changes
from witnessmark.repository.record_versions import RecordVersions, is_record, versions_by_id
from witnessmark.repository.versions import contents_of

if TYPE_CHECKING:
    import git

_COMMIT = "%x01%H %cI"  # no one's name and no address: what is not read cannot be published
_SHORT = 10  # signs of a commit's name; git's own short names grow with the clone


@dataclass(frozen=True)
class Past:
    """The last change of each file, and the versions of each decision; empty outside git."""

    history: History = field(default_factory=History)
    versions: RecordVersions = field(default_factory=RecordVersions)


def read_past(museum: Path, *, zone: ZoneInfo) -> Past:
    """What git knows of a museum folder; nothing where it is in no repository.

    The main line of the history is told: what came by a merge or a squash is one change, on the day
    it came.
    """
    import git

    try:
        repo = git.Repo(museum, search_parent_directories=True)
    except (git.InvalidGitRepositoryError, git.NoSuchPathError):
        return Past()
    with repo:
        if repo.working_tree_dir is None:
            return Past()
        try:
            head = _revision(repo.git.log("-1", f"--format={_COMMIT}"), zone)
        except git.GitCommandError:  # nothing was ever committed
            return Past()
        return _read(repo, museum.resolve(), head, zone)


def _read(repo: git.Repo, museum: Path, head: Revision, zone: ZoneInfo) -> Past:
    if (Path(repo.common_dir) / "shallow").is_file():  # where git itself notes it
        return Past(History(head, is_shallow=True), RecordVersions(is_shallow=True))
    changes = changes_of(repo, museum, zone, "--first-parent")
    blobs = contents_of(repo, sorted({change.blob for change in changes if is_record(change)}))
    return Past(
        History(head, last=last_changes(changes, museum.name)),
        RecordVersions(by_id=versions_by_id(changes, blobs)),
    )


def changes_of(repo: git.Repo, museum: Path, zone: ZoneInfo, line: str) -> list[Filed]:
    """Every change of a file of the museum, oldest first, in one git call.

    `line` is the option of git log that says which commits count.
    """
    below = museum.relative_to(Path(repo.working_tree_dir or "").resolve()).as_posix()
    told = repo.git.log(
        "--raw", "-z", "--no-abbrev", "--no-renames", "-m", line, "--reverse",
        f"--format={_COMMIT}", "--", below,
    )  # fmt: skip
    return list(_changes(told, "" if below == "." else f"{below}/", zone))


def _revision(line: str, zone: ZoneInfo) -> Revision:
    name, _, filed = line.strip("\x01\n").partition(" ")
    return Revision(name[:_SHORT], datetime.fromisoformat(filed).astimezone(zone).date())


def _changes(told: str, inside: str, zone: ZoneInfo) -> Iterator[Filed]:
    """Read in pairs, facts then path, so that no path can be taken for anything else."""
    revision = None
    words = iter(told.split("\0"))
    for word in words:
        start = word.strip("\n")
        if start.startswith("\x01"):
            revision = _revision(start, zone)
        elif start.startswith(":") and revision is not None:
            _, mode, _, blob, _ = start.split()
            yield Filed(revision, mode, blob, next(words).removeprefix(inside))
