"""Run as a program: the command line, stopped at a chosen write boundary as a dying machine would.

    python interrupted.py ACTION BOUNDARY NUMBER LIMIT WORDS...

BOUNDARY is a name from BOUNDARIES, or any; NUMBER counts its calls from 1 (0: never). ACTION is
kill (the process ends at once, nothing is tidied up), interrupt (as Ctrl-C would) or two-renames
(kill, on a disk that cannot exchange two names). LIMIT is the most bytes a file may have, 0 for no
limit.
"""

from __future__ import annotations

import functools
import os
import resource
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

BOUNDARIES = ("rename", "replace", "fsync", "mkdir", "chmod", "unlink", "rmdir", "link")
"""Functions of `os` that change the disk; `write` and `exchange` are counted beside them."""

KILLED = 77


class _Countdown:
    """Counts what is about to be written, and stops the process at the place asked for."""

    def __init__(self, action: str, boundary: str, number: int) -> None:
        self.action, self.boundary, self.number, self.seen = action, boundary, number, 0

    def step(self, name: str) -> None:
        if self.boundary in (name, "any"):
            self.seen += 1
            if self.seen == self.number:
                if self.action == "interrupt":
                    raise KeyboardInterrupt
                os._exit(KILLED)

    def before(self, name: str, real: Callable[..., Any]) -> Callable[..., Any]:
        @functools.wraps(real)
        def counted(*words: Any, **named: Any) -> Any:
            self.step(name)
            return real(*words, **named)

        return counted


def _watch(countdown: _Countdown) -> None:
    from witnessmark.repository import swapping

    for name in BOUNDARIES:
        setattr(os, name, countdown.before(name, getattr(os, name)))
    whole = Path.write_bytes

    def in_halves(path: Path, content: bytes) -> int:
        countdown.step("write")
        whole(path, content[: len(content) // 2])
        countdown.step("write")
        return whole(path, content)

    Path.write_bytes = in_halves  # type: ignore[method-assign,assignment]
    exchanged = swapping._exchanged
    if countdown.action == "two-renames":
        exchanged = lambda *_: False  # noqa: E731  as on a disk that cannot
    swapping._exchanged = countdown.before("exchange", exchanged)


def run() -> None:
    """Do as the words on the command line say."""
    action, boundary, number, limit, *words = sys.argv[1:]
    countdown = _Countdown(action, boundary, int(number))
    _watch(countdown)
    if int(limit):
        resource.setrlimit(resource.RLIMIT_FSIZE, (int(limit), int(limit)))
    from witnessmark.cli import main

    sys.argv = ["witnessmark", *words]
    main()


if __name__ == "__main__":
    run()
