"""The budgets as ratios, measured in one run on one machine: `make bench`.

The floor is bare `yaml.load` with the C loader over the same files, a process of its own.
"""

from __future__ import annotations

import argparse
import json
import os
import platform
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from statistics import median

sys.path.insert(0, str(Path(__file__).parents[1]))

from bench.branch import CHANGED, make_branch
from bench.many import make_museum
from bench.preview import preview_times

FLOOR = """
import sys, yaml
for name in sys.stdin.read().split("\\n"):
    if name:
        with open(name, "rb") as file:
            yaml.load(file, yaml.CSafeLoader)
"""


@dataclass(frozen=True)
class Line:
    """One budget: what was measured against what, and what is wanted."""

    what: str
    ours: float
    floor: float
    most: float | None
    unit: str = "s"

    @property
    def ratio(self) -> float:
        return self.ours / self.floor if self.floor else self.ours

    def __str__(self) -> str:
        """The line as printed."""
        verdict = "" if self.most is None else ("met" if self.ratio <= self.most else "NOT MET")
        want = "" if self.most is None else f"{self.most:g}"
        return (
            f"{self.what:<46} {self.floor:>9.3f} {self.ours:>9.3f} {self.ratio:>8.2f} "
            f"{want:>6}  {verdict}"
        )


def main() -> None:
    """Print every line."""
    parser = argparse.ArgumentParser(prog="make bench")
    parser.add_argument("--decisions", type=int, default=1000)
    parser.add_argument("--runs", type=int, default=3)
    wanted = parser.parse_args()
    with tempfile.TemporaryDirectory() as place:
        museum = make_museum(Path(place), decisions=wanted.decisions)
        print(f"{platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}")
        print(f"{'':<46} {'floor':>9} {'ours':>9} {'ratio':>8} {'want':>6}")
        for line in _lines(museum, wanted.runs):
            print(line, flush=True)


def _lines(museum: Path, runs: int) -> Iterator[Line]:
    files = "\n".join(str(path) for path in sorted(museum.rglob("*.yml")))
    floor = _timed([sys.executable, "-c", FLOOR], runs, stdin=files)
    count = len(list(museum.glob("*/20*-*.yml")))
    check = [sys.executable, "-m", "witnessmark", "check", str(museum), "--format", "json"]
    yield Line(f"cold check of {count} decisions / floor", _timed(check, runs), floor, 0.8)
    start = _timed([sys.executable, "-c", "pass"], runs)
    asked = _timed([sys.executable, "-m", "witnessmark", "--help"], runs)
    yield Line("--help, seconds (floor: bare Python)", asked, start, None)
    demo = Path(__file__).parents[2] / "decisions"
    one = [sys.executable, "-m", "witnessmark", "check", str(demo), "--format", "json"]
    yield Line("check of the demo, seconds (floor: bare Python)", _timed(one, runs), start, None)
    plain = museum.parent / "plain"
    publish = [
        sys.executable, "-m", "witnessmark", "publish", str(museum), "--as-of", "2026-09-15",
        "--skin", "plain", "--out", str(plain),
    ]  # fmt: skip
    yield Line("plain site, seconds (floor: check)", _timed(publish, 1), _timed(check, 1), None)
    yield from (Line(f"{what}, seconds", s, 0.0, None) for what, s in preview_times(museum))
    yield _review(museum, runs)
    yield from _weighing()


def _review(museum: Path, runs: int) -> Line:
    """Ten changed records told in meaning, against git telling their lines."""
    top = make_branch(museum)
    ours = [sys.executable, "-m", "witnessmark", "review", "main", "topic", "--museum", str(museum)]
    ours += ["--format", "json"]
    start = time.perf_counter()  # once, since it works out the whole museum on both sides
    told = subprocess.run(ours, capture_output=True, text=True, check=False)
    took = time.perf_counter() - start
    records = {change["record"] for change in json.loads(told.stdout)["changes"]}
    if len(records) < CHANGED:
        raise SystemExit(f"review told of {len(records)} records, and {CHANGED} were changed")
    bare = ["git", "-C", str(top), "diff", "main", "topic"]
    what = "review of a ten-record branch / bare git diff"
    return Line(what, took, _timed(bare, runs), None)


def _weighing() -> Iterator[Line]:
    from witnessmark.weighing import Option, Range, Weighting, weigh
    from witnessmark.weighing.field import line_up
    from witnessmark.weighing.partition import partition_of
    from witnessmark.weighing.ranks import rank_acceptabilities
    from witnessmark.weighing.simplex import ALL_WEIGHTS

    rows = [(4, 1, 4), (3, 3, 3), (1, 4, 1), (2, 3, 3), (4, 0, 4), (3, 2, 4), (2, 4, 2), (0, 4, 3)]
    options = [
        Option(
            str(n),
            (Range.certain(Fraction(a)), Range.certain(Fraction(s)), Range.certain(Fraction(r))),
        )
        for n, (a, s, r) in enumerate(rows)
    ]
    field = line_up(options, weighting=Weighting())
    shares = _repeated(lambda: partition_of(field, domain=ALL_WEIGHTS))
    yield Line("shares of 8 options, seconds (want 0.05)", shares, 0.0, 0.05)
    ranks = _repeated(lambda: rank_acceptabilities(field, domain=ALL_WEIGHTS))
    yield Line("rank acceptabilities / shares", ranks, shares, None)
    whole = _repeated(lambda: weigh(options, weighting=Weighting()))
    yield Line("whole weighing / shares", whole, shares, None)


def _repeated(work: Callable[[], object]) -> float:
    times = []
    for _ in range(5):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return median(times)


def _timed(command: list[str], runs: int, *, stdin: str = "") -> float:
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        subprocess.run(command, input=stdin, text=True, capture_output=True, check=False)
        times.append(time.perf_counter() - start)
    return median(times)


if __name__ == "__main__":
    main()
