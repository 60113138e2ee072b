"""The budgets of a start: help, and one record of a small museum."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

from bench.line import WITNESSMARK, Line, timed

DEMO = Path(__file__).parents[2] / "decisions"
HELP_SECONDS, ONE_FILE_SECONDS = 0.1, 0.4


def start_lines(runs: int) -> Iterator[Line]:
    """Seconds, and beside them what Python and pydantic alone take."""
    bare = timed([sys.executable, "-c", "pass"], runs)
    models = timed([sys.executable, "-c", "from pydantic import BaseModel"], runs)
    asked = timed([*WITNESSMARK, "--help"], runs)
    yield Line("--help", asked, None, HELP_SECONDS)
    yield Line("--help / bare Python", asked, bare, None)
    record = next(DEMO.glob("quay-crane/2024-003-*.yml"))
    one = [*WITNESSMARK, "check", str(record), "--format", "json"]
    cold = timed([*one, "--no-cache"], runs)
    yield Line("check of one record, nothing remembered", cold, None, ONE_FILE_SECONDS)
    yield Line("the same / importing pydantic", cold, models, None)
    timed(one, 1)
    yield Line("check of one record, remembered", timed(one, runs), None, ONE_FILE_SECONDS)
