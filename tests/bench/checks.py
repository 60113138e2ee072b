"""The budgets of `check`: cold and warm, one process and two, memory, and two peers.

The floor is bare `yaml.load` with the C loader over the same files, a process of its own.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

from bench.line import WITNESSMARK, Line, peak_megabytes, timed, waited

FLOOR = """
import sys, yaml
for name in sys.stdin.read().split("\\n"):
    if name:
        with open(name, "rb") as file:
            yaml.load(file, yaml.CSafeLoader)
"""
COLD, COLD_ON_TWO, WARM = 0.8, 0.5, 0.06
MEGABYTES = 90.0
TIMES_FASTER_THAN_PEER = 6
MOST_FOR_PEER = 1000


def check_lines(museum: Path, runs: int) -> Iterator[Line]:
    """Every line of one museum."""
    count = len(_records(museum))
    bare = [sys.executable, "-c", FLOOR]
    files = "\n".join(map(str, sorted(museum.rglob("*.yml"))))
    floor = timed(bare, runs, stdin=files)
    check = [*WITNESSMARK, "check", str(museum), "--format", "json"]
    alone, shared = [*check, "--no-cache", "--jobs", "1"], [*check, "--no-cache", "--jobs", "2"]
    yield Line(f"check of {count}, cold, one process", timed(alone, runs), floor, COLD)
    slow = waited(bare, runs, stdin=files)
    yield Line(f"check of {count}, cold, two processes", waited(shared, runs), slow, COLD_ON_TWO)
    timed(check, 1)
    yield Line(f"check of {count}, nothing changed", timed(check, runs), floor, WARM)
    one, margin = _after_an_edit(museum, check)
    yield Line(f"check of {count}, one record changed", one, floor, WARM + margin / floor)
    for name, command in (("one process", alone), ("two processes", shared), ("warm", check)):
        taken = peak_megabytes(command)
        yield Line(f"memory of the largest process, {count}, {name}", taken, None, MEGABYTES, "MB")


def peer_line(museum: Path, runs: int) -> Line:
    """A cold check with all rules and scores against check-jsonschema with our schema."""
    write = [*WITNESSMARK, "schema", "--museum", str(museum)]
    subprocess.run(write, check=True, capture_output=True)
    schema = museum / "schema" / "decision.schema.json"
    some = _records(museum)[:MOST_FOR_PEER]
    peer = [sys.executable, "-m", "check_jsonschema", "--schemafile", str(schema)]
    theirs = timed([*peer, *map(str, some)], 1)
    ours = timed([*WITNESSMARK, "check", str(museum), "--no-cache"], runs)
    ours *= len(some) / len(_records(museum))
    what = f"cold check / check-jsonschema with our schema, {len(some)} records"
    return Line(what, ours, theirs, 1 / TIMES_FASTER_THAN_PEER)


def _records(museum: Path) -> list[Path]:
    return sorted(museum.glob("*/[0-9][0-9][0-9][0-9]-[0-9][0-9][0-9]-*.yml"))


def _after_an_edit(museum: Path, check: list[str]) -> tuple[float, float]:
    """A check after one edit of a record's prose, and the cold check of that one machine."""
    record = _records(museum)[0]
    text = record.read_text(encoding="utf-8")
    record.write_text(f"{text}# touched\n", encoding="utf-8")
    took = timed(check, 1)
    record.write_text(text, encoding="utf-8")
    timed(check, 1)
    demo = Path(__file__).parents[2] / "decisions"
    one = [*WITNESSMARK, "check", str(demo / "fire-pump"), "--no-cache", "--format", "json"]
    return took, timed(one, 3) - timed([*WITNESSMARK, "check", "--help"], 3)
