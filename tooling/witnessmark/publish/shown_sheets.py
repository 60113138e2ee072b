"""Worksheets as the public sees them: what went in, what came out, the limit and the cautions."""

from __future__ import annotations

import math
from collections.abc import Iterator

from witnessmark.publish.public_decision import PublicSheet
from witnessmark.publish.shown_names import Names
from witnessmark.scoring.sheets import Reckoned
from witnessmark.worksheets.declare import Sheet
from witnessmark.worksheets.faults import SheetUnknown
from witnessmark.worksheets.registry import find_sheet
from witnessmark.worksheets.run import Result, Run
from witnessmark.worksheets.signature import inputs_of, results_of
from witnessmark.worksheets.verdict import LimitMet

NO_UNIT = "1"  # how a worksheet writes a bare number


def public_sheet(
    reckoned: Reckoned, *, machine: str, names: Names, relied_on_by: tuple[str, ...] = ()
) -> PublicSheet:
    """One used worksheet."""
    used, run = reckoned.used, reckoned.run
    sheet = _known(used.sheet)
    means = {t.name: t.kind.meaning for t in inputs_of(sheet.equation)} if sheet else {}
    return PublicSheet(
        id=used.id,
        sheet=used.sheet,
        title=sheet.title if sheet else used.sheet,
        tells=sheet.tells if sheet else "This worksheet is not known to this program.",
        formula=sheet.formula if sheet else (),
        is_known=sheet is not None,
        given=tuple((_plain(n), _text(v), means.get(n, "")) for n, v in used.given.items()),
        results=tuple(_results(run, sheet)) if run and sheet else (),
        limits=tuple(_limit(met, alone=len(run.limits) == 1) for met in run.limits) if run else (),
        verdict=run.verdict.word if run and run.verdict else None,
        verdict_means=run.verdict.value if run and run.verdict else None,
        cautions=run.cautions if run else ("It gives no result for what it was given.",),
        source=run.source if run else "",
        bears_on=names.parts(machine, used.bears_on),
        relied_on_by=relied_on_by,
    )


def _known(name: str) -> Sheet | None:
    try:
        return find_sheet(name)
    except SheetUnknown:
        return None


def _results(run: Run, sheet: Sheet) -> Iterator[tuple[str, str, str]]:
    means = {name: gives.meaning for name, gives in results_of(sheet.equation).items()}
    for name, result in run.results.items():
        yield _plain(name), _shown(result), means.get(name, "")


def _limit(met: LimitMet, *, alone: bool) -> str:
    """How a result stands to its limit; the verdict too where it is not the sheet's only one."""
    unit = "" if met.unit == NO_UNIT else f" {met.unit}"
    found = f"{_plain(met.result)} is {with_band(met.value, met.plus_minus)}{unit}"
    verdict = "" if alone else f": {met.verdict.word.replace('-', ' ')}"
    because = f" ({met.because})" if met.because != met.verdict.value else ""
    return f"{found} and must be {met.side.value} {met.limit:.6g}{unit}{verdict}{because}."


def _shown(result: Result) -> str:
    if isinstance(result.value, str):
        return result.value
    unit = "" if result.unit == NO_UNIT else f" {result.unit}"
    return f"{with_band(result.value, result.plus_minus)}{unit}"


def with_band(value: float, band: float | None) -> str:
    """A number with four digits, or with as many places as the two digits of its band have.

    >>> with_band(0.0050008, 0.000143), with_band(2147.3, None), with_band(0.9, 0.026)
    ('0.00500 ± 0.00014', '2147', '0.900 ± 0.026')
    """
    if not band:
        return _fixed(value, 4 - _size(value))
    places = 2 - _size(band)
    return f"{_fixed(value, places)} ± {_fixed(band, places)}"


def _size(value: float) -> int:
    """How many digits stand before the point; under nought the noughts behind it.

    >>> _size(123.4), _size(0.00014)
    (3, -3)
    """
    return math.floor(math.log10(abs(value))) + 1 if value else 1


def _fixed(value: float, places: int) -> str:
    return f"{value:.{max(places, 0)}f}"


def _plain(name: str) -> str:
    return name.replace("_", " ").capitalize()


def _text(value: str | tuple[str, ...]) -> str:
    return value if isinstance(value, str) else "; ".join(value)
