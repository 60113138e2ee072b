"""Whether the result needs the steps between levels to be of any particular size.

Levels are an order; what a step is worth is the policy's choice. One option is ahead whatever the
steps are worth when, for each level, the weights of the criteria on which it reaches that level
add up to at least as much as its rival's.

Source: the idea is that of Abbas and Hupman, Scale dependence in weight and rate multicriteria
decision methods, European Journal of Operational Research (abstract seen).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from witnessmark.weighing.field import Field
from witnessmark.weighing.option import Scores, Weights
from witnessmark.weighing.simplex import point_of


@dataclass(frozen=True, slots=True)
class OrderTest:
    """A winner against one rival, by the order of levels alone.

    Where it fails, `level` is the highest at which the rival reaches more weight than the winner:
    if that step were worth enough, the rival would be ahead.
    """

    winner: str
    rival: str
    level: Fraction | None = None
    winner_reaches: Fraction | None = None
    rival_reaches: Fraction | None = None

    @property
    def holds(self) -> bool:
        """Tell whether the winner is ahead whatever the steps between levels are worth."""
        return self.level is None


def order_tests(field: Field, *, weights: Weights | None) -> tuple[OrderTest, ...]:
    """Give the test of every winner at these weights against every option that does not win."""
    if weights is None:
        return ()
    winners = field.winners(point_of(weights))
    likelies = {entrant.id: entrant.option.likelies for entrant in field.entrants}
    return tuple(
        _order_test(winner, rival, likelies=likelies, weights=weights)
        for winner in winners
        for rival in likelies
        if rival not in winners
    )


def _order_test(
    winner: str, rival: str, *, likelies: Mapping[str, Scores], weights: Weights
) -> OrderTest:
    for level in sorted({*likelies[winner], *likelies[rival]}, reverse=True):
        ours = _reaching(level, likelies[winner], weights)
        theirs = _reaching(level, likelies[rival], weights)
        if ours < theirs:
            return OrderTest(winner, rival, level, ours, theirs)
    return OrderTest(winner, rival)


def _reaching(level: Fraction, scores: Scores, weights: Weights) -> Fraction:
    """Give the weight of the criteria on which an option scores at least this level."""
    pairs = zip(scores, weights, strict=True)
    return sum((weight for score, weight in pairs if score >= level), Fraction(0))
