"""Every table of an export, those that others name first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from witnessmark.exchange.export.columns import Row, Table
from witnessmark.exchange.export.published import Published
from witnessmark.exchange.export.tables_around import (
    AGREEMENTS,
    EXCEPTIONS,
    OLD_PARTS,
    PRECEDENTS,
    RULES,
)
from witnessmark.exchange.export.tables_decisions import DECISIONS, OPTIONS, SCORES, STEPS
from witnessmark.exchange.export.tables_machines import FINDINGS, MACHINES, MUSEUMS, PARTS

TABLES: tuple[Table, ...] = (
    MUSEUMS,
    MACHINES,
    PARTS,
    FINDINGS,
    RULES,
    DECISIONS,
    OPTIONS,
    SCORES,
    STEPS,
    OLD_PARTS,
    AGREEMENTS,
    EXCEPTIONS,
    PRECEDENTS,
)


def rows_of(table: Table, museums: Sequence[Published]) -> Iterator[Row]:
    """The rows of a table for several museums, in the order of the museums' names."""
    for museum in sorted(museums, key=lambda each: each.name):
        yield from table.rows(museum)
