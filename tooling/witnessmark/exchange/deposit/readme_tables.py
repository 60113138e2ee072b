"""The tables that the formulas rest on, as lines of text, from the code that reckons by them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from itertools import groupby
from types import MappingProxyType

from witnessmark.model.policy import FabricTable
from witnessmark.scoring.matrix882 import PROBABILITY, SEVERITY, risk_level
from witnessmark.scoring.undo import DEFAULT_UNDO

_ROWS: tuple[tuple[str, str], ...] = (
    ("untouched", "untouched, or taken out and put back"),
    ("altered_restorable", "altered, can be restored"),
    ("altered_for_good", "altered for good"),
    ("kept_successor_alike", "taken out and kept, replaced alike"),
    ("kept_otherwise", "taken out and kept, replaced by another kind or not at all"),
    ("lost_can_be_made", "taken out, not kept, the type can still be made"),
    ("lost_for_good", "taken out, not kept, cannot be made again"),
)


def _fabric() -> Iterator[str]:
    table = FabricTable()
    for name, words in _ROWS:
        row = getattr(table, name)
        yield f"{words:<56} {row.last!s:>4} {row.wear!s:>4}"


def _risk() -> Iterator[str]:
    heads = [f"{n} {words[0]}" for n, words in SEVERITY.items()]
    yield " " * 14 + "".join(f"{head:<15}" for head in heads).rstrip()
    for letter, words in PROBABILITY.items():
        cells = "".join(f"{risk_level(f'{n}{letter}').value:<15}" for n in SEVERITY)
        yield f"{letter} {words[0]:<12}{cells}".rstrip()
    for mark, words in (*SEVERITY.items(), *PROBABILITY.items()):
        yield f"{mark}: {words[1]}"


def _undo() -> Iterator[str]:
    ranked = sorted(DEFAULT_UNDO.items(), key=lambda row: -row[1])
    for level, rows in groupby(ranked, key=lambda row: row[1]):
        yield f"{level}  {', '.join(do.value for do, _ in rows)}"


TABLES: Mapping[str, Callable[[], Iterator[str]]] = MappingProxyType(
    {"fabric": _fabric, "risk": _risk, "undo": _undo}
)
"""Each table by the name that a text calls it by."""
