"""The field: the options still in the running, their values on one whole-number scale."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from witnessmark.weighing.option import Option, Scores
from witnessmark.weighing.simplex import HalfPlane, Point, difference, dot
from witnessmark.weighing.weighting import Weighting

Values = tuple[int, int, int]
"""What an option's scores are worth on each of CRITERIA, times the scale of its field."""


@dataclass(frozen=True, slots=True)
class Entrant:
    """One option in the running, with the worth of its low, likely and high scores."""

    option: Option
    low: Values
    likely: Values
    high: Values

    @property
    def id(self) -> str:
        """Give the option's id."""
        return self.option.id

    def dominates(self, other: Entrant) -> bool:
        """Tell whether it is as good as another on every criterion and better on at least one."""
        gaps = difference(self.likely, other.likely)
        return min(gaps) >= 0 and max(gaps) > 0

    def sides_against(self, field: Field) -> Iterator[HalfPlane]:
        """Give, for each differing rival, the side of the weights where this one is no worse."""
        for rival in field.entrants:
            if rival.likely != self.likely:
                yield difference(self.likely, rival.likely)


@dataclass(frozen=True, slots=True)
class Field:
    """The options in the running, sorted by id, and how many parts make a value of one."""

    entrants: tuple[Entrant, ...]
    scale: int

    def value(self, entrant: Entrant, *, at: Point) -> Fraction:
        """Give an option's value at these weights, from its likely scores."""
        return Fraction(dot(entrant.likely, at), self.scale * sum(at))

    def winners(self, at: Point) -> tuple[str, ...]:
        """Give every option with the highest value at these weights, sorted by id."""
        worth = {entrant.id: dot(entrant.likely, at) for entrant in self.entrants}
        best = max(worth.values(), default=0)
        return tuple(name for name, value in worth.items() if value == best)


def line_up(options: Iterable[Option], *, weighting: Weighting) -> Field:
    """Give the field of these options, every score turned into what the policy says it is worth."""
    named = sorted(options, key=lambda option: option.id)
    worths = [
        tuple(_worths(scores, weighting) for scores in (option.lows, option.likelies, option.highs))
        for option in named
    ]
    scale = lcm(*(worth.denominator for three in worths for row in three for worth in row))
    return Field(
        tuple(
            Entrant(option, *(_scaled(row, scale) for row in three))
            for option, three in zip(named, worths, strict=True)
        ),
        scale,
    )


def _worths(scores: Scores, weighting: Weighting) -> Scores:
    if weighting.has_even_steps:
        return scores
    return (
        weighting.value_of(scores[0]),
        weighting.value_of(scores[1]),
        weighting.value_of(scores[2]),
    )


def _scaled(worths: Scores, scale: int) -> Values:
    first, second, third = worths
    return _parts(first, scale), _parts(second, scale), _parts(third, scale)


def _parts(worth: Fraction, scale: int) -> int:
    """A worth times a scale that its denominator divides; without making a Fraction of it."""
    return worth.numerator * (scale // worth.denominator)
