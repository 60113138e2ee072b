"""Cohen's kappa for two raters, plain or weighted by how far apart two scores are.

Source: Cohen, Weighted kappa, Psychological Bulletin 70(4), 1968, pp. 213-220 (from memory; the
numbers of its example are reproduced in the tests). Kappa is 1 less the disagreement seen over the
disagreement that the two raters' own habits would give by chance.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from enum import Enum
from fractions import Fraction

from witnessmark.errors import WitnessmarkError

Cost = Callable[[Fraction, Fraction], Fraction | int]
"""What a disagreement counts for, asked with the lower place first: it cannot know who said it."""


class Slip(Enum):
    """How much one disagreement counts for: as any other, by its steps, or by their square."""

    NONE = "none"
    LINEAR = "linear"
    QUADRATIC = "quadratic"

    def __call__(self, lower: Fraction, upper: Fraction) -> Fraction | int:
        """Give what a disagreement between two places counts for."""
        steps = upper - lower
        match self:
            case Slip.NONE:
                return int(steps != 0)
            case Slip.LINEAR:
                return steps
            case Slip.QUADRATIC:
                return steps * steps


def weighted_kappa(
    pairs: Iterable[tuple[Fraction, Fraction]],
    *,
    cost: Cost,
    levels: Sequence[Fraction] | None = None,
) -> Fraction | None:
    """Give kappa exactly, None where neither rater varies and it has no meaning.

    Steps are counted in the scores themselves, so a level that nobody used keeps its place; to
    leave it out would bring its neighbours closer. Name the levels, in order, where the scores are
    names of levels that are not evenly spaced numbers: steps are then counted in levels.

    Raises:
        WitnessmarkError: a score is not one of the levels named.

    """
    places = list(pairs) if levels is None else list(_counted_in(levels, pairs))
    first, second = Counter(a for a, _ in places), Counter(b for _, b in places)
    seen = sum((_apart(a, b, cost) for a, b in places), Fraction(0)) * len(places)
    by_chance = sum(
        (first[a] * second[b] * _apart(a, b, cost) for a in first for b in second), Fraction(0)
    )
    return 1 - seen / by_chance if by_chance else None


def _counted_in(
    levels: Sequence[Fraction], pairs: Iterable[tuple[Fraction, Fraction]]
) -> Iterator[tuple[Fraction, Fraction]]:
    places = {level: Fraction(place) for place, level in enumerate(levels)}
    for one, other in pairs:
        for score in (one, other):
            if score not in places:
                raise WitnessmarkError(
                    f"The score {score} is not one of the levels named.",
                    remedy="Name every level of the scale, in order.",
                )
        yield places[one], places[other]


def _apart(one: Fraction, other: Fraction, cost: Cost) -> Fraction:
    return Fraction(cost(min(one, other), max(one, other)))
