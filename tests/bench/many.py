"""A museum of many decisions, made from the demo: copies of its machines under other names.

Each copy of a machine has several rounds of the demo's shorter records, so that records are about
7 KB and a machine has as many as one gets in a working life. Numbers in what worksheets are given
are moved by dice that fall the same in every run, so that no two rounds ask quite the same.
Records that replace one another are left out, and each names the earlier ones about its parts, so
that the museum is in order, as one that is checked in every change is.
"""

from __future__ import annotations

import random
import re
from dataclasses import dataclass
from pathlib import Path

import yaml

from witnessmark.model.library import Folder, assemble
from witnessmark.weighing.case import work_out
from witnessmark.weighing.seals import seals_of

DEMO = Path(__file__).parents[2] / "decisions"
LABEL = re.compile(r"\bMQ-0[0-9]{3}\b")
SEAL = re.compile(r"\bwm1:[0-9a-f]{64}")
WORDS_SEAL = re.compile(r"\bwm1w:[0-9a-f]{64}")
POINTS_TO = re.compile(
    r"^(replaced_by|replaces|replaces_because|follows|departs_from):.*\n(?:[ #-].*\n)*",
    re.MULTILINE,
)
DECIMAL = re.compile(r"(?<=: )([0-9]+\.[0-9]*)([0-9])(?= [a-zA-Z])")
SHOWN = ("agreed", "under-way", "done", "replaced")
FIRST_YEAR = 2000
ADDS_UP = "Every round so far left the parts as the one before had them."
ROUNDS = 5
MOST_BYTES = 9_800
SEED = 1931


@dataclass(frozen=True)
class _Model:
    """A record of the demo that others are copied from, and the parts it is about."""

    path: Path
    about: frozenset[str]
    is_shown: bool

    @classmethod
    def of(cls, path: Path) -> _Model:
        """The model in a file."""
        record = yaml.load(path.read_bytes(), yaml.CSafeLoader)
        is_shown = record["state"] in SHOWN and record.get("publish") is True
        return cls(path, frozenset(record["about"]), is_shown)

    def meets(self, other: _Model) -> bool:
        """True where both are about some part of one machine."""
        return self.path.parent == other.path.parent and bool(self.about & other.about)


@dataclass(frozen=True)
class Numbered:
    """What a copy is called, and the earlier decisions about its parts, which it names."""

    number: int
    name: str
    earlier: list[str]


def make_museum(folder: Path, *, decisions: int, published: bool = False) -> Path:
    """A museum of that many decisions in the states they have in the demo, sealed anew.

    With `published`, of those only that the public may read, so that as many have a page.
    """
    museum = folder / "decisions"
    for name in ("museum.yml", "people.yml", "stores.yml", *_policies()):
        _write(museum / name, (DEMO / name).read_text(encoding="utf-8"))
    records = [_Model.of(path) for path in _records() if path.stat().st_size <= MOST_BYTES]
    records = [record for record in records if record.is_shown or not published]
    dice = random.Random(SEED)  # noqa: S311  variety, not secrets
    number = copy = 0
    while number < decisions:
        for machine in sorted(path.parent for path in DEMO.glob("*/machine.yml")):
            _copy_machine(machine, museum, copy)
        earlier: list[tuple[_Model, str]] = []
        for _ in range(ROUNDS):
            for record in records[: decisions - number]:
                name = f"{FIRST_YEAR + number // 1000}-{number % 1000:03d}"
                named = [other for model, other in earlier if model.meets(record)]
                _copy_record(record, museum, copy, dice, Numbered(number, name, named))
                earlier.append((record, name))
                number += 1
        _seal(museum, copy)
        copy += 1
    return museum


def _seal(museum: Path, copy: int) -> None:
    """Put the right seals under the agreements of one copy, since each copy is another place."""
    paths = [*museum.glob("*.yml"), *museum.glob("policy/*"), *museum.glob(f"*-{copy:04d}/*.yml")]
    files = {path.relative_to(museum).as_posix(): path.read_bytes() for path in paths}
    library = assemble(Folder(museum.name, files))
    for entry in library.decisions:
        record = entry.shaped.document.data
        if entry.value is None or not entry.value.agreed or not isinstance(record, dict):
            continue
        seals = seals_of(work_out(entry.value, entry.machine, library), library, record)
        if seals is not None:
            text = WORDS_SEAL.sub(seals[1], SEAL.sub(seals[0], entry.shaped.document.text))
            _write(museum.parent / entry.file, text)


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


def _copy_record(
    record: _Model, museum: Path, copy: int, dice: random.Random, numbered: Numbered
) -> None:
    text = POINTS_TO.sub("", record.path.read_text(encoding="utf-8"))
    text = re.sub(r"^id: .*$", f"id: {numbered.name}", text, flags=re.MULTILINE)
    text = LABEL.sub(lambda found: f"{found.group()}-{numbered.number:05d}", text)
    text = text.replace("sister-dragline/", f"sister-dragline-{copy:04d}/")
    text = DECIMAL.sub(lambda found: f"{found[1]}{dice.randrange(10)}", text)
    if numbered.earlier:
        text += f"follows: [{', '.join(numbered.earlier)}]\n"
        text += "" if "\nadds_up_to:" in text else f"adds_up_to: {ADDS_UP}\n"
    target = museum / f"{record.path.parent.name}-{copy:04d}"
    _write(target / f"{numbered.name}{record.path.name[8:]}", text)


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
