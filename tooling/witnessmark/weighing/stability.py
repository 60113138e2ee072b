"""How far one weight can move, the others keeping their proportion, before the result changes.

Source: the idea of exact weight stability intervals for the weighted sum is that of O'Shea and
others, Weight stability intervals for multi-criteria decision analysis using the weighted sum
model, Expert Systems with Applications 296, 2026 (abstract seen). Moving one weight so is a
straight line through the triangle, so the interval is that line, cut like any other region.
"""

from __future__ import annotations

from fractions import Fraction

from witnessmark.weighing.field import Field
from witnessmark.weighing.option import CRITERIA
from witnessmark.weighing.simplex import ALL_WEIGHTS, Point, Region, weights_at

Interval = tuple[Fraction, Fraction]
"""The least and the greatest weight at which the result still stands."""


def stability_intervals(field: Field, *, at: Point) -> tuple[Interval, Interval, Interval]:
    """Give, for each of CRITERIA, the weights between which every winner stays a winner.

    At the ends of an interval the winners tie with another option. Where one weight is the whole,
    the others have no proportion to keep and share what it loses equally.
    """
    winners = field.winners(at)
    sides = [
        side
        for entrant in field.entrants
        if entrant.id in winners
        for side in entrant.sides_against(field)
    ]
    intervals = []
    for place in range(len(CRITERIA)):
        line = _line_through(at, place=place)
        for side in sides:
            line = line.clipped(side)
        reached = [weights_at(corner)[place] for corner in line.corners]
        intervals.append((min(reached), max(reached)))
    return intervals[0], intervals[1], intervals[2]


def _line_through(at: Point, *, place: int) -> Region:
    """Give the segment on which one weight runs from 0 to 1 and the others keep proportion."""
    others = list(at)
    others[place] = 0
    if not any(others):
        others = [1, 1, 1]
        others[place] = 0
    return Region(((others[0], others[1], others[2]), ALL_WEIGHTS.corners[place]))
