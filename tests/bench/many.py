"""A museum of many decisions, made from the demo: copies of its machines under other names."""

from __future__ import annotations

import re
from pathlib import Path

DEMO = Path(__file__).parents[2] / "decisions"
ID = re.compile(r"\b20[0-9]{2}-[0-9]{3}\b")
LABEL = re.compile(r"\bMQ-0[0-9]{3}\b")
SIGNED = re.compile(r"^(agreed|reckoned|work):\n(?:[ #-].*\n)+", re.MULTILINE)
FIRST_YEAR = 2000


def make_museum(folder: Path, *, decisions: int) -> Path:
    """A museum of about that many decisions; unsigned, since a seal is of one place."""
    machines = sorted(path.parent for path in DEMO.glob("*/machine.yml"))
    records = sorted(DEMO.glob("*/20[0-9][0-9]-[0-9][0-9][0-9]-*.yml"))
    museum = folder / "decisions"
    copies = -(-decisions // len(records))
    for name in ("museum.yml", "people.yml", "policy/2022-01.yml", "policy/2025-01.yml"):
        _write(museum / name, (DEMO / name).read_text(encoding="utf-8"))
    number = 0
    lots = []
    for copy in range(copies):
        ids = {}
        for record in records:
            ids[record.name[:8]] = f"{FIRST_YEAR + number // 1000}-{number % 1000:03d}"
            number += 1
        for machine in machines:
            _copy_machine(machine, museum, copy, ids)
        lots.append(_lots(copy))
    _write(museum / "stores.yml", _stores(lots))
    return museum


def _copy_machine(machine: Path, museum: Path, copy: int, ids: dict[str, str]) -> None:
    target = museum / f"{machine.name}-{copy:04d}"
    for file in sorted(machine.glob("*.yml")):
        text = file.read_text(encoding="utf-8")
        name = file.name
        if ID.match(name):
            text = _as_copy(text, copy, ids)
            name = ID.sub(lambda found: ids[found.group()], name)
        _write(target / name, text)
    for photo in sorted(machine.glob("photos/*")):
        (target / "photos").mkdir(parents=True, exist_ok=True)
        (target / "photos" / photo.name).write_bytes(photo.read_bytes())


def _as_copy(text: str, copy: int, ids: dict[str, str]) -> str:
    text = SIGNED.sub("", text)
    text = re.sub(
        r"^state: (agreed|done|under-way|replaced)", "state: for-review", text, flags=re.MULTILINE
    )
    text = re.sub(r"^replaced_by: .*\n", "", text, flags=re.MULTILINE)
    text = ID.sub(lambda found: ids.get(found.group(), found.group()), text)
    text = LABEL.sub(lambda found: f"{found.group()}-{copy:04d}", text)
    text = text.replace("sister-dragline/", f"sister-dragline-{copy:04d}/")
    return re.sub(
        r"(fit-old-stock.*?from: )([a-z-]+)", rf"\g<1>\g<2>-{copy:04d}", text, flags=re.DOTALL
    )


def _lots(copy: int) -> str:
    text = (DEMO / "stores.yml").read_text(encoding="utf-8")
    lots = text.split("lots:\n", 1)[1]
    return re.sub(r"^(  - id: )([a-z-]+)", rf"\g<1>\g<2>-{copy:04d}", lots, flags=re.MULTILINE)


def _stores(lots: list[str]) -> str:
    head = (DEMO / "stores.yml").read_text(encoding="utf-8").split("lots:\n", 1)[0]
    return f"{head}lots:\n{''.join(lots)}"


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
