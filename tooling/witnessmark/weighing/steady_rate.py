"""How often something happens, from how often it happened: the exact range for a steady rate.

Source: F. Garwood, Fiducial limits for the Poisson distribution, Biometrika 28 (1936), 437-442: the
limits are the rates at which as many events or more, and as many or fewer, are just too rare.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

CONFIDENCE = Fraction(9, 10)
"""Of such ranges, nine in ten hold the true rate. Common practice, no source."""

_HALVINGS = 200


@dataclass(frozen=True)
class Rate:
    """Events a year: the least and the most that agree with the count, and the count itself."""

    low: float
    likely: float
    high: float


def steady_rate(events: int, *, years: float, confidence: Fraction = CONFIDENCE) -> Rate:
    """The rate of events that come by chance at a steady rate, from a count over some years.

    >>> found = steady_rate(0, years=1)
    >>> found.low, found.likely, round(found.high, 3)
    (0.0, 0.0, 2.996)
    """
    if events < 0 or years <= 0 or not 0 < confidence < 1:
        raise ValueError("a count from 0 on, a time above 0 and a confidence between 0 and 1")
    tail = float((1 - confidence) / 2)
    top = 10.0 + 10.0 * events - 4.0 * math.log(tail)
    low = 0.0
    if events:
        low = _crossing(lambda mean: 1 - _at_most(events - 1, mean), tail, top=top)
    high = _crossing(lambda mean: -_at_most(events, mean), -tail, top=top)
    return Rate(low / years, events / years, high / years)


def _at_most(events: int, mean: float) -> float:
    """The chance of so many events or fewer where the mean is expected."""
    if mean == 0:
        return 1.0
    logs = (n * math.log(mean) - mean - math.lgamma(n + 1) for n in range(events + 1))
    return math.fsum(math.exp(log) for log in logs)


def _crossing(rising: Callable[[float], float], wanted: float, *, top: float) -> float:
    """Where a rising function meets a value, between 0 and a place where it lies above."""
    low, high = 0.0, top
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if rising(middle) < wanted else (low, middle)
    return (low + high) / 2
