"""One line of the bench: what was measured, against what, and what is wanted."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path
from statistics import median

WITNESSMARK = (sys.executable, "-m", "witnessmark")
# Runs a command, then says how much memory the largest of its processes took, in KB on Linux.
_PEAK = (
    "import resource, subprocess, sys;"
    "subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL);"
    "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)"
)


@dataclass(frozen=True)
class Line:
    """One budget; without `floor` the figure itself is held against what is wanted."""

    what: str
    ours: float
    floor: float | None
    most: float | None
    unit: str = "s"

    @property
    def ratio(self) -> float:
        """Ours by the floor, or ours where there is none."""
        return self.ours / self.floor if self.floor else self.ours

    @property
    def verdict(self) -> str:
        """Met, or by how much not; nothing where nothing is wanted."""
        if self.most is None:
            return ""
        if self.ratio <= self.most:
            return "met"
        if not self.most:
            return f"not met, {self.ratio:g} too much"
        return f"not met, {self.ratio / self.most:.1f} times over"

    @property
    def cells(self) -> tuple[str, str, str, str, str, str]:
        """The line in words: what, floor, ours, ratio, want, verdict."""
        floor = "" if self.floor is None else f"{self.floor:.2f} {self.unit}"
        ratio = "" if self.floor is None else f"{self.ratio:.2f}"
        most = "" if self.most is None else f"{self.most:g}"
        return self.what, floor, f"{self.ours:.2f} {self.unit}", ratio, most, self.verdict

    def __str__(self) -> str:
        """The line as printed."""
        what, *rest = self.cells
        widths = (12, 12, 7, 6)
        return (
            f"{what:<62}"
            + "".join(f" {cell:>{width}}" for cell, width in zip(rest[:4], widths, strict=True))
            + f"  {rest[4]}"
        )


def timed(command: list[str], runs: int, *, stdin: str = "") -> float:
    """The middle of some runs of a command: seconds of processor, its children's too.

    A machine that does other things meanwhile stretches what a clock says, but hardly this.
    """
    return median(_run(command, stdin)[0] for _ in range(runs))


def waited(command: list[str], runs: int, *, stdin: str = "") -> float:
    """The middle of some runs of a command by the clock, for what several processes share."""
    return median(_run(command, stdin)[1] for _ in range(runs))


def _run(command: list[str], stdin: str) -> tuple[float, float]:
    before, start = _children(), time.perf_counter()
    subprocess.run(command, input=stdin, text=True, capture_output=True, check=False)
    return _children() - before, time.perf_counter() - start


def _children() -> float:
    spent = os.times()
    return spent.children_user + spent.children_system


def peak_megabytes(command: list[str]) -> float:
    """The most memory that any one process of a command took."""
    wrapped = [sys.executable, "-c", _PEAK, *command]
    told = subprocess.run(wrapped, capture_output=True, text=True, check=True).stdout
    per_megabyte = 1024**2 if sys.platform == "darwin" else 1024
    return int(told.splitlines()[-1]) / per_megabyte


def with_cache(place: Path) -> None:
    """Let everything that is started remember here, and not in the user's own folder."""
    os.environ["XDG_CACHE_HOME"] = str(place)
