"""Small cited calculations that a decision relies on."""

from __future__ import annotations

from witnessmark.worksheets.describe import describe_run, describe_sheet, explain_limit
from witnessmark.worksheets.faults import Fault, SheetRefuses, SheetUnknown
from witnessmark.worksheets.registry import NAMES, built_names, find_sheet
from witnessmark.worksheets.run import STANDING_CAUTION, Result, Run, run
from witnessmark.worksheets.verdict import LimitMet, Verdict

__all__ = [
    "NAMES",
    "STANDING_CAUTION",
    "Fault",
    "LimitMet",
    "Result",
    "Run",
    "SheetRefuses",
    "SheetUnknown",
    "Verdict",
    "built_names",
    "describe_run",
    "describe_sheet",
    "explain_limit",
    "find_sheet",
    "run",
]
