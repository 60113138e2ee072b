"""Deposits on disk: written whole or not at all, and read back from a folder or a tar."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path

from witnessmark.errors import RefusedError, UnknownNameError, WitnessmarkError
from witnessmark.repository.site import built_beside, fill, refuse_outside

MARK, MAKER = "bag-info.txt", "Bag-Software-Agent: Witnessmark"
"""The file and the line by which a folder is known to be one of our deposits."""


_NOT_LISTED = frozenset("%\\")
"""Signs that BagIt or sha512sum write as codes, each in its own way."""


def write_deposit(files: Mapping[str, bytes], target: Path) -> None:
    """Put a deposit in place of the target folder.

    Raises:
        RefusedError: the folder holds what is no deposit of ours.
        WitnessmarkError: the disk would not take the files; the old deposit stands.
    """
    refuse_outside(files)
    with built_beside(target, is_ours=is_deposit, what="deposit") as fresh:
        fill(fresh, files)


def is_deposit(folder: Path) -> bool:
    """True for a folder that this program wrote as a deposit."""
    told = folder / MARK
    return told.is_file() and MAKER in told.read_text(encoding="utf-8", errors="replace")


def write_one_file(content: bytes, target: Path) -> None:
    """Put one file in place of an older one.

    Raises:
        WitnessmarkError: the disk would not take it; what was there stands.
    """
    fresh = target.with_name(f".{target.name}.new")
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        fresh.write_bytes(content)
        fresh.replace(target)
    except OSError as error:
        fresh.unlink(missing_ok=True)
        raise WitnessmarkError(
            f"{target} could not be written: {error.strerror}. What was there stands.",
            remedy="Look at the space and the rights of the disk, then try again.",
        ) from error


def read_folder(folder: Path) -> dict[str, bytes]:
    """Every ordinary file below a folder by its path in it; links are not followed.

    Raises:
        UnknownNameError: a file cannot be read.
    """
    found = {}
    for path in sorted(folder.rglob("*")):
        if path.is_file() and not path.is_symlink():
            found[path.relative_to(folder).as_posix()] = _bytes_of(path)
    return found


def read_one_file(path: Path) -> bytes:
    """The bytes of a file named on the command line.

    Raises:
        UnknownNameError: it is not there or cannot be read.
    """
    return _bytes_of(path)


def read_files(folder: Path, names: Iterable[str]) -> dict[str, bytes]:
    """The files of these names below a museum folder.

    Raises:
        RefusedError: a name holds signs that lists of files write in more than one way.
        UnknownNameError: a file cannot be read.
    """
    found = {}
    for name in sorted(names):
        if set(name) & _NOT_LISTED or not name.isprintable():
            raise RefusedError(
                f"A file below {folder.name} has a name that no list of files holds: {name!a}.",
                remedy="Rename it to letters, digits, blanks, dots and hyphens.",
            )
        found[name] = _bytes_of(folder / name)
    return found


def _bytes_of(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise UnknownNameError(
            f"{path} cannot be read: {error.strerror}.", remedy="Look at its name and its rights."
        ) from error
