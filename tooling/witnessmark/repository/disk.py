"""Reading a museum folder from disk: which files there are, and what is refused and why."""

from __future__ import annotations

import hashlib
import os
import stat
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from witnessmark.errors import NoMuseumError, UnknownNameError
from witnessmark.model.files import DECISION_FILE, MACHINE_FILE, POLICY_FILE, Folder

MOST_BYTES = 262_144
HOUSE = frozenset({"museum.yml", "people.yml", "stores.yml"})
READ_SUFFIXES = (".yml", ".yaml")


@dataclass(frozen=True)
class Listing:
    """What lies in a museum folder: YAML files by the digest of their bytes, and their sizes.

    `names` are all other paths found (pictures); `refused` those not read, with reason and remedy.
    """

    root: Path
    digests: Mapping[str, str]
    sizes: Mapping[str, int]
    names: frozenset[str]
    refused: Mapping[str, tuple[str, str]]


def find_museum(start: Path) -> Path:
    """The nearest folder upward from a path that holds museum.yml.

    Raises:
        UnknownNameError: the path does not exist.
        NoMuseumError: no folder above it is a museum.
    """
    if not start.exists():
        raise UnknownNameError(
            f"There is nothing at {start}.", remedy="Name a museum folder, a machine or a record."
        )
    here = start.resolve()
    for folder in (here, *here.parents):
        # A pipe or a broken link of that name is a museum all the same; reading it says what it is.
        if os.path.lexists(folder / "museum.yml"):
            return folder
    raise NoMuseumError(
        f"No museum.yml was found at {start} or above it.",
        remedy="Name a museum folder, such as decisions/.",
    )


def read_museum(folder: Path) -> Folder:
    """Every file of a museum: YAML read, other names noted, links and odd things refused."""
    files: dict[str, bytes] = {}
    names: set[str] = set()
    refused: dict[str, tuple[str, str]] = {}
    for name, found in _found(folder):
        if isinstance(found, bytes):
            files[name] = found
        elif found is None:
            names.add(name)
        else:
            refused[name] = found
    return Folder(folder.name, files, frozenset(names), refused)


def list_museum(folder: Path) -> Listing:
    """Every file of a museum by the digest of its bytes; nothing is kept of what was read."""
    digests: dict[str, str] = {}
    sizes: dict[str, int] = {}
    names: set[str] = set()
    refused: dict[str, tuple[str, str]] = {}
    for name, found in _found(folder):
        if isinstance(found, bytes):
            digests[name], sizes[name] = digest_of(found), len(found)
        elif found is None:
            names.add(name)
        else:
            refused[name] = found
    return Listing(folder, digests, sizes, frozenset(names), refused)


def listed(folder: Folder) -> Listing:
    """A museum that was read, as one that is only listed."""
    return Listing(
        root=Path(folder.name),
        digests={name: digest_of(raw) for name, raw in folder.files.items()},
        sizes={name: len(raw) for name, raw in folder.files.items()},
        names=folder.names,
        refused=folder.refused,
    )


def digest_of(raw: bytes) -> str:
    """The digest a file's bytes are known by."""
    return hashlib.sha256(raw).hexdigest()


def _found(folder: Path) -> Iterator[tuple[str, bytes | tuple[str, str] | None]]:
    """Every path with its bytes, with why it is not read, or with nothing where it is no YAML."""
    start = len(str(folder)) + 1
    for path in _walk(str(folder)):
        name = path[start:].replace(os.sep, "/")
        reason = _why_not(path)
        if reason is not None:
            yield name, reason
        elif _is_yaml(path):
            yield name, _bytes_or_why_not(path)
        else:
            yield name, None


def _bytes_or_why_not(path: str) -> bytes | tuple[str, str]:
    try:
        with open(path, "rb") as file:  # noqa: PTH123  see _walk
            return file.read()
    except OSError as error:
        reason = f"This file cannot be read: {error.strerror}."
        return reason, "Give yourself the right to read it."


def _walk(folder: str) -> Iterator[str]:
    """Every file below a folder, and every link, none of them followed; hidden ones left out.

    Paths are plain text here: over ten thousand files, Path objects took as long as the reading.
    """
    for root, folders, files in os.walk(folder, followlinks=False):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in [n for n in folders if Path(root, n).is_symlink() or _is_yaml(n)]:
            folders.remove(name)
            yield f"{root}{os.sep}{name}"
        for name in sorted(files):
            if not name.startswith("."):
                yield f"{root}{os.sep}{name}"


def _is_yaml(name: str) -> bool:
    return name.lower().endswith(READ_SUFFIXES)


def _why_not(path: str) -> tuple[str, str] | None:
    """Why a path is not read, with the remedy; None for an ordinary file of ordinary size."""
    try:
        status = os.lstat(path)
    except OSError as error:
        return f"This file cannot be read: {error.strerror}.", "Look at the disk."
    if stat.S_ISLNK(status.st_mode):
        return "This is a link, and links are not followed.", "Put the file itself here."
    if not stat.S_ISREG(status.st_mode):
        return "This is not an ordinary file.", "Put an ordinary file here, or take it away."
    if _is_yaml(path) and status.st_size > MOST_BYTES:
        size = status.st_size // 1024
        return (
            f"This file holds {size} KB; a record holds at most {MOST_BYTES // 1024} KB.",
            "Split it, or move pictures and tables out of it.",
        )
    return None


def is_house(path: str) -> bool:
    """True for a file above the machines' folders that every record is read against."""
    return path in HOUSE or POLICY_FILE.fullmatch(path) is not None


def paths_by_machine(listing: Listing) -> Mapping[str, tuple[str, ...]]:
    """The files of each machine's folder, in order."""
    found: dict[str, list[str]] = {}
    for path in sorted(listing.digests):
        match = DECISION_FILE.fullmatch(path) or MACHINE_FILE.fullmatch(path)
        if match and not POLICY_FILE.fullmatch(path):
            found.setdefault(match["machine"], []).append(path)
    return {machine: tuple(paths) for machine, paths in sorted(found.items())}
