"""One run of a sheet: text in; results, verdict and cautions out, or every reason for refusing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from witnessmark.model.units import UNITS, Unit
from witnessmark.worksheets.declare import (
    Figures,
    Gives,
    Limit,
    Number,
    Sheet,
)
from witnessmark.worksheets.propagation import ASSUMPTIONS, expanded, has_bands, plain_values
from witnessmark.worksheets.reading import Given, Measured, Repeated, read_given
from witnessmark.worksheets.reckoning import at_band_end, evaluate, margin_name, margin_of
from witnessmark.worksheets.signature import results_of
from witnessmark.worksheets.verdict import LimitMet, Verdict, governing, judge

STANDING_CAUTION = (
    "Decision support for a competent person: not a design approval, not a permit to work. "
    "Local codes and licensed practice govern."
)
_NO_BANDS = (
    "No ± was given, so the verdict takes every input as exact. Give the measuring uncertainty."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """A number in `unit` with its k = 2 band, or a word with an empty unit and no band."""

    value: float | str
    unit: str
    plus_minus: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """All that one run gives. `verdict` is None where the sheet met no limit."""

    sheet: str
    results: Mapping[str, Result]
    verdict: Verdict | None
    limits: tuple[LimitMet, ...]
    cautions: tuple[str, ...]
    assumptions: tuple[str, ...]
    source: str


def run(sheet: Sheet, given: Given) -> Run:
    """Give the results, verdict and cautions of a sheet for the inputs given as text.

    Raises SheetRefuses, with every fault found, where no result may be given.
    """
    read = read_given(sheet, given=given)
    reached = _Reached(sheet, read=read)
    limits = tuple(reached.limits_met())
    return Run(
        sheet=sheet.id,
        results=reached.results(),
        verdict=governing(limit.verdict for limit in limits),
        limits=limits,
        cautions=(*reached.cautions(limits), STANDING_CAUTION),
        assumptions=ASSUMPTIONS if has_bands(read) else (),
        source="; ".join(str(source) for source in sheet.sources),
    )


class _Reached:
    """The figures of one run: inputs, results and, by the same moves, their bands."""

    def __init__(self, sheet: Sheet, *, read: dict[str, object]) -> None:
        self._sheet, self._read = sheet, read
        plain = plain_values(read)
        self._outcome = evaluate(sheet, plain=plain)
        self._figures = Figures(plain | self._outcome)
        self._bands = (
            expanded(read, evaluate=lambda moved: at_band_end(sheet, plain=moved))
            if has_bands(read)
            else None
        )

    def results(self) -> dict[str, Result]:
        gives = results_of(self._sheet.equation)
        return {
            name: self._result(name, value=value, unit=self._unit(gives[name]))
            for name, value in self._outcome.items()
        }

    def _unit(self, gives: Gives) -> str:
        if gives.unit_by is None:
            return gives.unit
        name, units = gives.unit_by
        return units[str(self._figures.value(name))]

    def _result(self, name: str, *, value: Number | str, unit: str) -> Result:
        if isinstance(value, str):
            return Result(value=value, unit="", plus_minus=None)
        shown = UNITS[unit]
        return Result(
            value=_in_unit(value, unit=shown),
            unit=unit,
            plus_minus=self._band(name, unit=shown),
        )

    def _band(self, name: str, *, unit: Unit) -> float | None:
        band = self._base_band(name, result=name)
        return None if band is None else band / float(unit.factor)

    def _base_band(self, name: str, *, result: str) -> float | None:
        """Give the k = 2 band of a figure, worked out by the equation itself or by propagation."""
        stated = results_of(self._sheet.equation)[result].band_from
        if stated in self._outcome:
            return float(self._outcome[stated])
        return None if self._bands is None else self._bands.get(name, 0.0)

    def limits_met(self) -> Iterator[LimitMet]:
        for number, limit in enumerate(self._sheet.limits):
            bound = limit.bound(self._figures)
            if bound is not None and self._figures.has(limit.result):
                yield self._met(limit, number=number, bound=bound)

    def _met(self, limit: Limit, *, number: int, bound: Number) -> LimitMet:
        value = self._figures.number(limit.result)
        margin = margin_of(limit.side, value=value, bound=bound)
        band = self._base_band(margin_name(number), result=limit.result)
        verdict, because = _judged(limit, self._figures, margin=margin, bound=bound, band=band)
        name = self._unit(results_of(self._sheet.equation)[limit.result])
        unit = UNITS[name]
        return LimitMet(
            result=limit.result,
            side=limit.side,
            value=_in_unit(value, unit=unit),
            limit=_in_unit(bound, unit=unit),
            margin=float(margin) / float(unit.factor),
            plus_minus=None if band is None else band / float(unit.factor),
            unit=name,
            verdict=verdict,
            because=because,
        )

    def cautions(self, limits: tuple[LimitMet, ...]) -> Iterator[str]:
        for value in self._read.values():
            yield from _range_cautions(value)
        for caution in self._sheet.cautions:
            if caution.when is None or caution.when(self._figures):
                yield caution.text
        if any(limit.plus_minus is None for limit in limits):
            yield _NO_BANDS


def _range_cautions(value: object) -> Iterator[str]:
    if isinstance(value, Measured):
        yield from value.cautions
    elif isinstance(value, Repeated):
        for row in value.rows:
            for cell in row:
                yield from cell.cautions


def _judged(
    limit: Limit, figures: Figures, *, margin: Number, bound: Number, band: float | None
) -> tuple[Verdict, str]:
    if limit.cannot_tell_when is not None and limit.cannot_tell_when(figures):
        return Verdict.CANNOT_TELL, limit.cannot_tell_because
    verdict = judge(margin, limit=bound, plus_minus=band)
    return verdict, verdict.value


def _in_unit(value: Number, *, unit: Unit) -> float:
    if isinstance(value, Fraction):
        return float(unit.from_base(value))
    return value / float(unit.factor) - float(unit.offset)
