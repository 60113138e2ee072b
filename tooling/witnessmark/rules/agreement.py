"""Record checks: seals still fit, worksheets still reckon."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from witnessmark.model.decision import UsedSheet
from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.model.library import Library
from witnessmark.model.remains import Path
from witnessmark.rules.report import Report
from witnessmark.weighing.case import Case
from witnessmark.weighing.seals import reckoned_of, seals_of
from witnessmark.worksheets.faults import Fault
from witnessmark.worksheets.registry import NAMES

SEAL = re.compile(r"wm1:[0-9a-f]{64}")
WORDS_SEAL = re.compile(r"wm1w:[0-9a-f]{64}")


def check_seals(case: Case, library: Library, report: Report) -> Iterator[Diagnostic]:
    """Every signature stands under this judgement and, by warning, under these words."""
    if not case.decision.agreed or not report.shaped.whole:
        return
    record = report.shaped.document.data
    seals = seals_of(case, library, record) if isinstance(record, dict) else None
    if seals is None:
        return
    judgement, words = seals
    for index, signature in enumerate(case.decision.agreed):
        path: Path = ("agreed", index)
        who = f"{signature.by} on {signature.date}"
        if not SEAL.fullmatch(signature.seal):
            yield report.at((*path, "seal"), "WM083", "The seal is not 64 digits after wm1:.")
        elif signature.seal != judgement:
            message = f"The judgement is no longer the one that {who} agreed to."
            yield report.at((*path, "seal"), "WM080", message)
        if not WORDS_SEAL.fullmatch(signature.words):
            yield report.at((*path, "words"), "WM083", "The seal is not 64 digits after wm1w:.")
        elif signature.words != words and signature.seal == judgement:
            message = f"Sentences were changed after {who} agreed to them."
            yield report.at((*path, "words"), "WM081", message, level=Level.WARNING)
    yield from _reckoned(case, report)


def _reckoned(case: Case, report: Report) -> Iterator[Diagnostic]:
    written: dict[str, Any] | None = case.decision.reckoned
    if written is None:
        return
    now = reckoned_of(case, program="")
    differing = [
        name for name in ("options", "winner", "verdict") if now[name] != _plain(written.get(name))
    ]
    if differing:
        message = f"Reckoned anew, these differ: {', '.join(differing)}."
        yield report.at(("reckoned",), "WM082", message, level=Level.WARNING, key=True)
    pinned = _plain(written.get("worksheets"))
    if isinstance(pinned, dict):
        yield from _pinned(pinned, now=now["worksheets"], report=report)


def _pinned(
    pinned: dict[str, object], *, now: dict[str, str], report: Report
) -> Iterator[Diagnostic]:
    """Every worksheet has the verdict it had at agreement."""
    for name, verdict in pinned.items():
        if (today := now.get(name, "not in this record")) != verdict:
            message = f'Worksheet "{name}" was {verdict} when it was agreed and is {today} now.'
            path: Path = ("reckoned", "worksheets", name)
            yield report.at(path, "WM082", message, level=Level.WARNING)


def _plain(value: object) -> object:
    """What was written, numbers as text again."""
    if isinstance(value, dict):
        return {name: _plain(member) for name, member in value.items()}
    if isinstance(value, list):
        return [_plain(member) for member in value]
    return str(value)


def check_sheets(case: Case, report: Report) -> Iterator[Diagnostic]:
    """Every worksheet the record uses can be reckoned from what it is given."""
    for index, sheet in enumerate(case.sheets):
        for fault in sheet.faults:
            path = _place_of(fault, index=index, used=sheet.used)
            yield report.at(path, "WM070", fault.message, fix=fault.fix)


def _place_of(fault: Fault, *, index: int, used: UsedSheet) -> Path:
    """The input at fault; what is missing, and what no one input is to blame for, at `given`."""
    if used.sheet not in NAMES:
        return ("worksheets", index, "sheet")
    if fault.name in used.given:
        return ("worksheets", index, "given", fault.name)
    return ("worksheets", index, "given")
