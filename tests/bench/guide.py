"""The guide `witnessmark explain speed`, written from one run of the bench."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path

import witnessmark
from bench.line import Line

FORM = Path(__file__).parent / "speed.md"
GUIDE = Path(witnessmark.__file__).parent / "guides" / "speed.md"
_HEAD = ("what", "floor", "ours", "ratio", "want", "verdict")


def write_guide(lines: Sequence[Line], *, place: str, day: date) -> None:
    """Write the measured lines, with the machine and the day, between what stays the same."""
    rows = [_HEAD, ("---",) * len(_HEAD), *(line.cells for line in lines)]
    table = "\n".join(f"| {' | '.join(row)} |" for row in rows)
    text = FORM.read_text(encoding="utf-8")
    for name, value in {"place": place, "day": day.isoformat(), "table": table}.items():
        text = text.replace(f"{{{name}}}", value)
    GUIDE.write_text(text, encoding="utf-8")
