"""The budgets as ratios, measured in one run on one machine: `make bench`.

Museums of 1,000, 3,000 and 10,000 decisions are made from the demo. Absolute times only say how
large things are; the ratios are what is promised.
"""

from __future__ import annotations

import argparse
import os
import platform
import sys
import tempfile
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from bench.checks import check_lines, peer_line
from bench.git_use import git_line
from bench.guide import write_guide
from bench.lighthouse import lighthouse_lines
from bench.line import Line, with_cache
from bench.many import make_museum
from bench.preview import preview_times
from bench.sites import site_lines
from bench.starts import start_lines
from bench.weighings import review_line, weighing_lines

SIZES = (1000, 3000, 10_000)
SITE = 3000
"""The budgets of the site are stated for so many decisions."""


def main() -> None:
    """Print every line, and write them into the guide where that is asked for."""
    parser = argparse.ArgumentParser(prog="make bench")
    parser.add_argument("--size", type=int, default=SIZES[-1], help="the most decisions")
    parser.add_argument("--runs", type=int, default=3, help="runs of each; the middle counts")
    parser.add_argument("--write", action="store_true", help="write the guide `explain speed`")
    wanted = parser.parse_args()
    # Where Python is told to keep no compiled code, it would compile the program at each start.
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    place = f"{_processor()}, {os.cpu_count()} cores, Python {platform.python_version()}"
    print(f"{place}\n{'':<62} {'floor':>12} {'ours':>12} {'ratio':>7} {'want':>6}")
    lines = []
    for line in _lines(wanted.size, wanted.runs):
        print(line, flush=True)
        lines.append(line)
    if wanted.write:
        write_guide(lines, place=place, day=datetime.now(tz=UTC).date())


def _processor() -> str:
    return f"{platform.system()} on {platform.machine()}"


def _lines(most: int, runs: int) -> Iterator[Line]:
    yield from start_lines(max(runs, 3))
    yield from weighing_lines()
    yield from lighthouse_lines()
    sizes = [size for size in SIZES if size <= most] or [most]
    for size in sizes:
        with tempfile.TemporaryDirectory() as folder:
            with_cache(Path(folder) / "cache")
            museum = make_museum(Path(folder), decisions=size)
            yield from check_lines(museum, runs)
            if size == sizes[0]:
                yield peer_line(museum, runs)
            if size == min(SITE, sizes[-1]):
                (Path(folder) / "shown").mkdir()
                shown = make_museum(Path(folder) / "shown", decisions=size, published=True)
                yield from site_lines(shown)
            if size == sizes[-1]:
                yield git_line(museum)
            if size == sizes[0]:
                yield review_line(museum, runs)
                for what, seconds in preview_times(museum):
                    yield Line(what, seconds, None, None)


if __name__ == "__main__":
    main()
