"""A policy as bare numbers: weights, their ranges, floors, and what the levels are worth."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from witnessmark.errors import WitnessmarkError
from witnessmark.weighing.option import CRITERIA, HIGHEST_LEVEL, LOWEST_LEVEL, Weights

Bounds = tuple[Fraction, Fraction]
"""The least and the greatest weight a policy allows one criterion."""

Ranges = tuple[Bounds, Bounds, Bounds]
"""The bounds of each of CRITERIA."""

Floors = tuple[Fraction | None, Fraction | None, Fraction | None]
"""The lowest likely score allowed on each of CRITERIA, None where there is no floor."""

LevelValues = tuple[Fraction, Fraction, Fraction, Fraction, Fraction]
"""What the levels 0, 1, 2, 3 and 4 are worth."""

EVEN_STEPS: LevelValues = (Fraction(0), Fraction(1), Fraction(2), Fraction(3), Fraction(4))


@dataclass(frozen=True, slots=True)
class Weighting:
    """What a policy says about weighing.

    The two chances are the museum's own thresholds for saying firm and holds (policy, not science).
    """

    weights: Weights | None = None
    ranges: Ranges | None = None
    floors: Floors = (None, None, None)
    level_values: LevelValues = EVEN_STEPS
    firm_chance: Fraction = Fraction(9, 10)
    holds_chance: Fraction = Fraction(3, 5)

    def __post_init__(self) -> None:
        """Refuse numbers no weighing could be done with."""
        if self.weights is not None:
            _refuse_weights(self.weights)
        if self.ranges is not None:
            _refuse_ranges(self.ranges)
        _refuse_floors(self.floors)
        if any(lower >= upper for lower, upper in pairwise(self.level_values)):
            raise WitnessmarkError(
                f"The levels are worth {', '.join(map(str, self.level_values))}, which does not"
                " rise at every step.",
                remedy="Make each level worth more than the one below it.",
            )

    @property
    def has_even_steps(self) -> bool:
        """Tell whether each level is worth its own number, so that a score is its worth."""
        return self.level_values is EVEN_STEPS or self.level_values == EVEN_STEPS

    def value_of(self, score: Fraction) -> Fraction:
        """Give what a score is worth; between whole levels the worth rises evenly."""
        level, beyond = divmod(score, 1)
        if not beyond:
            return self.level_values[level]
        below, above = self.level_values[level : level + 2]
        return below + beyond * (above - below)


def _refuse_weights(weights: Weights) -> None:
    for criterion, weight in zip(CRITERIA, weights, strict=True):
        if weight < 0:
            raise WitnessmarkError(
                f"The weight of {criterion} is {weight}, below 0.",
                remedy="Give weights of 0 or more that add up to 1.",
            )
    if sum(weights) != 1:
        raise WitnessmarkError(
            f"The weights {', '.join(map(str, weights))} add up to {sum(weights)}, not to 1.",
            remedy="Change them so that they add up to exactly 1, for example 0.35, 0.40, 0.25.",
        )


def _refuse_ranges(ranges: Ranges) -> None:
    """Refuse ranges off the scale, and ranges that no weights adding up to 1 can meet."""
    for criterion, (least, greatest) in zip(CRITERIA, ranges, strict=True):
        if not 0 <= least <= greatest <= 1:
            raise WitnessmarkError(
                f"The range of {criterion} runs from {least} to {greatest}.",
                remedy="Give two weights between 0 and 1, the smaller one first.",
            )
    lows, highs = (sum(bounds) for bounds in zip(*ranges, strict=True))
    if not lows <= 1 <= highs:
        raise WitnessmarkError(
            f"No weights fit the ranges: the lows add up to {lows} and the highs to {highs}.",
            remedy="Choose lows that add up to 1 or less and highs that add up to 1 or more.",
        )


def _refuse_floors(floors: Floors) -> None:
    for criterion, floor in zip(CRITERIA, floors, strict=True):
        if floor is not None and not LOWEST_LEVEL <= floor <= HIGHEST_LEVEL:
            raise WitnessmarkError(
                f"The floor of {criterion} is {floor}, off the scale.",
                remedy="Give a floor from 0 to 4.",
            )
