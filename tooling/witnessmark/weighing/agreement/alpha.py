"""Krippendorff's alpha: agreement among any number of raters, gaps allowed.

Source: Krippendorff, Computing Krippendorff's alpha-reliability, 2011 (formula from memory; its
example is reproduced in the tests). Alpha is 1 less the disagreement within units over that
between all scores whatever their unit. Between ordinal levels the distance is the number of scores
from the middle of one level to the middle of the other, so it is a distance between places on a
line, and the ordinal and interval figures differ only in where on the line a level stands.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from itertools import combinations
from typing import Final

Pair = tuple[Fraction, Fraction]
"""Two different scores, the lower first."""

FEWEST_TO_COMPARE: Final = 2
"""A unit with a single score says nothing about agreement."""


class Metric(Enum):
    """What a score is taken for: a mere name, a level in an order, or a measure."""

    NOMINAL = "nominal"
    ORDINAL = "ordinal"
    INTERVAL = "interval"


@dataclass(frozen=True, slots=True)
class Coincidences:
    """How often each score was given where it can be compared, and how often two scores met.

    A meeting in a unit with m scores counts for 1 / (m - 1), so that each score counts once.
    """

    counts: Mapping[Fraction, int]
    meetings: Mapping[Pair, Fraction]

    @property
    def total(self) -> int:
        """Give the number of scores that can be compared."""
        return sum(self.counts.values())


def coincidences_of(units: Iterable[Sequence[Fraction]]) -> Coincidences:
    """Give the coincidences in these units, units with fewer than two scores left out."""
    counts: Counter[Fraction] = Counter()
    meetings: dict[Pair, Fraction] = {}
    for scores in units:
        if len(scores) < FEWEST_TO_COMPARE:
            continue
        here = Counter(scores)
        counts.update(here)
        for low, high in combinations(sorted(here), 2):
            met = Fraction(here[low] * here[high], len(scores) - 1)
            meetings[low, high] = meetings.get((low, high), Fraction(0)) + met
    return Coincidences(counts, meetings)


def merged(parts: Sequence[tuple[Coincidences, int]]) -> Coincidences:
    """Give the coincidences of several sets of units, each taken a number of times."""
    counts: Counter[Fraction] = Counter()
    meetings: dict[Pair, Fraction] = {}
    for part, times in parts:
        for score, count in part.counts.items():
            counts[score] += count * times
        for pair, met in part.meetings.items():
            meetings[pair] = meetings.get(pair, Fraction(0)) + met * times
    return Coincidences(counts, meetings)


def krippendorff_alpha(units: Iterable[Sequence[Fraction]], *, metric: Metric) -> Fraction | None:
    """Give alpha exactly, None where no two scores differ and it has no meaning.

    Each unit is the scores given to it, in any order.
    """
    return alpha_of(coincidences_of(units), metric=metric)


def alpha_of(coincidences: Coincidences, *, metric: Metric) -> Fraction | None:
    """Give alpha from coincidences, None where it has no meaning."""
    counts, meetings = coincidences.counts, coincidences.meetings
    total = coincidences.total
    if metric is Metric.NOMINAL:
        within = sum(meetings.values(), Fraction(0))
        between = Fraction(total * total - sum(count * count for count in counts.values())) / 2
    else:
        places = _places(counts, metric=metric)
        within = sum(
            (met * (places[high] - places[low]) ** 2 for (low, high), met in meetings.items()),
            Fraction(0),
        )
        between = _spread(counts, places)
    return 1 - (total - 1) * within / between if between else None


def _places(counts: Mapping[Fraction, int], *, metric: Metric) -> Mapping[Fraction, Fraction]:
    """Give where each level stands: at its own number, or in the middle of its scores in order."""
    if metric is Metric.INTERVAL:
        return {score: score for score in counts}
    places, below = {}, 0
    for score in sorted(counts):
        places[score] = below + Fraction(counts[score], 2)
        below += counts[score]
    return places


def _spread(counts: Mapping[Fraction, int], places: Mapping[Fraction, Fraction]) -> Fraction:
    """Give the sum of squared distances over all pairs of scores."""
    total, line, square = 0, Fraction(0), Fraction(0)
    for score, count in counts.items():
        total += count
        line += count * places[score]
        square += count * places[score] ** 2
    return total * square - line * line
