"""The smallest change of weights that would make an option the best.

Two measures, both to the option's whole region and not to its tie line with one rival, where a
third option may already have won: how many points of weight must move (half the sum of the three
changes, which for three numbers that sum to zero is also the largest of them), and the nearest
point as a ruler on the triangle would find it. Both are derived here; common geometry, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from witnessmark.weighing.option import Weights
from witnessmark.weighing.simplex import SEGMENT, Point, Region, weights_at


@dataclass(frozen=True, slots=True)
class Nearest:
    """How much weight must move at least, and the weights nearest to the policy's.

    At both the option only ties: it is the best alone just beyond.
    """

    moved: Fraction
    weights: Weights


def nearest_weights(region: Region, *, start: Weights) -> Nearest:
    """Give the least move from the starting weights, outside the region, into it."""
    edges = list(_edges(region))
    moved = min(_weight_moved(start, point) for edge in edges for point in _turns(edge, start))
    feet = [_foot(edge, start) for edge in edges]
    return Nearest(moved, min(feet, key=lambda foot: _squared_distance(start, foot)))


def _edges(region: Region) -> Iterator[tuple[Weights, Weights]]:
    """Give the edges of a region; a point is an edge from itself to itself."""
    corners: tuple[Point, ...] = region.corners
    ends = corners if region.dimension == SEGMENT else (*corners, corners[0])
    for place in range(max(len(ends) - 1, 1)):
        yield weights_at(ends[place]), weights_at(ends[place + 1])


def _turns(edge: tuple[Weights, Weights], start: Weights) -> Iterator[Weights]:
    """Give the ends of an edge and the places on it where one weight is as at the start.

    Between them the weight moved changes evenly, so the least of it is at one of them.
    """
    yield from edge
    for here, there, wanted in zip(*edge, start, strict=True):
        if min(here, there) < wanted < max(here, there):
            yield _along(edge, (wanted - here) / (there - here))


def _foot(edge: tuple[Weights, Weights], start: Weights) -> Weights:
    """Give the point of an edge nearest to the start by a straight line."""
    here, there = edge
    run = [end - begin for begin, end in zip(here, there, strict=True)]
    length = sum(step * step for step in run)
    if not length:
        return here
    reach = sum((wish - begin) * step for wish, begin, step in zip(start, here, run, strict=True))
    return _along(edge, max(Fraction(0), min(Fraction(1), reach / length)))


def _along(edge: tuple[Weights, Weights], part: Fraction) -> Weights:
    (a, b, c), (d, e, f) = edge
    return a + part * (d - a), b + part * (e - b), c + part * (f - c)


def _weight_moved(one: Weights, other: Weights) -> Fraction:
    return max(abs(here - there) for here, there in zip(one, other, strict=True))


def _squared_distance(one: Weights, other: Weights) -> Fraction:
    return sum(((here - there) ** 2 for here, there in zip(one, other, strict=True)), Fraction(0))
