"""Where an option leads, when a single weight tells it."""

from __future__ import annotations

from fractions import Fraction

from witnessmark.weighing.option import CRITERIA
from witnessmark.weighing.partition import Partition
from witnessmark.weighing.sentences.amounts import part_of_weight
from witnessmark.weighing.simplex import HalfPlane, weights_at


def bound_in_words(partition: Partition, *, option: str) -> str | None:
    """Give the one weight that decides whether an option leads, None where it takes more.

    The words are used only where they are exactly true: the option's territory is all of the
    region on one side of that weight, or between two of its sizes.
    """
    found = [_bound(partition, option, place) for place in range(len(CRITERIA))]
    phrases = [phrase for phrase in found if phrase]
    # One limit reads more easily than two.
    return min(phrases, key=lambda phrase: " between " in phrase, default=None)


def _bound(partition: Partition, option: str, place: int) -> str | None:
    region, domain = partition.of(option).region, partition.domain
    if not region.size:
        return None
    low, high = _reach([weights_at(corner)[place] for corner in region.corners])
    least, greatest = _reach([weights_at(corner)[place] for corner in domain.corners])
    band = domain.clipped(_at_least(low, place, 1)).clipped(_at_least(high, place, -1))
    if (low, high) == (least, greatest) or band.size != region.size:
        return None
    criterion = CRITERIA[place]
    if high == greatest:
        return f"stops leading only if {criterion} counts for less than {part_of_weight(low)}"
    if low == least:
        return f"stops leading only if {criterion} counts for more than {part_of_weight(high)}"
    ends = part_of_weight(low), part_of_weight(high)
    if ends[0] == ends[1]:
        return None
    return f"leads only while {criterion} counts for between {ends[0]} and {ends[1]}"


def _reach(weights: list[Fraction]) -> tuple[Fraction, Fraction]:
    return min(weights), max(weights)


def _at_least(bound: Fraction, place: int, sign: int) -> HalfPlane:
    """Give the side where a weight is at least a bound, or at most with the sign -1."""
    side = [-sign * bound.numerator] * 3
    side[place] += sign * bound.denominator
    return side[0], side[1], side[2]
