"""A museum as it stood at a revision that git keeps, read like one on disk.

At most five git processes, whatever the size of the museum: the revisions, one listing a side and
one reading of every file for both sides. (The fifth is GitPython's own look for git.)
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, NamedTuple

from witnessmark.errors import UnknownNameError, WitnessmarkError
from witnessmark.model.library import Folder
from witnessmark.model.statement import ALLOWED_SIGNERS, SIGNATURES
from witnessmark.repository.disk import MOST_BYTES, READ_SUFFIXES, read_museum

if TYPE_CHECKING:
    import git

_LINK, _MODULE = "120000", "160000"
_MAIN = ("main", "origin/main", "HEAD")
MOST_SIGNATURE_BYTES = 65_536


@dataclass(frozen=True)
class Version:
    """A museum at one moment; `further` holds signatures and the list of keys, by path in it."""

    label: str
    folder: Folder
    further: Mapping[str, bytes] = field(default_factory=dict)


@dataclass(frozen=True)
class Versions:
    """The two sides of a review.

    `allowed_signers` is the list of keys of the base as named, never of the head: who can change
    the list in a branch could else vouch for himself.
    """

    base: Version
    head: Version
    allowed_signers: bytes | None
    notes: tuple[str, ...] = ()


class _Entry(NamedTuple):
    mode: str
    blob: str
    size: int
    path: str


class _Revisions(NamedTuple):
    tip: str
    base: str
    head: str
    is_shallow: bool


def read_versions(museum: Path, *, base: str | None = None, head: str | None = None) -> Versions:
    """The museum where head parted from base, and at head (the files on disk, without one).

    Raises:
        WitnessmarkError: the folder is in no git repository, or git cannot read it.
        UnknownNameError: git knows no such revision.
    """
    import git

    try:
        repo = git.Repo(museum, search_parent_directories=True)
    except (git.InvalidGitRepositoryError, git.NoSuchPathError):
        raise WitnessmarkError(
            f"{museum} is in no git repository, so there is no earlier version to compare with.",
            remedy="Run `git init` and commit once; `check` works without git.",
        ) from None
    with repo:
        try:
            return _read(repo, museum.resolve(), base, head)
        except git.GitCommandError as fault:
            raise _cannot(fault) from fault


def _read(repo: git.Repo, museum: Path, base: str | None, head: str | None) -> Versions:
    if repo.working_tree_dir is None:
        raise WitnessmarkError(
            "The git repository has no files of its own.", remedy="Run this in a clone of it."
        )
    top = Path(repo.working_tree_dir).resolve()
    below = "" if museum == top else museum.relative_to(top).as_posix()
    name, found = _revisions(repo, base, head)
    listed = [tuple(_listing(repo, found.base, below))]
    if head is not None:
        listed.append(tuple(_listing(repo, found.head, below)))
    keys = f"{found.tip}:{below}/{ALLOWED_SIGNERS}" if below else f"{found.tip}:{ALLOWED_SIGNERS}"
    wanted = {e.blob for side in listed for e in side if _reason(e) is None and _is_read(e.path)}
    blobs = contents_of(repo, [*sorted(wanted), keys])
    sides = [_folder(museum.name, side, blobs) for side in listed]
    before = replace(sides[0], label=_label(name, found.base))
    after = replace(sides[1], label=_label(head, found.head)) if head else _on_disk(museum)
    notes = tuple(_notes(name, found, before))
    return Versions(before, after, blobs.get(keys), notes)


def _label(name: str | None, commit: str) -> str:
    short = commit[:10]
    return short if not name or commit.startswith(name) else f"{name} ({short})"


def _notes(name: str, found: _Revisions, before: Version) -> Iterator[str]:
    if found.is_shallow:
        yield (
            "This is a shallow clone: older revisions are missing, so the base may be told "
            "wrongly. Fetch the whole history to be sure."
        )
    if found.base != found.tip:
        yield f"Compared with the point where the head parted from {name}."
    if "museum.yml" not in before.folder.files:
        yield "The base holds no museum here, so everything is new."


def _revisions(repo: git.Repo, base: str | None, head: str | None) -> tuple[str, _Revisions]:
    """The named base, the commit where head parted from it, and head: one process as a rule."""
    import git

    names = (base,) if base is not None else _MAIN
    for name in names:
        for word in (name, head or "HEAD"):
            if word.startswith("-") or ".." in word or any(c.isspace() for c in word):
                raise _unknown(word)
        try:
            told = repo.git.rev_parse("--is-shallow-repository", f"{name}...{head or 'HEAD'}")
        except git.GitCommandError:
            continue
        shallow, after, tip, *parted = told.split("\n")
        point = parted[0].removeprefix("^") if parted else tip
        return name, _Revisions(tip, point, after, shallow == "true")
    wrong = " or ".join(filter(None, [base, head])) or "HEAD"
    raise _unknown(wrong)


def _unknown(name: str) -> UnknownNameError:
    return UnknownNameError(
        f'Git knows no revision "{name}" here.',
        remedy="Name a branch, a tag or a commit that this clone holds; `git fetch` brings more.",
    )


def _listing(repo: git.Repo, commit: str, below: str) -> Iterator[_Entry]:
    words = ["-r", "-l", "-z", "--full-tree", commit, "--", *([f"{below}/"] if below else [])]
    told: bytes = repo.git.ls_tree(*words, stdout_as_string=False, strip_newline_in_stdout=False)
    start = len(below) + 1 if below else 0
    for line in told.split(b"\0"):
        if not line:
            continue
        facts, _, path = line.partition(b"\t")
        mode, _, blob, size = facts.decode().split()
        inside = os.fsdecode(path)[start:]
        if not any(part.startswith(".") for part in inside.split("/")):
            yield _Entry(mode, blob, int(size) if size.isdigit() else 0, inside)


def contents_of(repo: git.Repo, names: list[str]) -> dict[str, bytes]:
    """The bytes of every object that git has, by the name asked for."""
    with tempfile.TemporaryFile() as asked:
        asked.write("".join(f"{name}\n" for name in names).encode())
        asked.seek(0)
        told: bytes = repo.git.cat_file(
            "--batch", istream=asked, stdout_as_string=False, strip_newline_in_stdout=False
        )
    found, at = {}, 0
    for name in names:
        end = told.index(b"\n", at)
        words = told[at:end].split()
        at = end + 1
        if words[-1] == b"missing" or words[1] != b"blob":
            at += 0 if words[-1] == b"missing" else int(words[2]) + 1
            continue
        size = int(words[2])
        found[name] = told[at : at + size]
        at += size + 1
    return found


def _is_yaml(path: str) -> bool:
    return PurePosixPath(path).suffix.lower() in READ_SUFFIXES


def _is_further(path: str) -> bool:
    is_signature = path.endswith(".sig") and PurePosixPath(path).parent.name == SIGNATURES
    return is_signature or path == ALLOWED_SIGNERS


def _is_read(path: str) -> bool:
    return _is_yaml(path) or _is_further(path)


def _reason(entry: _Entry) -> tuple[str, str] | None:
    """Why an entry is not read; the words are those of the reader of disks."""
    if entry.mode == _LINK:
        return "This is a link, and links are not followed.", "Put the file itself here."
    if entry.mode == _MODULE:
        return "This is not an ordinary file.", "Put an ordinary file here, or take it away."
    most = MOST_BYTES if _is_yaml(entry.path) else MOST_SIGNATURE_BYTES
    if _is_read(entry.path) and entry.size > most:
        return (
            f"This file holds {entry.size // 1024} KB; at most {most // 1024} KB are read.",
            "Split it, or move pictures and tables out of it.",
        )
    return None


def _folder(name: str, listing: tuple[_Entry, ...], blobs: Mapping[str, bytes]) -> Version:
    files, names, refused, further = {}, set(), {}, {}
    for entry in listing:
        reason = _reason(entry)
        if reason is not None:
            refused[entry.path] = reason
        elif _is_yaml(entry.path):
            files[entry.path] = blobs.get(entry.blob, b"")
        else:
            names.add(entry.path)
            if _is_further(entry.path):
                further[entry.path] = blobs.get(entry.blob, b"")
    return Version("", Folder(name, files, frozenset(names), refused), further)


def _on_disk(museum: Path) -> Version:
    return Version("the files on disk", read_museum(museum), read_further(museum))


def read_further(museum: Path) -> dict[str, bytes]:
    """The list of keys and the signatures of a museum on disk, by their path in it."""
    found = {}
    for path in [museum / ALLOWED_SIGNERS, *sorted(museum.glob(f"*/{SIGNATURES}/*.sig"))]:
        is_plain = path.is_file() and not path.is_symlink()
        if is_plain and path.stat().st_size <= MOST_SIGNATURE_BYTES:
            found[path.relative_to(museum).as_posix()] = path.read_bytes()
    return found


def _cannot(fault: git.GitCommandError) -> WitnessmarkError:
    told = str(fault.stderr or "").strip().strip("'").splitlines()
    reason = told[0].removeprefix("stderr: ").strip(" '") if told else "it gave no reason"
    return WitnessmarkError(
        f"Git could not read the repository: {reason}.", remedy="Run `git status` here and mend it."
    )
