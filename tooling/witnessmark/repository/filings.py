"""Every version of a museum's files that the history of HEAD holds, whichever branch it came by.

Two git calls whatever the size: the list of changes, and one reading of all contents.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from zoneinfo import ZoneInfo

from witnessmark.errors import WitnessmarkError
from witnessmark.repository.disk import MOST_BYTES
from witnessmark.repository.history import Filed, Revision
from witnessmark.repository.past import changes_of
from witnessmark.repository.versions import contents_of

_FILES = frozenset({"100644", "100755"})
_ABSENT = "0" * 40


@dataclass(frozen=True)
class Filing:
    """One file as one change left it; `path` is below the museum folder."""

    path: str
    revision: Revision
    content: bytes


def read_filings(
    museum: Path, *, zone: ZoneInfo, wanted: Callable[[str], bool]
) -> tuple[Filing, ...]:
    """The versions of all files whose path is wanted, oldest first.

    Raises:
        WitnessmarkError: there is no history here, or not the whole of it.
    """
    import git

    try:
        repo = git.Repo(museum, search_parent_directories=True)
    except (git.InvalidGitRepositoryError, git.NoSuchPathError):
        raise _nothing(museum) from None
    with repo:
        if repo.working_tree_dir is None:
            raise _nothing(museum)
        if (Path(repo.common_dir) / "shallow").is_file():
            raise WitnessmarkError(
                "This is a shallow clone, so most of the history is not here to be looked at.",
                remedy="Run `git fetch --unshallow`, then ask again.",
            )
        try:
            told = changes_of(repo, museum.resolve(), zone, "--full-history")
        except git.GitCommandError:  # nothing was ever committed
            raise _nothing(museum) from None
        found = [change for change in told if _is_file(change) and wanted(change.path)]
        blobs = contents_of(repo, sorted({change.blob for change in found}))
    return tuple(
        Filing(change.path, change.revision, blobs[change.blob])
        for change in found
        if len(blobs.get(change.blob, b"")) <= MOST_BYTES and change.blob in blobs
    )


def _is_file(change: Filed) -> bool:
    return change.mode in _FILES and change.blob != _ABSENT


def _nothing(museum: Path) -> WitnessmarkError:
    return WitnessmarkError(
        f"{museum} has no history in git that could be looked at.",
        remedy="Run this in a clone of the museum's repository, or leave --history out.",
    )
