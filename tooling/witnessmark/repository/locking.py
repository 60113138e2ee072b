"""Holding a folder while something in it is compared and replaced, so that two runs take turns."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

if sys.platform != "win32":
    import fcntl


@contextmanager
def held(folder: Path) -> Iterator[None]:
    """The folder to oneself until the block ends; waits for whoever holds it.

    The system lets go when a process ends, however it ends, and no file is left behind. Windows has
    no such lock on a folder; there the comparison before each writing has to do.
    """
    handle = _taken(folder, wait=True)
    try:
        yield
    finally:
        if handle is not None:
            os.close(handle)


@contextmanager
def marked_in_use(folder: Path) -> Iterator[None]:
    """The folder known to be in use until the block ends; for one that this process just made."""
    handle = _taken(folder, wait=False)
    try:
        yield
    finally:
        if handle is not None:
            os.close(handle)


def is_in_use(folder: Path) -> bool:
    """True while a process that marked the folder lives; always, where that cannot be known."""
    if sys.platform == "win32":
        return True
    try:
        handle = _taken(folder, wait=False)
    except BlockingIOError:
        return True
    if handle is not None:
        os.close(handle)
    return False


def _taken(folder: Path, *, wait: bool) -> int | None:
    if sys.platform == "win32":
        return None
    handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY | os.O_CLOEXEC)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | (0 if wait else fcntl.LOCK_NB))
    except BaseException:
        os.close(handle)
        raise
    return handle
