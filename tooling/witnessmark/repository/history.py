"""What git knows of a museum's files: the day of HEAD and the last change of each file.

All git calls stand here; each is one batch call, never one a file.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from pathlib import Path
from types import MappingProxyType
from zoneinfo import ZoneInfo

_RECORD = "%x01%h%x00%cI"
_NOTHING: Mapping[str, Revision] = MappingProxyType({})


@dataclass(frozen=True)
class Revision:
    """A version of a file: a short name for it and the day it was filed."""

    name: str
    day: date


@dataclass(frozen=True)
class History:
    """The last revision of every file, named from the museum folder's own name on.

    `head` is None outside a git repository; `is_shallow` means that older revisions are missing,
    so that last changes may be told wrongly and are left out.
    """

    head: Revision | None = None
    is_shallow: bool = False
    last: Mapping[str, Revision] = field(default_factory=lambda: _NOTHING)


def read_history(museum: Path, *, zone: ZoneInfo) -> History:
    """What git knows of a museum folder; nothing where it is in no repository."""
    import git

    try:
        repo = git.Repo(museum, search_parent_directories=True)
    except (git.InvalidGitRepositoryError, git.NoSuchPathError):
        return History()
    with repo:
        if repo.working_tree_dir is None or not repo.head.is_valid():
            return History()
        below = museum.resolve().relative_to(Path(repo.working_tree_dir).resolve()).as_posix()
        head = _revision(repo.git.log("-1", f"--format={_RECORD}"), zone)
        if repo.git.rev_parse("--is-shallow-repository") == "true":
            return History(head, is_shallow=True)
        told = repo.git.log(
            "--name-only", "-z", "--no-renames", "-m", "--first-parent",
            f"--format={_RECORD}", "--", below,
        )  # fmt: skip
        inside = "" if below == "." else f"{below}/"
        return History(head, last=_last_changes(told, inside, museum.resolve().name, zone))


def _revision(line: str, zone: ZoneInfo) -> Revision:
    name, _, filed = line.strip("\x01\n\x00").partition("\x00")
    return Revision(name, datetime.fromisoformat(filed).astimezone(zone).date())


def _last_changes(told: str, inside: str, museum: str, zone: ZoneInfo) -> Mapping[str, Revision]:
    """Newest first: the first time a file is named is its last change."""
    last: dict[str, Revision] = {}
    for commit in told.split("\x01")[1:]:
        name, filed, *files = commit.split("\x00")
        revision = _revision(f"{name}\x00{filed}", zone)
        for file in files:
            path = file.strip("\n")
            if path:
                last.setdefault(f"{museum}/{path.removeprefix(inside)}", revision)
    return last
