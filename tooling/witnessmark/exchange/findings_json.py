"""What a check found, as JSON for other programs."""

from __future__ import annotations

from typing import Any

from witnessmark.model.diagnostics import Diagnostic
from witnessmark.rules.checked import Checked


def findings_as_json(checked: Checked) -> dict[str, Any]:
    """The count of records and every finding, in file order."""
    return {"records": checked.records, "diagnostics": [_row(d) for d in checked.diagnostics]}


def _row(diagnostic: Diagnostic) -> dict[str, Any]:
    return {
        "code": diagnostic.code,
        "level": diagnostic.level.value,
        "file": diagnostic.file,
        "line": diagnostic.line,
        "column": diagnostic.column,
        "record": diagnostic.record,
        "field": diagnostic.field,
        "message": diagnostic.message,
        "why": diagnostic.why,
        "fix": diagnostic.fix,
    }
