"""What a check found, as SARIF 2.1.0 for editors and code scanning.

Source: OASIS, Static Analysis Results Interchange Format (SARIF) 2.1.0, Errata 01, 2023; clause
3.14.17 for `columnKind`, 3.27.17 for `partialFingerprints`, 3.27.24 for `baselineState`.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import Any
from urllib.parse import quote

from witnessmark import __version__
from witnessmark.exchange.escapes import one_line
from witnessmark.exchange.findings_hosts import fingerprints, worst_first
from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.rules.checked import Checked

SCHEMA = (
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
)
FINGERPRINT = "wmRuleRecordField/v1"
_LEVELS = {Level.ERROR: "error", Level.WARNING: "warning", Level.NOTE: "note"}
_BEYOND_ONE_UNIT = 0xFFFF


def findings_as_sarif(
    checked: Checked, *, texts: Mapping[str, str], known: Collection[str] | None = None
) -> dict[str, Any]:
    """One run with one result a finding, worst first.

    `texts` are the files by name, for columns; `known` the fingerprints of the base, where there
    is one to compare with.
    """
    found = worst_first(checked.diagnostics)
    rules = list(dict.fromkeys(d.code for d in found))
    first = {d.code: d for d in reversed(found)}
    marks = fingerprints(found)
    lines = {file: texts.get(file, "").splitlines() for file in {d.file for d in found}}
    results = [
        _result(d, mark, rules.index(d.code), lines[d.file], known)
        for d, mark in zip(found, marks, strict=True)
    ]
    driver = {
        "name": "witnessmark",
        "semanticVersion": __version__,
        "rules": [_rule(first[code]) for code in rules],
    }
    run = {"tool": {"driver": driver}, "columnKind": "utf16CodeUnits", "results": results}
    return {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}


def _rule(diagnostic: Diagnostic) -> dict[str, Any]:
    return {
        "id": diagnostic.code,
        "shortDescription": {"text": one_line(diagnostic.why) or diagnostic.code},
        "help": {"text": f"witnessmark explain {diagnostic.code}"},
        "defaultConfiguration": {"level": _LEVELS[diagnostic.level]},
    }


def _result(
    diagnostic: Diagnostic,
    mark: str,
    rule: int,
    lines: Sequence[str],
    known: Collection[str] | None,
) -> dict[str, Any]:
    text = " ".join(filter(None, [diagnostic.message, diagnostic.fix]))
    region = {"startLine": diagnostic.line, "startColumn": utf16_column(lines, diagnostic)}
    location = {
        "physicalLocation": {
            "artifactLocation": {"uri": quote(diagnostic.file)},
            "region": region,
        }
    }
    result = {
        "ruleId": diagnostic.code,
        "ruleIndex": rule,
        "level": _LEVELS[diagnostic.level],
        "message": {"text": one_line(text)},
        "locations": [location],
        "partialFingerprints": {FINGERPRINT: mark},
    }
    if known is not None:
        result["baselineState"] = "unchanged" if mark in known else "new"
    return result


def utf16_column(lines: Sequence[str], diagnostic: Diagnostic) -> int:
    """A finding's column counted in UTF-16 units, from 1: some characters take two."""
    if not 0 < diagnostic.line <= len(lines):
        return diagnostic.column
    before = lines[diagnostic.line - 1][: diagnostic.column - 1]
    return diagnostic.column + sum(ord(character) > _BEYOND_ONE_UNIT for character in before)
