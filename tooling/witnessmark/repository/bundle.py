"""The whole history behind HEAD in one file that git can clone, the same bytes for a commit.

The header is written here and the pack made without reuse of what lies in the repository, since
what `git bundle` writes depends on how the objects happen to be packed and on the branch's name.
Source: gitformat-bundle(5), version 2; git-pack-objects(1).
"""

from __future__ import annotations

import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from witnessmark.errors import WitnessmarkError

if TYPE_CHECKING:
    import git

BRANCH = "refs/heads/main"
"""What the history is called in the bundle, whatever the branch is called here."""


@dataclass(frozen=True)
class Kept:
    """A history as a bundle, None outside git; `is_edited` where files differ from HEAD."""

    bundle: bytes | None = None
    is_edited: bool = False


def read_history(museum: Path, *, with_bundle: bool) -> Kept:
    """What git holds of a museum's repository; the bundle only where it is wanted.

    Raises:
        WitnessmarkError: older versions are missing here, or git cannot read the repository.
    """
    import git

    try:
        repo = git.Repo(museum, search_parent_directories=True)
    except (git.InvalidGitRepositoryError, git.NoSuchPathError):
        return Kept()
    with repo:
        try:
            return _read(repo, museum, with_bundle=with_bundle)
        except git.GitCommandError as fault:
            raise WitnessmarkError(
                f"Git could not pack the history: {str(fault.stderr or '').strip()}",
                remedy="Run `git fsck` in the museum's folder and mend what it names.",
            ) from fault


def _read(repo: git.Repo, museum: Path, *, with_bundle: bool) -> Kept:
    import git

    try:
        head = str(repo.git.rev_parse("--verify", "HEAD"))
    except git.GitCommandError:  # nothing was ever committed
        return Kept()
    is_edited = bool(repo.git.status("--porcelain", "--", str(museum)))
    if not with_bundle:
        return Kept(is_edited=is_edited)
    if repo.git.rev_parse("--is-shallow-repository") == "true":
        raise WitnessmarkError(
            "This clone does not hold the whole history, so no sealed deposit can be made of it.",
            remedy="Run `git fetch --unshallow` here, then try again.",
        )
    header = f"# v2 git bundle\n{head} HEAD\n{head} {BRANCH}\n\n".encode()
    return Kept(header + _pack(repo, head), is_edited=is_edited)


def _pack(repo: git.Repo, head: str) -> bytes:
    with tempfile.TemporaryFile() as asked:
        asked.write(f"{head}\n".encode())
        asked.seek(0)
        packed: bytes = repo.git.pack_objects(
            "--revs", "--stdout", "-q", "--threads=1", "--no-reuse-delta", "--no-reuse-object",
            "--no-use-bitmap-index", "--delta-base-offset", "--compression=9", "--window=10",
            "--depth=50", "--window-memory=0",
            istream=asked, stdout_as_string=False, strip_newline_in_stdout=False,
        )  # fmt: skip
        return packed
