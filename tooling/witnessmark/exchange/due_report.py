"""What is due, for a terminal and for programs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

from witnessmark.exchange.escapes import one_line
from witnessmark.exchange.text_table import folded
from witnessmark.rules.due_kinds import Due

LONGEST_SAID = 160
"""A line in a list need not hold the whole finding; the log does."""


def render_due(found: Sequence[Due], *, on: date) -> str:
    """What is due, each with its day, how far off that is, the kind, the record, and why."""
    if not found:
        return f"Nothing is due by then, as read on {on}."
    lines: list[str] = []
    for one in found:
        lines.append(f"{one.day}  {_until(one.day, on)}  {one.kind.value}  {one.name}")
        lines += folded(_short(one.says), indent="    ")
    over = sum(one.day <= on for one in found)
    return "\n".join([*lines, "", f"{len(found)} in all, {over} due by {on}."])


def _until(day: date, on: date) -> str:
    """How far a day lies ahead or behind, in days."""
    far = (day - on).days
    if far == 0:
        return "today"
    days = f"{abs(far)} day{'' if abs(far) == 1 else 's'}"
    return f"{days} over" if far < 0 else f"in {days}"


def _short(text: str) -> str:
    flat = one_line(text)
    if len(flat) <= LONGEST_SAID:
        return flat
    return flat[:LONGEST_SAID].rsplit(" ", 1)[0] + " ..."


def due_as_json(found: Sequence[Due], *, on: date) -> dict[str, Any]:
    """What is due as plain data; `days` counts from the day it is read, below 0 when over."""
    return {"as_of": on.isoformat(), "due": list(_rows(found, on))}


def _rows(found: Sequence[Due], on: date) -> Iterator[dict[str, Any]]:
    for one in found:
        yield {
            "day": one.day.isoformat(),
            "days": (one.day - on).days,
            "kind": one.kind.value,
            "name": one.name,
            "machine": one.machine,
            "decision": one.decision,
            "says": one_line(one.says),
            "file": one.file,
        }
