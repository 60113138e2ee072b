"""The triangle of all weights and its convex pieces, cut exactly.

A point is three whole numbers in the proportion of its weights: (1, 1, 2) is 1/4, 1/4, 1/2. Because
weights add up to one, every bound on them is a half-plane c . p >= 0 with whole-number c, and
cutting never leaves the whole numbers: ties stay ties, and a region without area stays visible.

Source: the cutting is the polygon clipping of Sutherland and Hodgman, Reentrant polygon clipping,
Communications of the ACM 17(1), 1974 (from memory); the area is the determinant of the corners'
weights, which is 1 for the whole triangle.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import gcd, lcm
from typing import Final

from witnessmark.weighing.option import Weights

Point = tuple[int, int, int]
"""Weights in proportion, one whole number of 0 or more for each of CRITERIA."""

HalfPlane = tuple[int, int, int]
"""The side where these three whole numbers, times the weights, add up to 0 or more."""

POINT, SEGMENT, POLYGON = 0, 1, 2


def dot(one: tuple[int, int, int], other: tuple[int, int, int]) -> int:
    """Give the sum of the three products."""
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]


def difference(one: tuple[int, int, int], other: tuple[int, int, int]) -> HalfPlane:
    """Give the side where the first of two options is worth at least as much as the second."""
    return one[0] - other[0], one[1] - other[1], one[2] - other[2]


def point_of(weights: Weights) -> Point:
    """Give the point at these weights.

    >>> point_of((Fraction(1, 4), Fraction(1, 4), Fraction(1, 2)))
    (1, 1, 2)
    """
    scale = lcm(*(weight.denominator for weight in weights))
    first, second, third = (int(weight * scale) for weight in weights)
    return _reduced(first, second, third)


def weights_at(point: Point) -> Weights:
    """Give the weights at a point."""
    whole = sum(point)
    return Fraction(point[0], whole), Fraction(point[1], whole), Fraction(point[2], whole)


@dataclass(frozen=True, slots=True)
class Region:
    """A convex set of weights, by its corners in turn: none, a point, a segment or a polygon."""

    corners: tuple[Point, ...]

    @property
    def is_empty(self) -> bool:
        """Tell whether no weights lie in it."""
        return not self.corners

    @property
    def dimension(self) -> int:
        """Give 2 for a polygon, 1 for a segment, 0 for a point, -1 for nothing."""
        return min(len(self.corners), 3) - 1

    def clipped(self, side: HalfPlane) -> Region:
        """Give the part of it on one side of a line, the line included."""
        heights = [dot(side, corner) for corner in self.corners]
        if all(height >= 0 for height in heights):
            return self
        turned = zip(self.corners[1:] + self.corners[:1], heights[1:] + heights[:1], strict=True)
        kept: list[Point] = []
        for here, height, (there, next_height) in zip(self.corners, heights, turned, strict=True):
            if height >= 0:
                kept.append(here)
            if height * next_height < 0:
                kept.append(_crossing(here, there, side=side))
        # A segment is walked there and back, so its crossing turns up twice.
        return Region(tuple(dict.fromkeys(kept)))

    def halves(self, line: HalfPlane) -> tuple[Region, ...]:
        """Give the pieces a line cuts it into: two, or itself where the line does not cross it."""
        heights = [dot(line, corner) for corner in self.corners]
        if min(heights, default=0) >= 0 or max(heights, default=0) <= 0:
            return (self,)
        return self.clipped(line), self.clipped((-line[0], -line[1], -line[2]))

    @property
    def size(self) -> Fraction:
        """Give a polygon's area (the whole triangle is 1), a segment's length, otherwise 0.

        A length is the greatest change of one weight, so it compares segments of one line only.
        """
        if self.dimension == POLYGON:
            return sum((area for area, _ in self._fan()), Fraction(0))
        if self.dimension == SEGMENT:
            start, end = map(weights_at, self.corners)
            return max(abs(there - here) for here, there in zip(start, end, strict=True))
        return Fraction(0)

    def share_of(self, whole: Region) -> Fraction | None:
        """Give how much of a region this part of it takes up, None where that is one point."""
        if whole.dimension < SEGMENT:
            return None
        if self.dimension < whole.dimension:
            return Fraction(0)
        return self.size / whole.size

    @property
    def centroid(self) -> Weights | None:
        """Give the mean of all its weights, None where it is empty."""
        if self.is_empty:
            return None
        if self.dimension < POLYGON:
            return _mean(self.corners)
        first = second = Fraction(0)
        for area, triangle in self._fan():
            middle = _mean(triangle)
            first += area * middle[0]
            second += area * middle[1]
        first, second = first / self.size, second / self.size
        return first, second, 1 - first - second

    @property
    def inner_point(self) -> Point:
        """Give a point that lies on none of its edges."""
        columns = zip(*self.corners, strict=True)
        first, second, third = map(sum, columns)
        return _reduced(first, second, third)

    def _fan(self) -> list[tuple[Fraction, tuple[Point, Point, Point]]]:
        apex, *rest = self.corners
        triangles = [(apex, here, there) for here, there in pairwise(rest)]
        return [(_area(triangle), triangle) for triangle in triangles]


ALL_WEIGHTS: Final = Region(((1, 0, 0), (0, 1, 0), (0, 0, 1)))
"""Every set of weights there is."""


def _reduced(first: int, second: int, third: int) -> Point:
    common = gcd(first, second, third)
    return first // common, second // common, third // common


def _crossing(here: Point, there: Point, *, side: HalfPlane) -> Point:
    near, far = abs(dot(side, here)), abs(dot(side, there))
    return _reduced(
        far * here[0] + near * there[0],
        far * here[1] + near * there[1],
        far * here[2] + near * there[2],
    )


def _mean(points: tuple[Point, ...]) -> Weights:
    columns = zip(*map(weights_at, points), strict=True)
    first, second, third = (sum(column, Fraction(0)) / len(points) for column in columns)
    return first, second, third


def _area(triangle: tuple[Point, Point, Point]) -> Fraction:
    (a, b, c), (d, e, f), (g, h, i) = triangle
    determinant = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)
    return Fraction(determinant, (a + b + c) * (d + e + f) * (g + h + i))
