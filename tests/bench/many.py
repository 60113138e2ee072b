"""A museum of many decisions, made from the demo: copies of its machines under other names.

Each copy of a machine has several rounds of the demo's shorter records, so that records are about
7 KB and a machine has as many as one gets in a working life. Numbers in what worksheets are given
are moved by dice that fall the same in every run, so that no two rounds ask quite the same.
"""

from __future__ import annotations

import random
import re
from pathlib import Path

DEMO = Path(__file__).parents[2] / "decisions"
LABEL = re.compile(r"\bMQ-0[0-9]{3}\b")
SIGNED = re.compile(r"^(agreed|reckoned|work):\n(?:[ #-].*\n)+", re.MULTILINE)
POINTS_TO = re.compile(
    r"^(replaced_by|replaces|replaces_because|follows|departs_from):.*\n(?:[ #-].*\n)*",
    re.MULTILINE,
)
DECIMAL = re.compile(r"(?<=: )([0-9]+\.[0-9]*)([0-9])(?= [a-zA-Z])")
FIRST_YEAR = 1900
ROUNDS = 10
MOST_BYTES = 9_800
SEED = 1931


def make_museum(folder: Path, *, decisions: int) -> Path:
    """A museum of that many decisions; unsigned, since a seal is of one place."""
    museum = folder / "decisions"
    for name in ("museum.yml", "people.yml", "stores.yml", *_policies()):
        _write(museum / name, (DEMO / name).read_text(encoding="utf-8"))
    records = [path for path in _records() if path.stat().st_size <= MOST_BYTES]
    dice = random.Random(SEED)  # noqa: S311  variety, not secrets
    number = copy = 0
    while number < decisions:
        for machine in sorted(path.parent for path in DEMO.glob("*/machine.yml")):
            _copy_machine(machine, museum, copy)
        for _ in range(ROUNDS):
            for record in records[: decisions - number]:
                _copy_record(record, museum, copy, number, dice)
                number += 1
        copy += 1
    return museum


def _policies() -> list[str]:
    return [f"policy/{path.name}" for path in sorted(DEMO.glob("policy/*.yml"))]


def _records() -> list[Path]:
    return sorted(DEMO.glob("*/20[0-9][0-9]-[0-9][0-9][0-9]-*.yml"))


def _copy_machine(machine: Path, museum: Path, copy: int) -> None:
    target = museum / f"{machine.name}-{copy:04d}"
    for name in ("machine.yml", "findings.yml"):
        if (machine / name).exists():
            text = (machine / name).read_text(encoding="utf-8")
            _write(target / name, text)
    for photo in sorted(machine.glob("photos/*")):
        (target / "photos").mkdir(parents=True, exist_ok=True)
        (target / "photos" / photo.name).write_bytes(photo.read_bytes())


def _copy_record(record: Path, museum: Path, copy: int, number: int, dice: random.Random) -> None:
    name = f"{FIRST_YEAR + number // 1000}-{number % 1000:03d}"
    text = POINTS_TO.sub("", SIGNED.sub("", record.read_text(encoding="utf-8")))
    text = re.sub(
        r"^state: (agreed|done|under-way|replaced)", "state: for-review", text, flags=re.MULTILINE
    )
    text = re.sub(r"^id: .*$", f"id: {name}", text, flags=re.MULTILINE)
    text = LABEL.sub(lambda found: f"{found.group()}-{number:05d}", text)
    text = text.replace("sister-dragline/", f"sister-dragline-{copy:04d}/")
    text = DECIMAL.sub(lambda found: f"{found[1]}{dice.randrange(10)}", text)
    target = museum / f"{record.parent.name}-{copy:04d}"
    _write(target / f"{name}{record.name[8:]}", text)


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
