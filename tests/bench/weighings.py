"""The budgets of weighing, and of telling ten changed records in meaning."""

from __future__ import annotations

import json
import subprocess
import time
from collections.abc import Callable, Iterator
from fractions import Fraction
from pathlib import Path
from statistics import median

from bench.branch import CHANGED, make_branch
from bench.line import WITNESSMARK, Line, timed

SHARES_SECONDS = 0.05


def review_line(museum: Path, runs: int) -> Line:
    """Ten changed records told in meaning, against git telling their lines."""
    top = make_branch(museum)
    ours = [*WITNESSMARK, "review", "main", "topic", "--museum", str(museum)]
    ours += ["--format", "json"]
    start = time.perf_counter()  # once, since it works out the whole museum on both sides
    told = subprocess.run(ours, capture_output=True, text=True, check=False)
    took = time.perf_counter() - start
    records = {change["record"] for change in json.loads(told.stdout)["changes"]}
    if len(records) < CHANGED:
        raise SystemExit(f"review told of {len(records)} records, and {CHANGED} were changed")
    bare = ["git", "-C", str(top), "diff", "main", "topic"]
    what = "review of a ten-record branch / bare git diff"
    return Line(what, took, timed(bare, runs), None)


def weighing_lines() -> Iterator[Line]:
    """Shares, ranks and a whole weighing of eight options."""
    from witnessmark.weighing import Option, Range, Weighting, option_figures, weigh
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
    yield Line("shares of 8 options", shares, None, SHARES_SECONDS)
    ranks = _repeated(lambda: rank_acceptabilities(field, domain=ALL_WEIGHTS))
    yield Line("rank acceptabilities / shares", ranks, shares, None)

    def whole() -> object:
        weighing = weigh(options, weighting=Weighting())
        return [option_figures(each) for each in weighing.options], weighing.flips

    yield Line("whole weighing / shares", _repeated(whole), shares, None)


def _repeated(work: Callable[[], object]) -> float:
    times = []
    for _ in range(5):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return median(times)
