"""An option as bare numbers: three scores, each with its low, likely and high."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from witnessmark.errors import WitnessmarkError

CRITERIA: Final = ("authenticity", "safety", "reversibility")
"""The criteria in the order of every triple in this package."""

LOWEST_LEVEL: Final = Fraction(0)
HIGHEST_LEVEL: Final = Fraction(4)

Weights = tuple[Fraction, Fraction, Fraction]
"""One share of the whole for each of CRITERIA; the three add up to 1."""

Scores = tuple[Fraction, Fraction, Fraction]
"""One score from 0 to 4 for each of CRITERIA."""


@dataclass(frozen=True, slots=True)
class Range:
    """One score as it was judged: at the lowest, most likely, and at the highest."""

    low: Fraction
    likely: Fraction
    high: Fraction

    def __post_init__(self) -> None:
        """Refuse a score off the scale, or one whose likely level is not between the others."""
        is_certain = self.low is self.likely is self.high
        for level in (self.likely,) if is_certain else (self.low, self.likely, self.high):
            if not LOWEST_LEVEL <= level <= HIGHEST_LEVEL:
                raise WitnessmarkError(
                    f"The score {level} is off the scale.", remedy="Give a score from 0 to 4."
                )
        if not is_certain and not self.low <= self.likely <= self.high:
            raise WitnessmarkError(
                f"The likely score {self.likely} is not between {self.low} and {self.high}.",
                remedy="Put low, likely and high in rising order.",
            )

    @classmethod
    def certain(cls, score: Fraction) -> Range:
        """Give a score that nobody doubts."""
        return cls(score, score, score)


@dataclass(frozen=True, slots=True)
class Option:
    """One thing that could be done, with its scores in the order of CRITERIA."""

    id: str
    scores: tuple[Range, Range, Range]

    @property
    def lows(self) -> Scores:
        """Give the lowest scores."""
        first, second, third = self.scores
        return first.low, second.low, third.low

    @property
    def likelies(self) -> Scores:
        """Give the likely scores."""
        first, second, third = self.scores
        return first.likely, second.likely, third.likely

    @property
    def highs(self) -> Scores:
        """Give the highest scores."""
        first, second, third = self.scores
        return first.high, second.high, third.high
