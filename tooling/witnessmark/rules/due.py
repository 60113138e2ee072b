"""What is due by a day: everything in a museum's records that somebody promised to come back to."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.model.library import Library
from witnessmark.model.shape import Shaped
from witnessmark.rules.due_decisions import due_of_decisions
from witnessmark.rules.due_kinds import Due, DueKind
from witnessmark.rules.due_machines import due_of_machines
from witnessmark.rules.due_museum import due_of_policies, due_of_stock
from witnessmark.rules.due_people import due_of_people
from witnessmark.rules.report import Report

OVERDUE = "WM098"


def due(library: Library, *, on: date, days: int = 0) -> tuple[Due, ...]:
    """What is due on a day or overdue, or will be within some days, the oldest first."""
    last = on + timedelta(days=days)
    found = (
        *due_of_machines(library, on=on),
        *due_of_decisions(library),
        *due_of_policies(library, on=on),
        *due_of_stock(library),
        *due_of_people(library, on=on),
    )
    kinds = list(DueKind)
    soon = (one for one in found if one.day <= last)
    return tuple(sorted(soon, key=lambda one: (one.day, kinds.index(one.kind), one.name)))


def overdue(library: Library, *, on: date) -> Iterator[Diagnostic]:
    """A warning for each thing that is due on a day or was before, at its place in its file."""
    files = _by_file(library)
    for one in due(library, on=on):
        report = Report(files[one.file], one.decision)
        message = f"Due on {one.day} ({one.kind.value}). {one.says}"
        yield report.at(one.path, OVERDUE, message, level=Level.WARNING)


def _by_file(library: Library) -> dict[str, Shaped[Any]]:
    groups: tuple[Shaped[Any] | None, ...] = (
        library.people_file,
        library.stores_file,
        *library.policy_files.values(),
        *library.machine_files.values(),
        *library.finding_files.values(),
        *(entry.shaped for entry in library.decisions),
    )
    return {shaped.document.file: shaped for shaped in groups if shaped}
