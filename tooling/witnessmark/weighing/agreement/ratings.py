"""Ratings: who gave which score to what, and for which decision."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True, order=True)
class Rating:
    """One score by one rater; a unit is whatever they were all asked to score."""

    unit: str
    rater: str
    score: Fraction
    decision: str | None = None


@dataclass(frozen=True, slots=True)
class Ratings:
    """Ratings sorted by unit and rater, at most one a rater and unit; a missing score is absent.

    Each unit belongs to one decision, or to none.
    """

    every: tuple[Rating, ...]

    @classmethod
    def of(cls, ratings: Iterable[Rating]) -> Ratings:
        """Give these ratings in their one order."""
        return cls(tuple(sorted(ratings, key=lambda rating: (rating.unit, rating.rater))))

    @property
    def raters(self) -> tuple[str, ...]:
        """Give everybody who scored anything."""
        return tuple(sorted({rating.rater for rating in self.every}))

    @property
    def units(self) -> Mapping[str, tuple[Fraction, ...]]:
        """Give the scores of each unit, in the order of its raters."""
        scores: dict[str, list[Fraction]] = {}
        for rating in self.every:
            scores.setdefault(rating.unit, []).append(rating.score)
        return {unit: tuple(given) for unit, given in scores.items()}

    @property
    def is_clustered(self) -> bool:
        """Tell whether units belong to decisions."""
        return any(rating.decision is not None for rating in self.every)

    @property
    def clusters(self) -> tuple[tuple[tuple[Fraction, ...], ...], ...]:
        """Give the scores of the units of each decision; a unit without one stands alone."""
        units = self.units
        homes = {rating.unit: rating.decision for rating in self.every}
        by_home: dict[tuple[bool, str], list[tuple[Fraction, ...]]] = {}
        for unit, scores in units.items():
            home = homes[unit]
            key = (True, unit) if home is None else (False, home)
            by_home.setdefault(key, []).append(scores)
        return tuple(tuple(by_home[key]) for key in sorted(by_home))

    @property
    def pairs(self) -> tuple[tuple[Fraction, Fraction], ...]:
        """Give both scores of every unit that two raters scored; empty unless there are two."""
        if len(self.raters) != 2:  # noqa: PLR2004 - a pair
            return ()
        return tuple((given[0], given[1]) for given in self.units.values() if len(given) > 1)
