"""A score: a range of levels with the facts it came from, or the reason it is withheld."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache


@dataclass(frozen=True)
class Score:
    """Low, likely and high level (0 to 4), with the facts in plain sentences."""

    low: Fraction
    likely: Fraction
    high: Fraction
    facts: tuple[str, ...] = ()

    @classmethod
    def exactly(cls, level: Fraction | int, *facts: str) -> Score:
        """A score without a range: it is computed, not judged."""
        exact = whole(level) if isinstance(level, int) else level
        return cls(exact, exact, exact, facts)


@cache  # five levels; the same object each time, so that a range of nothing is known at once
def whole(level: int) -> Fraction:
    """A whole level, exactly."""
    return Fraction(level)


@dataclass(frozen=True)
class Withheld:
    """No score, and why; never read as a nought."""

    why: tuple[str, ...]


Scored = Score | Withheld


def one_decimal(value: Fraction) -> str:
    """A level as people read it, one decimal, halves away from nought.

    >>> one_decimal(Fraction(51, 16)), one_decimal(Fraction(3)), one_decimal(Fraction(5, 4))
    ('3.2', '3', '1.3')
    """
    above, below = value.numerator, value.denominator
    tenths = (20 * abs(above) + below) // (2 * below)
    sign = "-" if above < 0 and tenths else ""
    whole, tenth = divmod(tenths, 10)
    return f"{sign}{whole}" if tenth == 0 else f"{sign}{whole}.{tenth}"
