"""From what people answered to weights, and whether their answers in pairs hang together.

Swing weights: everything at its worst, the criterion one would lift first gets 100 points, the
others are rated against it; a person's weights are the points as shares of their sum. Source:
Riabacke, Danielson and Ekenberg, State-of-the-art prescriptive criteria weight elicitation,
Advances in Decision Sciences, 2012, table 2.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from witnessmark.weighing.option import CRITERIA, Weights

FIRST_SWING: Final = Fraction(100)
"""The points of the criterion lifted first; the others have as many or fewer."""

RANDOM_INDEX: Final = 0.58
"""The consistency index of three criteria compared at random (Saaty, 1980, as later tables print
it). Others print 0.52, and all matrices of the scale 1 to 9 average 0.5245, so the ratio is a
check and no measure."""

MOST_RATIO: Final = 0.1
"""Above this ratio the answers are said not to hang together (Saaty, 1980; common practice)."""


def weights_of_swings(points: Weights) -> Weights:
    """Give a person's weights from points in the order of CRITERIA, not all of them 0.

    >>> [str(weight) for weight in weights_of_swings((Fraction(80), Fraction(100), Fraction(60)))]
    ['1/3', '5/12', '1/4']
    """
    whole = sum(points)
    first, second, third = (point / whole for point in points)
    return first, second, third


def reach_of(people: Iterable[Weights]) -> tuple[tuple[Fraction, Fraction], ...]:
    """Give the least and the greatest weight that people gave each of CRITERIA, none of nobody."""
    return tuple((min(given), max(given)) for given in zip(*people, strict=True))


@dataclass(frozen=True, slots=True)
class Consistency:
    """How far three answers in pairs are from hanging together; a ratio of 0 is perfect."""

    greatest_root: float
    index: float
    ratio: float

    @property
    def holds(self) -> bool:
        """Tell whether the answers hang together as far as is commonly asked."""
        return self.ratio <= MOST_RATIO


def consistency_of(*, first_second: float, first_third: float, second_third: float) -> Consistency:
    """Give the consistency of how many times the first matters beside the second, and so on.

    For three criteria the greatest root of the matrix has a closed form: 1 + q + 1/q with
    q^3 = a13 / (a12 a23), as its characteristic equation gives.
    """
    q = (first_third / (first_second * second_third)) ** (1 / 3)
    root = 1 + q + 1 / q
    index = (root - len(CRITERIA)) / (len(CRITERIA) - 1)
    return Consistency(root, index, index / RANDOM_INDEX)
