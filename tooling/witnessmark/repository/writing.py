"""Writing a file so that the old one stays whole until the new one is."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from witnessmark.errors import WitnessmarkError

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
