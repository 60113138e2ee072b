"""Spots and boxes on the map, x to the right and y downwards, in whole hundredths of a unit.

Whole numbers keep every comparison exact and quick; a drawing writes them as units.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Final

from witnessmark.weighing.option import Weights
from witnessmark.weighing.simplex import Region, weights_at

UNIT: Final = 100
"""So many parts make one unit of the drawing."""

WIDTH: Final = 1000 * UNIT
HEIGHT: Final = 866 * UNIT
"""As near to even sides as whole units come (a thousand times the square root of 3, halved)."""


@dataclass(frozen=True, slots=True, order=True)
class Spot:
    """A place on the map."""

    x: int
    y: int

    def __str__(self) -> str:
        """Give the place in units, as a drawing writes it.

        >>> str(Spot(12550, -86600))
        '125.5,-866'
        """
        return f"{in_units(self.x)},{in_units(self.y)}"

    def towards(self, other: Spot, *, part: Fraction) -> Spot:
        """Give the place that part of the way to another."""
        return Spot(
            round(self.x + part * (other.x - self.x)), round(self.y + part * (other.y - self.y))
        )

    def squared_distance(self, other: Spot) -> int:
        """Give the square of the distance to another, which stays exact."""
        return (self.x - other.x) ** 2 + (self.y - other.y) ** 2


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle along the axes."""

    left: int
    top: int
    right: int
    bottom: int

    @classmethod
    def around(cls, centre: Spot, *, width: int, height: int) -> Box:
        """Give the box of this size with its middle there."""
        across, down = width // 2, height // 2
        return cls(centre.x - across, centre.y - down, centre.x + across, centre.y + down)

    @property
    def centre(self) -> Spot:
        """Give its middle."""
        return Spot((self.left + self.right) // 2, (self.top + self.bottom) // 2)

    @property
    def corners(self) -> tuple[Spot, Spot, Spot, Spot]:
        """Give its corners in turn."""
        return (
            Spot(self.left, self.top),
            Spot(self.right, self.top),
            Spot(self.right, self.bottom),
            Spot(self.left, self.bottom),
        )

    def grown(self, room: int) -> Box:
        """Give the box with this much more on every side."""
        return Box(self.left - room, self.top - room, self.right + room, self.bottom + room)

    def holds(self, spot: Spot) -> bool:
        """Tell whether a spot lies in it, off its edge."""
        return self.left < spot.x < self.right and self.top < spot.y < self.bottom

    def overlaps(self, other: Box) -> bool:
        """Tell whether two boxes share any room."""
        aside = self.right <= other.left or other.right <= self.left
        return not aside and self.top < other.bottom and other.top < self.bottom

    def is_within(self, outline: tuple[Spot, ...]) -> bool:
        """Tell whether it lies wholly in a convex outline."""
        return all(is_inside(corner, outline=outline) for corner in self.corners)

    def is_crossed(self, start: Spot, end: Spot) -> bool:
        """Tell whether a straight line between two spots runs through it."""
        low, high = Fraction(0), Fraction(1)
        for here, there, least, most in (
            (start.x, end.x, self.left, self.right),
            (start.y, end.y, self.top, self.bottom),
        ):
            if here == there:
                if not least < here < most:
                    return False
                continue
            step = there - here
            enters, leaves = sorted((Fraction(least - here, step), Fraction(most - here, step)))
            low, high = max(low, enters), min(high, leaves)
        return low < high


def in_units(parts: int) -> str:
    """Give a length or a coordinate in units, as short as it can be written."""
    whole, rest = divmod(abs(parts), UNIT)
    written = f"{whole}.{rest:02}".rstrip("0").rstrip(".")
    return f"-{written}" if parts < 0 else written


def spot_of(weights: Weights) -> Spot:
    """Give where weights stand on the map."""
    _, safety, reversibility = weights
    return Spot(round(WIDTH * (safety + reversibility / 2)), round(HEIGHT * (1 - reversibility)))


def outline_of(region: Region) -> tuple[Spot, ...]:
    """Give the corners of a region in turn, as spots."""
    return tuple(spot_of(weights_at(corner)) for corner in region.corners)


def is_inside(spot: Spot, *, outline: tuple[Spot, ...]) -> bool:
    """Tell whether a spot lies in a convex outline or on its edge."""
    turns = list(_turns(spot, outline))
    return all(turn >= 0 for turn in turns) or all(turn <= 0 for turn in turns)


def _turns(spot: Spot, outline: tuple[Spot, ...]) -> Iterator[int]:
    """Give for each side which way the spot lies from it."""
    for here, there in pairwise((*outline, outline[0])):
        yield (there.x - here.x) * (spot.y - here.y) - (there.y - here.y) * (spot.x - here.x)
