"""How the bands of the inputs become the band of a result, to first order.

JCGM 100:2008 (the GUM), 4.3.7: a band of half-width a with nothing known inside it has standard
uncertainty a / sqrt(3). 5.1.2: independent contributions add as squares. 5.1.3, note 2: each
contribution is half the change of the result as one input moves from one standard uncertainty
under its value to one over it. 6.2.1: the expanded uncertainty is k times the combined one, k = 2.
(From memory.)
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction
from typing import TypeAlias

from witnessmark.worksheets.declare import Band, Number
from witnessmark.worksheets.reading import Measured, Repeated

COVERAGE = 2
ASSUMPTIONS = (
    (
        "A stated ± is the half-width of a uniform band, unless the input says otherwise: its"
        " standard uncertainty is the half-width / sqrt(3) (JCGM 100:2008, 4.3.7)."
    ),
    (
        "Inputs are taken as independent, and the result as straight over their bands"
        " (JCGM 100:2008, 5.1.2); errors shared by two readings of one instrument are not followed."
    ),
    "The ± of a result is the expanded uncertainty, k = 2, about 95 in 100 (JCGM 100:2008, 6.2.1).",
)

_DIVISOR = {Band.UNIFORM: math.sqrt(3), Band.STANDARD: 1.0, Band.EXPANDED: 2.0}

Outcome: TypeAlias = Mapping[str, Number]
Evaluate: TypeAlias = Callable[[Mapping[str, object]], Outcome]


def plain_values(read: Mapping[str, object]) -> dict[str, object]:
    """Give the inputs as the equation takes them: bare numbers in place of measured ones."""
    return {name: _plain(value) for name, value in read.items()}


def has_bands(read: Mapping[str, object]) -> bool:
    """Tell whether any input states a band."""
    return next(_moves(read), None) is not None


def expanded(read: Mapping[str, object], *, evaluate: Evaluate) -> dict[str, float]:
    """Give the expanded uncertainty (k = 2) of each figure that `evaluate` gives by name."""
    combined: dict[str, float] = {}
    for under, over in _moves(read):
        low, high = evaluate(under), evaluate(over)
        for name in low.keys() & high.keys():
            half_change = float(high[name] - low[name]) / 2
            combined[name] = math.hypot(combined.get(name, 0.0), half_change)
    return {name: COVERAGE * combined[name] for name in sorted(combined)}


def _plain(value: object) -> object:
    if isinstance(value, Measured):
        return value.value
    if isinstance(value, Repeated):
        return tuple(tuple(cell.value for cell in row) for row in value.rows)
    return value


def _moves(read: Mapping[str, object]) -> Iterator[tuple[dict[str, object], dict[str, object]]]:
    """Give all inputs twice for each one with a band: that one moved down, then moved up."""
    plain = plain_values(read)
    for name, value in read.items():
        for under, over in _moves_of(value):
            yield plain | {name: under}, plain | {name: over}


def _moves_of(value: object) -> Iterator[tuple[object, object]]:
    if isinstance(value, Measured) and value.half_width:
        # A fraction again, so that the two ends differ by exactly two steps.
        step = Fraction(float(value.half_width) / _DIVISOR[value.band])
        yield value.value - step, value.value + step
    elif isinstance(value, Repeated):
        for number, row in enumerate(value.rows):
            for place, cell in enumerate(row):
                for under, over in _moves_of(cell):
                    place_of = {"number": number, "place": place}
                    yield (
                        _with_cell(value, moved=under, **place_of),
                        _with_cell(value, moved=over, **place_of),
                    )


def _with_cell(repeated: Repeated, *, number: int, place: int, moved: object) -> object:
    return tuple(
        tuple(
            moved if (at, column) == (number, place) else cell.value
            for column, cell in enumerate(row)
        )
        for at, row in enumerate(repeated.rows)
    )
