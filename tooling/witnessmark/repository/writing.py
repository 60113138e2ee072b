"""Writing a file so that the old one stays whole until the new one is.

The new text is written beside the old one, forced to the disk and moved over it in one step. What a
killed run left beside a file is taken away by the next run that writes the file; readers do not see
it, since its name starts with a point.
"""

from __future__ import annotations

import os
import stat
import tempfile
from contextlib import suppress
from pathlib import Path
from typing import Final

from witnessmark.errors import RefusedError, WitnessmarkError
from witnessmark.repository.locking import held

NEW_FILE = 0o644
"""Readable for everybody in the house, as an editor would have made it."""

UNFINISHED = ".witnessmark-new"
"""The end of the name of a file that is still being written."""

ANYTHING: Final = object()
"""Stands for what a file held when nobody read it before."""


def replace_text(path: Path, text: str, *, was: object = ANYTHING) -> None:
    """Put new text in place of a file in one move.

    `was` is what the file held when it was read, or None where there was none: if somebody else has
    changed it since, nothing is written, so that no signature or finding is lost.

    Raises:
        RefusedError: the path is a link, or the file was changed since it was read.
        WitnessmarkError: the disk refused; the old file is untouched.
    """
    replace_bytes(path, text.encode(), was=was)


def replace_bytes(path: Path, content: bytes, *, was: object = ANYTHING) -> None:
    """Put new bytes in place of a file in one move; like `replace_text`.

    Raises:
        RefusedError: the path is a link, or the file was changed since it was read.
        WitnessmarkError: the disk refused; the old file is untouched.
    """
    try:
        with held(path.parent):
            _refuse(path, was)
            _clear_left_behind(path)
            _replace(path, content)
    except OSError as error:
        raise _cannot(path, error) from None


def create_text(path: Path, text: str) -> None:
    """Write a new file, whole or not at all; folders above it are made, and nothing is replaced.

    Raises:
        RefusedError: something lies there already; it is untouched.
        WitnessmarkError: the disk refused.
    """
    name = None
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", text=False)
        with os.fdopen(handle, "w", encoding="utf-8", newline="") as file:
            file.write(text)
        Path(name).chmod(NEW_FILE)
        _put_where_nothing_lies(Path(name), path)
    except FileExistsError:
        raise RefusedError(
            f"{path} is there already, and nothing is ever written over.",
            remedy="Look at it; move it away or choose another name.",
        ) from None
    except OSError as error:
        raise WitnessmarkError(
            f"{path} could not be written: {error.strerror}.",
            remedy="Look at the disk and the rights, then try again.",
        ) from None
    finally:
        if name is not None:
            Path(name).unlink(missing_ok=True)


def _put_where_nothing_lies(ready: Path, path: Path) -> None:
    """Give a finished file its name, unless another writer was quicker.

    A link is made only where nothing lies. Disks without links, such as many memory sticks, get a
    name that is taken first and then filled in one move.
    """
    try:
        os.link(ready, path)
    except FileExistsError:
        raise
    except OSError:
        path.open("x").close()
        ready.replace(path)


def _refuse(path: Path, was: object) -> None:
    if path.is_symlink() or path.parent.is_symlink():
        raise RefusedError(f"{path} is a link.", remedy="Put the file itself there.")
    if path.exists() and not stat.S_ISREG(path.stat().st_mode):
        raise RefusedError(f"{path} is no ordinary file.", remedy="Take it away.")
    if path.exists() and not os.access(path, os.W_OK):
        raise PermissionError(13, "it is read-only")
    if was is not ANYTHING and _text_of(path) != was:
        raise RefusedError(
            f"{path} was changed by somebody else while this ran.",
            remedy="Nothing was written. Look at the change, then do it again.",
        )


def as_text(content: bytes) -> str:
    """What a file's bytes hold, as a record is read."""
    return content.decode("utf-8", "replace").removeprefix("\ufeff")


def _text_of(path: Path) -> str | None:
    """What a file holds; None where there is none."""
    try:
        return as_text(path.read_bytes())
    except FileNotFoundError:
        return None


def _clear_left_behind(path: Path) -> None:
    """Take away what killed runs left; nobody else is writing while the folder is held."""
    start = f".{path.name}."
    for name in os.listdir(path.parent):  # noqa: PTH208  a name may hold signs that glob reads
        if name.startswith(start) and name.endswith(UNFINISHED):
            (path.parent / name).unlink(missing_ok=True)


def _replace(path: Path, content: bytes) -> None:
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=UNFINISHED)
    fresh = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        _like_the_old(fresh, path)
        fresh.replace(path)
    finally:
        fresh.unlink(missing_ok=True)
    _settle(path.parent)


def _like_the_old(fresh: Path, path: Path) -> None:
    """Give the new file the rights of the old one and, as far as one may, its owner."""
    if not path.exists():
        fresh.chmod(NEW_FILE)
        return
    old = path.stat()
    if hasattr(os, "chown"):
        with suppress(PermissionError):
            os.chown(fresh, old.st_uid, old.st_gid)
    fresh.chmod(stat.S_IMODE(old.st_mode))


def _settle(folder: Path) -> None:
    """Force the move itself to the disk, where the system lets a folder be forced."""
    if not hasattr(os, "O_DIRECTORY"):
        return
    handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _cannot(path: Path, error: OSError) -> WitnessmarkError:
    reason = error.strerror or os.strerror(error.errno or 0)
    return WitnessmarkError(
        f"{path} could not be written: {reason}.",
        remedy="The old file is untouched. Look at the disk and the rights, then try again.",
    )


def new_folder(path: Path) -> None:
    """Make a folder where there is none.

    Raises:
        WitnessmarkError: the disk refused.
    """
    try:
        path.mkdir(exist_ok=True)
    except OSError as error:
        raise WitnessmarkError(
            f"{path} could not be made: {error.strerror}.",
            remedy="Look at the disk and the rights, then try again.",
        ) from None
