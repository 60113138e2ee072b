"""Every version of every record that git keeps: the day it was filed and what it then held.

Three git processes whatever the size: shallow or not, the list of changes, and one reading of all
contents.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from pathlib import Path
from typing import NamedTuple
from zoneinfo import ZoneInfo

from witnessmark.model.library import DECISION_FILE
from witnessmark.repository.versions import contents_of

_ABSENT = "0" * 40
_FILES = frozenset({"100644", "100755"})


class _Change(NamedTuple):
    day: date
    blob: str
    path: str


@dataclass(frozen=True)
class RecordVersions:
    """The versions of each decision by id, oldest first; none are told of a shallow clone."""

    is_shallow: bool = False
    by_id: Mapping[str, tuple[tuple[date, bytes], ...]] = field(default_factory=dict)


def read_record_versions(museum: Path, *, zone: ZoneInfo) -> RecordVersions:
    """What each decision held after each change on the main line of the history.

    A record is known by the id in its file's name, so that a move is no end of it. What came by a
    merge or a squash is one change, on the day it came.
    """
    import git

    try:
        repo = git.Repo(museum, search_parent_directories=True)
    except (git.InvalidGitRepositoryError, git.NoSuchPathError):
        return RecordVersions()
    with repo:
        if repo.working_tree_dir is None or not repo.head.is_valid():
            return RecordVersions()
        if repo.git.rev_parse("--is-shallow-repository") == "true":
            return RecordVersions(is_shallow=True)
        below = museum.resolve().relative_to(Path(repo.working_tree_dir).resolve()).as_posix()
        told = repo.git.log(
            "--raw", "-z", "--no-abbrev", "--no-renames", "-m", "--first-parent", "--reverse",
            "--format=%x01%cI", "--", below,
        )  # fmt: skip
        inside = "" if below == "." else f"{below}/"
        changes = list(_changes(told, inside, zone))
        blobs = contents_of(repo, sorted({change.blob for change in changes}))
    return RecordVersions(by_id=_by_id(changes, blobs))


def _changes(told: str, inside: str, zone: ZoneInfo) -> Iterator[_Change]:
    """Read in pairs, facts then path, so that no path can be taken for anything else."""
    day = date.min
    words = iter(told.split("\0"))
    for word in words:
        start = word.strip("\n")
        if start.startswith("\x01"):
            day = datetime.fromisoformat(start.strip("\x01")).astimezone(zone).date()
        elif start.startswith(":"):
            _, mode, _, blob, _ = start.split()
            path = next(words).removeprefix(inside)
            if blob != _ABSENT and mode in _FILES and DECISION_FILE.fullmatch(path):
                yield _Change(day, blob, path)


def _by_id(
    changes: list[_Change], blobs: Mapping[str, bytes]
) -> Mapping[str, tuple[tuple[date, bytes], ...]]:
    found: dict[str, list[tuple[date, bytes]]] = {}
    for change in changes:
        match = DECISION_FILE.fullmatch(change.path)
        if match and change.blob in blobs:
            versions = found.setdefault(match["id"], [])
            if not versions or versions[-1][1] != blobs[change.blob]:
                versions.append((change.day, blobs[change.blob]))
    return {name: tuple(versions) for name, versions in sorted(found.items())}
