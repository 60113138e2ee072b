"""Putting a new folder in place of an old one, in one step where the system can."""

from __future__ import annotations

import ctypes
import os
import sys
from functools import cache
from pathlib import Path
from typing import Any

ASIDE = "-old"
_HERE = -100  # AT_FDCWD: a path as the process sees it
_EXCHANGE = 2  # RENAME_EXCHANGE, Linux 3.15 and later; renameat2(2)


def put_in_place(fresh: Path, target: Path) -> None:
    """Let the fresh folder stand at the target; what stood there is then at the fresh path or gone.

    In one step where the system and the disk can exchange two names. Elsewhere in two: a run killed
    between them leaves the old folder beside the target, under a name that ends as ASIDE says.
    """
    if not target.exists():
        fresh.rename(target)
    elif not _exchanged(fresh, target):
        old = fresh.with_name(f"{fresh.name}{ASIDE}")
        target.rename(old)
        try:
            fresh.rename(target)
        except BaseException:
            old.rename(target)
            raise
        old.rename(fresh)


def _exchanged(one: Path, other: Path) -> bool:
    """True when the two names were exchanged in one step."""
    rename = _renameat2()
    if rename is None:
        return False
    done: int = rename(_HERE, os.fsencode(one), _HERE, os.fsencode(other), _EXCHANGE)
    return done == 0


@cache
def _renameat2() -> Any:  # noqa: ANN401  a function of the C library, untyped
    """The system's own exchange of names; cached, since looking it up loads the C library."""
    if not sys.platform.startswith("linux"):
        return None
    return getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None)
