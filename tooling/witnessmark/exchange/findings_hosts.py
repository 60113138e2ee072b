"""What a check found, in the formats that hosts of git repositories read.

Worst first everywhere. A fingerprint is SHA-256 over code, record and field, so that it stays when
lines move.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from typing import Any

from witnessmark.exchange.escapes import github_data, github_property, markdown, one_line
from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.rules.checked import Checked

GITHUB_MOST = 10
"""Annotations of one level a step shows (observed limit of GitHub; ten a level, fifty a job)."""

MOST_IN_TABLE = 200
_GITHUB = {Level.ERROR: "error", Level.WARNING: "warning", Level.NOTE: "notice"}
_GITLAB = {Level.ERROR: "critical", Level.WARNING: "minor", Level.NOTE: "info"}


def worst_first(diagnostics: Sequence[Diagnostic]) -> list[Diagnostic]:
    """Errors, then warnings, then notes; within a level in file order."""
    order = list(Level)
    return sorted(diagnostics, key=lambda d: order.index(d.level))


def fingerprint(diagnostic: Diagnostic) -> str:
    """What stays of a finding when lines move: its code, record and field, hashed."""
    named = (diagnostic.code, diagnostic.record or diagnostic.file, diagnostic.field)
    return hashlib.sha256("\0".join(named).encode("utf-8", "replace")).hexdigest()


def fingerprints(diagnostics: Sequence[Diagnostic]) -> list[str]:
    """One fingerprint a finding, like ones told apart by their order, since hosts drop equals."""
    seen: dict[str, int] = {}
    found = []
    for diagnostic in diagnostics:
        first = fingerprint(diagnostic)
        seen[first] = seen.get(first, 0) + 1
        again = f"{first} {seen[first]}"
        found.append(first if seen[first] == 1 else hashlib.sha256(again.encode()).hexdigest())
    return found


def findings_for_github(checked: Checked) -> str:
    """GitHub workflow commands: at most ten a level, the last of which counts the rest.

    Source: GitHub Docs, "Workflow commands for GitHub Actions"; escapes as in actions/toolkit.
    """
    lines: list[str] = []
    for level in Level:
        found = [d for d in checked.diagnostics if d.level is level]
        shown = found if len(found) <= GITHUB_MOST else found[: GITHUB_MOST - 1]
        lines += [_command(d) for d in shown]
        if len(shown) < len(found):
            more = f"+{len(found) - len(shown)} more; the whole list is in the step summary."
            lines.append(f"::{_GITHUB[level]} title=Witnessmark::{github_data(more)}")
    return "".join(f"{line}\n" for line in lines)


def _command(diagnostic: Diagnostic) -> str:
    place = ",".join(
        f"{name}={github_property(str(value))}"
        for name, value in {
            "file": diagnostic.file,
            "line": diagnostic.line,
            "col": diagnostic.column,
            "title": diagnostic.code,
        }.items()
    )
    return f"::{_GITHUB[diagnostic.level]} {place}::{github_data(_sentence(diagnostic))}"


def _sentence(diagnostic: Diagnostic) -> str:
    return " ".join(filter(None, [diagnostic.message, diagnostic.why, diagnostic.fix]))


def findings_for_gitlab(checked: Checked) -> list[dict[str, Any]]:
    """GitLab Code Quality: description, check_name, fingerprint, severity and location.

    Source: GitLab Docs, "Code Quality", implement a custom tool: the fields of the report.
    """
    found = worst_first(checked.diagnostics)
    return [
        {
            "description": one_line(f"{d.code}: {_sentence(d)}"),
            "check_name": d.code,
            "fingerprint": mark,
            "severity": _GITLAB[d.level],
            "location": {"path": d.file, "lines": {"begin": d.line}},
        }
        for d, mark in zip(found, fingerprints(found), strict=True)
    ]


def findings_as_markdown(checked: Checked) -> str:
    """A table for a step summary or a comment; what does not fit is counted."""
    return "\n".join(_markdown(checked)) + "\n"


def _markdown(checked: Checked) -> Iterator[str]:
    found = worst_first(checked.diagnostics)
    counts = ", ".join(
        f"{number} {level.value}{'' if number == 1 else 's'}"
        for level in Level
        if (number := sum(d.level is level for d in found))
    )
    yield "## Check of the museum's records"
    yield ""
    yield f"{checked.records} records read: {counts or 'nothing found'}."
    if not found:
        return
    yield ""
    yield "| level | code | where | what | to mend it |"
    yield "| --- | --- | --- | --- | --- |"
    for d in found[:MOST_IN_TABLE]:
        cells = (d.level.value, d.code, f"{d.file}:{d.line}", d.message, d.fix)
        yield "| " + " | ".join(markdown(cell) for cell in cells) + " |"
    if len(found) > MOST_IN_TABLE:
        yield ""
        yield f"+{len(found) - MOST_IN_TABLE} more."
