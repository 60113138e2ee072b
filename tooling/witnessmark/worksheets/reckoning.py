"""The equation of a sheet, worked once: finite numbers, words, and the margin to each limit."""

from __future__ import annotations

import math
from collections.abc import Mapping
from fractions import Fraction

from witnessmark.worksheets.declare import CannotCompute, Figures, Number, Sheet, Side
from witnessmark.worksheets.faults import Fault, SheetRefuses
from witnessmark.worksheets.signature import results_of

# Far over anything a workshop can measure, and under the largest float by more than any factor of
# the unit table.
_TOO_LARGE = 10**280


def evaluate(sheet: Sheet, *, plain: Mapping[str, object]) -> dict[str, Number | str]:
    """Give the results reached, by name; refuse what is not a finite number or a word."""
    try:
        outcome = sheet.equation(**plain)
    except CannotCompute as refusal:
        fault = Fault(name=refusal.name, message=refusal.message, fix=refusal.fix)
        raise SheetRefuses(sheet.id, faults=(fault,)) from None
    except (ArithmeticError, ValueError):  # a division by zero, a root or logarithm out of domain
        raise _no_number(sheet, name="") from None
    names = results_of(sheet.equation)
    reached = {name: getattr(outcome, name) for name in names}
    for name, value in reached.items():
        if value is not None and not isinstance(value, str) and not _is_finite(value):
            raise _no_number(sheet, name=name)
    return {name: value for name, value in reached.items() if value is not None}


def _is_finite(value: object) -> bool:
    # A power of a negative number comes back complex; a fraction may be too large for a float.
    if isinstance(value, Fraction):
        return abs(value) < _TOO_LARGE
    return isinstance(value, (float, int)) and math.isfinite(value) and abs(value) < _TOO_LARGE


def _no_number(sheet: Sheet, *, name: str) -> SheetRefuses:
    fault = Fault(
        name="",
        message=f"These inputs give no finite number for {name or 'the result'}.",
        fix="Check for a zero, a swapped pair or a slip in a unit.",
    )
    return SheetRefuses(sheet.id, faults=(fault,))


def numbers_and_margins(sheet: Sheet, *, plain: Mapping[str, object]) -> dict[str, Number]:
    """Give the numbers a run reaches, and the margin to each limit, for the propagation."""
    outcome = evaluate(sheet, plain=plain)
    numbers = {name: value for name, value in outcome.items() if not isinstance(value, str)}
    figures = Figures({**plain, **outcome})
    margins: dict[str, Number] = {}
    for number, limit in enumerate(sheet.limits):
        bound = limit.bound(figures)
        if bound is not None and figures.has(limit.result):
            value = figures.number(limit.result)
            margins[margin_name(number)] = margin_of(limit.side, value=value, bound=bound)
    return numbers | margins


def margin_name(number: int) -> str:
    """Give a name no result can have, so that margins and results are moved together."""
    return f"margin {number}"


def margin_of(side: Side, *, value: Number, bound: Number) -> Number:
    """Give how far a value stands on the safe side of its bound; under 0 is beyond it."""
    return bound - value if side is Side.AT_MOST else value - bound


def at_band_end(sheet: Sheet, *, plain: Mapping[str, object]) -> dict[str, Number]:
    """Give numbers and margins where one input stands at an end of its band."""
    try:
        return numbers_and_margins(sheet, plain=plain)
    except SheetRefuses as refusal:
        fault = Fault(
            name="",
            message="The stated ± reaches values that this sheet must refuse.",
            fix=f"Measure closer. At the end of the band: {refusal.faults[0].message}",
        )
        raise SheetRefuses(sheet.id, faults=(fault,)) from None
