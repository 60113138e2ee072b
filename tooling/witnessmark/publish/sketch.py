"""Which of many earlier decisions may be near one, told quickly, before anything exact is reckoned.

Likeness is exact elsewhere; among thousands of decisions nearly all pairs are far apart, and
fractions of them all would take minutes. Here words are bits of a whole number, and levels floats.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from witnessmark.weighing.option import HIGHEST_LEVEL
from witnessmark.weighing.precedents import Feature, Portrait, Trait

_SLACK = 1e-9
"""Far above what rounding can do to a sum of a few features, far below what anybody would see."""

Traits = tuple[int | float | None, ...]
"""One trait for each feature: words as bits, a level as a share of the scale, None if unknown."""


class Sketches:
    """Decisions seen so far; it grows while the decisions of a museum pass in order of time."""

    def __init__(self, features: Sequence[Feature]) -> None:
        self._weights = [float(feature.weight) for feature in features]
        self._names = [feature.name for feature in features]
        self._bits: dict[str, int] = {}
        self._seen: list[tuple[str, Traits]] = []

    def add(self, name: str, portrait: Portrait) -> None:
        """Remember a decision."""
        self._seen.append((name, self._traits(portrait)))

    def near(self, portrait: Portrait, *, at_least: Fraction) -> list[str]:
        """Every decision seen that is as like as this, and perhaps one that is a hair less."""
        wanted, least = self._traits(portrait), float(at_least) - _SLACK
        return [name for name, traits in self._seen if self._reaches(wanted, traits, least)]

    def _reaches(self, one: Traits, other: Traits, least: float) -> bool:
        alike = compared = 0.0
        for weight, here, there in zip(self._weights, one, other, strict=True):
            if here is None or there is None:
                continue
            if isinstance(here, float):
                alike += weight * (1 - abs(here - there))
            elif isinstance(there, int):
                both = here | there
                if not both:
                    continue
                alike += weight * (here & there).bit_count() / both.bit_count()
            compared += weight
        return alike >= least * compared and compared > 0

    def _traits(self, portrait: Portrait) -> Traits:
        return tuple(self._trait(name, portrait.get(name)) for name in self._names)

    def _trait(self, name: str, trait: Trait) -> int | float | None:
        """Words as bits, each word of a feature its own; one word is a set of one."""
        if trait is None:
            return None
        if isinstance(trait, Fraction):
            return float(trait / HIGHEST_LEVEL)
        words = {trait} if isinstance(trait, str) else trait
        found = 0
        for word in words:
            found |= 1 << self._bits.setdefault(f"{name}: {word}", len(self._bits))
        return found
