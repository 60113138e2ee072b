"""Which of many earlier decisions may be near one, told quickly, before anything exact is reckoned.

Likeness is exact elsewhere; among thousands of decisions nearly all pairs are far apart, and
fractions of them all would take minutes. Here words are bits of a whole number and levels floats,
decisions with the same words are looked at together, and a pair is given up as soon as what is
left to compare could not bring it near.
"""

from __future__ import annotations

from bisect import insort
from collections.abc import Iterator, Sequence
from fractions import Fraction

from witnessmark.weighing.option import HIGHEST_LEVEL
from witnessmark.weighing.precedents import Comparing, Feature, Portrait

_SLACK = 1e-9
"""Far above what rounding can do to a sum of a few features, far below what anybody would see."""

Words = tuple[int | None, ...]
"""The words of each feature that has words, as bits; None where nothing is known."""

Levels = tuple[float | None, ...]
"""The level on each feature that has one, as a part of the scale; None where nothing is known."""


class LikelyNear:
    """Decisions seen so far; it grows while the decisions of a museum pass in order of time."""

    def __init__(self, features: Sequence[Feature]) -> None:
        self._worded = [f for f in features if f.comparing is not Comparing.LEVEL]
        self._levelled = [f for f in features if f.comparing is Comparing.LEVEL]
        self._weights = [float(feature.weight) for feature in self._worded]
        self._level_weights = [float(feature.weight) for feature in self._levelled]
        self._bits: dict[tuple[str, str], int] = {}
        self._seen: dict[Words, dict[Levels, list[str]]] = {}

    def add(self, name: str, portrait: Portrait) -> None:
        """Remember a decision."""
        alike = self._seen.setdefault(self._words(portrait), {})
        insort(alike.setdefault(self._levels(portrait), []), name)

    def near(self, portrait: Portrait, *, at_least: Fraction, most: int) -> list[str]:
        """Every decision seen that is as like as this, and perhaps one that is a hair less.

        Of decisions that are alike in all that is compared, only so many as are wanted in all, the
        first by name, as they would be ranked.
        """
        least = float(at_least) - _SLACK
        groups = self._near(self._words(portrait), self._levels(portrait), least)
        return [name for names in groups for name in names[:most]]

    def _near(self, words: Words, levels: Levels, least: float) -> Iterator[list[str]]:
        for others, decisions in self._seen.items():
            found = self._compared(words, others, least)
            if found is None:
                continue
            for there, names in decisions.items():
                alike, compared = found
                for weight, one, other in zip(self._level_weights, levels, there, strict=True):
                    if one is not None and other is not None:
                        alike += weight * (1 - abs(one - other))
                        compared += weight
                if compared and alike >= least * compared:
                    yield names

    def _compared(self, words: Words, others: Words, least: float) -> tuple[float, float] | None:
        """How much is alike and how much is compared by words; None where that cannot be enough."""
        alike = compared = 0.0
        left = sum(self._weights) + sum(self._level_weights)
        for weight, one, other in zip(self._weights, words, others, strict=True):
            left -= weight
            if one is not None and other is not None and (either := one | other):
                alike += weight * (one & other).bit_count() / either.bit_count()
                compared += weight
            # All that is left, alike to the full, is the most that can still come.
            if alike + left < least * (compared + left):
                return None
        return alike, compared

    def _words(self, portrait: Portrait) -> Words:
        return tuple(self._in_bits(feature.name, portrait) for feature in self._worded)

    def _in_bits(self, name: str, portrait: Portrait) -> int | None:
        """The words of a feature, each a bit; a single word is a set of one."""
        trait = portrait.get(name)
        if trait is None or isinstance(trait, Fraction):
            return None
        found = 0
        for word in {trait} if isinstance(trait, str) else trait:
            found |= 1 << self._bits.setdefault((name, word), len(self._bits))
        return found

    def _levels(self, portrait: Portrait) -> Levels:
        traits = (portrait.get(feature.name) for feature in self._levelled)
        return tuple(
            float(trait / HIGHEST_LEVEL) if isinstance(trait, Fraction) else None
            for trait in traits
        )
