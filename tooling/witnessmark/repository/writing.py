"""Writing a file so that the old one stays whole until the new one is."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from witnessmark.errors import RefusedError, WitnessmarkError

NEW_FILE = 0o644
"""Readable for everybody in the house, as an editor would have made it."""


def replace_text(path: Path, text: str) -> None:
    """Put new text in place of a file in one move.

    Raises:
        WitnessmarkError: the disk refused; the old file is untouched.
    """
    try:
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", text=False)
        with os.fdopen(handle, "w", encoding="utf-8", newline="") as file:
            file.write(text)
        Path(name).chmod(path.stat().st_mode & 0o777 if path.exists() else NEW_FILE)
        Path(name).replace(path)
    except OSError as error:
        raise WitnessmarkError(
            f"{path} could not be written: {error.strerror}.",
            remedy="The old file is untouched. Look at the disk and the rights, then try again.",
        ) from None


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
