"""The worksheets by name: which there are, which can be run today, and the sheet of a name."""

from __future__ import annotations

import difflib
import importlib
import importlib.util
from functools import cache

from witnessmark.worksheets.declare import Sheet
from witnessmark.worksheets.faults import SheetUnknown

# Every sheet a record may ever name. A sheet can be run once a module of its name stands here.
NAMES: tuple[str, ...] = (
    "bearing-clearance",
    "bolt-preload",
    "coil-spring",
    "fillet-weld-stress",
    "galvanic-pair",
    "gas-charge",
    "gas-compression",
    "ground-pressure",
    "hand-arm-vibration",
    "interference-fit",
    "limits-and-fits",
    "manual-lift",
    "noise-dose",
    "oil-viscosity",
    "old-viscosity",
    "oxygen-depletion",
    "plain-bearing-duty",
    "ride-lean",
    "rolling-bearing-life",
    "sling-legs",
    "stored-gas-energy",
    "tack-weld-break",
    "thread-engagement",
    "tow-pull",
    "track-sag",
    "wasted-fastener",
    "wear-life",
)


def built_names() -> tuple[str, ...]:
    """Give the names of the sheets that can be run, without importing any."""
    return tuple(name for name in NAMES if importlib.util.find_spec(_module(name)))


# Cached because every record asks for its sheets, and a sheet never changes while we run.
@cache
def find_sheet(name: str) -> Sheet:
    """Give the sheet of that name. Raises SheetUnknown with the nearest names."""
    if name not in NAMES:
        raise SheetUnknown(f"There is no worksheet called '{name}'.", fix=_nearest(name))
    if not importlib.util.find_spec(_module(name)):
        raise SheetUnknown(
            f"The worksheet '{name}' comes in a later version.",
            fix=f"These can be run: {', '.join(built_names())}.",
        )
    sheet = importlib.import_module(_module(name)).SHEET
    if isinstance(sheet, Sheet):
        return sheet
    raise TypeError(f"{_module(name)}.SHEET is not a Sheet")


def _module(name: str) -> str:
    return f"witnessmark.worksheets.{name.replace('-', '_')}"


def _nearest(name: str) -> str:
    near = difflib.get_close_matches(name.lower().replace("_", "-"), NAMES, n=3, cutoff=0.5)
    if near:
        return f"The nearest are: {', '.join(near)}."
    return f"The worksheets are: {', '.join(NAMES)}."
