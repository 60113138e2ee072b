"""The weights a policy allows: the triangle cut by the range of each criterion."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.weighing.option import CRITERIA
from witnessmark.weighing.simplex import ALL_WEIGHTS, HalfPlane, Region, weights_at
from witnessmark.weighing.weighting import Ranges


def policy_region(ranges: Ranges) -> Region:
    """Give all weights within the ranges: a polygon, or a segment or a point where they pin it.

    A Weighting refuses ranges that leave nothing, so it is never empty for the ranges of one.
    """
    region = ALL_WEIGHTS
    for side in _sides(ranges):
        region = region.clipped(side)
    return region


def bounds_never_reached(ranges: Ranges, *, region: Region) -> Iterator[str]:
    """Give a sentence for each bound that the other criteria's bounds keep out of reach."""
    columns = zip(*map(weights_at, region.corners), strict=True)
    for criterion, bounds, weights in zip(CRITERIA, ranges, columns, strict=True):
        for bound, reached in zip(bounds, (min(weights), max(weights)), strict=True):
            if bound != reached:
                yield (
                    f"The range of {criterion} is written to {bound}, but the ranges of the"
                    f" others leave it only {reached}."
                )


def _sides(ranges: Ranges) -> Iterator[HalfPlane]:
    """Give the half-planes weight >= least and weight <= greatest of each criterion."""
    for place, (least, greatest) in enumerate(ranges):
        for bound, sign in ((least, 1), (greatest, -1)):
            side = [-sign * bound.numerator] * 3
            side[place] += sign * bound.denominator
            yield side[0], side[1], side[2]
