"""How far alpha could have come out otherwise, had other decisions been scored.

Whole decisions are drawn again with replacement, all units of a decision together, because several
options of one decision are not independent; where no decisions are named, single units are drawn.
Alpha is worked out anew from each draw, chance disagreement included. This is not Krippendorff's
own algorithm, which draws coincidences and holds the chance disagreement fixed.
Source: Efron and Tibshirani, An Introduction to the Bootstrap, 1993, percentile interval (memory).
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import floor
from typing import Final

from witnessmark.weighing.agreement.alpha import (
    Coincidences,
    Metric,
    alpha_of,
    coincidences_of,
    merged,
)

DRAWS: Final = 2000
"""With a dozen units another seed still moves the lower end by up to 0.05 (tried, no source)."""

TAIL: Final = Fraction(25, 1000)
"""What is cut off at either end: the interval holds 95 in 100 of the draws (common practice)."""

Units = Sequence[Sequence[Fraction]]
"""The units of one decision, each the scores given to it."""


@dataclass(frozen=True, slots=True)
class Resampled:
    """The ends of an interval, from how many draws, and in how many alpha had no meaning.

    The interval is None where there are fewer than two decisions, or no draw had a meaning.
    """

    interval: tuple[Fraction, Fraction] | None
    draws: int
    without_meaning: int


def resample_alpha(
    clusters: Sequence[Units], *, metric: Metric, seed: int, draws: int = DRAWS
) -> Resampled:
    """Give the interval of alpha when decisions are drawn anew; one seed gives one answer."""
    parts = [coincidences_of(units) for units in clusters]
    parts = [part for part in parts if part.total]
    if len(parts) <= 1:
        return Resampled(None, 0, 0)
    # Few decisions differ in how their scores met, so equal ones are counted, not added up singly.
    unlike = list({_key(part): part for part in parts}.values())
    number = {_key(part): place for place, part in enumerate(unlike)}
    kinds = [number[_key(part)] for part in parts]
    # Only random() is promised to give the same numbers in every version of Python.
    source = random.Random(seed)  # noqa: S311 - statistics, no secret
    found = []
    for _ in range(draws):
        drawn = Counter(kinds[floor(source.random() * len(parts))] for _ in parts)
        sample = merged([(unlike[kind], times) for kind, times in drawn.items()])
        found.append(alpha_of(sample, metric=metric))
    known = sorted(alpha for alpha in found if alpha is not None)
    ends = (_quantile(known, TAIL), _quantile(known, 1 - TAIL)) if known else None
    return Resampled(ends, draws, draws - len(known))


def _key(part: Coincidences) -> Hashable:
    return tuple(sorted(part.counts.items())), tuple(sorted(part.meetings.items()))


def _quantile(rising: Sequence[Fraction], part: Fraction) -> Fraction:
    """Give the value below which a part of a rising row lies, evenly between its members."""
    place, beyond = divmod(part * (len(rising) - 1), 1)
    if not beyond:
        return rising[place]
    return rising[place] + beyond * (rising[place + 1] - rising[place])
