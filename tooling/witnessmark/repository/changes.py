"""Noticing that a file of a museum has changed, by looking at sizes and times now and then."""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

EVERY = 0.3
"""Seconds between two looks: short enough to feel at once, long enough to cost nothing."""


def changes(
    folder: Path, *, wait: Callable[[float], object] = time.sleep
) -> Iterator[frozenset[str]]:
    """Give, for ever, the names of the files that were changed, added or removed since before.

    A half-second of polling needs no watcher of the system's own, and works on every disk.
    """
    before = _seen(folder)
    while True:
        wait(EVERY)
        now = _seen(folder)
        differing = {
            name for name in before.keys() | now.keys() if before.get(name) != now.get(name)
        }
        if differing:
            yield frozenset(differing)
        before = now


def _seen(folder: Path) -> Mapping[str, tuple[int, int]]:
    """The size and time of every file that is not hidden, by its name below the folder."""
    found: dict[str, tuple[int, int]] = {}
    for root, folders, files in os.walk(folder):
        folders[:] = [name for name in folders if not name.startswith(".")]
        for name in files:
            path = Path(root, name)
            if name.startswith("."):
                continue
            try:
                status = path.stat()
            except OSError:
                continue  # gone between the two calls; the next look will say so
            found[path.relative_to(folder).as_posix()] = (status.st_size, status.st_mtime_ns)
    return found
