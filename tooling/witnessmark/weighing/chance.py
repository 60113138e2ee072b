"""The exact chance that an option is best at the policy's weights, given the doubt in its scores.

Assumed, and to be printed wherever a chance is: each score is at its low, likely or high level with
chance 1/4, 1/2 and 1/4 (the museum's reading of those words; common practice, no source), and the
scores are independent. One judge's leniency towards all options cancels out, so the doubt is then
overstated; a judge who marks a favourite up and its rivals down makes it understated.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import Counter
from fractions import Fraction
from itertools import accumulate
from typing import Final

from witnessmark.weighing.field import Entrant, Field
from witnessmark.weighing.simplex import Point

QUARTERS: Final = (1, 2, 1)
"""Chances of the low, likely and high level, in quarters."""

WHOLE: Final = sum(QUARTERS) ** 3
"""How many equally likely cases three independent scores make."""


class _Spread:
    """The values one option can take, rising, and in how many of WHOLE cases it does."""

    def __init__(self, entrant: Entrant, *, at: Point) -> None:
        cases = Counter({0: 1})
        for weight, *levels in zip(at, entrant.low, entrant.likely, entrant.high, strict=True):
            wider: Counter[int] = Counter()
            for value, count in cases.items():
                for level, quarters in zip(levels, QUARTERS, strict=True):
                    wider[value + weight * level] += count * quarters
            cases = wider
        self.values = sorted(cases)
        self.counts = [cases[value] for value in self.values]
        self._running = [0, *accumulate(self.counts)]

    def below_and_at(self, value: int) -> tuple[int, int]:
        """Give in how many cases it is worth less than a value, and exactly that."""
        below = self._running[bisect_left(self.values, value)]
        return below, self._running[bisect_right(self.values, value)] - below


def chances_of_being_best(field: Field, *, at: Point) -> dict[str, Fraction]:
    """Give each option's chance of the highest value; tied options share theirs equally."""
    spreads = {entrant.id: _Spread(entrant, at=at) for entrant in field.entrants}
    return {
        name: _chance(spread, [other for rival, other in spreads.items() if rival != name])
        for name, spread in spreads.items()
    }


def _chance(spread: _Spread, rivals: list[_Spread]) -> Fraction:
    cases = sum(
        (
            count * _undefeated([rival.below_and_at(value) for rival in rivals])
            for value, count in zip(spread.values, spread.counts, strict=True)
        ),
        Fraction(0),
    )
    all_cases: int = WHOLE ** (len(rivals) + 1)
    return cases / all_cases


def _undefeated(rivals: list[tuple[int, int]]) -> Fraction:
    """Give the cases in which no rival is worth more, one with n equals counting 1 / (n + 1)."""
    cases_by_equals = [1]
    for below, equal in rivals:
        if not below and not equal:
            return Fraction(0)
        longer = [*(below * cases for cases in cases_by_equals), 0]
        for equals, cases in enumerate(cases_by_equals):
            longer[equals + 1] += equal * cases
        cases_by_equals = longer
    return sum(
        (Fraction(cases, equals + 1) for equals, cases in enumerate(cases_by_equals) if cases),
        Fraction(0),
    )
