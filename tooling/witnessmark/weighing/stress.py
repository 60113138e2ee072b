"""Whether the result leans on what the steps between levels are worth, or on adding at all.

Levels are an order; that 4 is as far above 3 as 1 is above 0 is the policy's choice. The options
are weighed again with other choices, and also by their worst score alone, where nothing is traded.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction

from witnessmark.weighing.field import line_up
from witnessmark.weighing.option import Option
from witnessmark.weighing.partition import partition_of
from witnessmark.weighing.simplex import ALL_WEIGHTS, point_of
from witnessmark.weighing.weighting import EVEN_STEPS, LevelValues, Weighting


class Steps(Enum):
    """What the levels 0 to 4 might be worth; chosen for this test (common practice, no source)."""

    EVEN = EVEN_STEPS
    TOP_HEAVY = (Fraction(0), Fraction(1, 2), Fraction(4, 3), Fraction(5, 2), Fraction(4))
    BOTTOM_HEAVY = (Fraction(0), Fraction(3, 2), Fraction(8, 3), Fraction(7, 2), Fraction(4))
    SQUARES = (Fraction(0), Fraction(1, 4), Fraction(1), Fraction(9, 4), Fraction(4))

    @property
    def in_words(self) -> str:
        """Give what choosing these steps means."""
        return _IN_WORDS[self]


_IN_WORDS = {
    Steps.EVEN: "every step is worth the same",
    Steps.TOP_HEAVY: "each step is worth more than the one below it",
    Steps.BOTTOM_HEAVY: "each step is worth less than the one below it",
    Steps.SQUARES: "the highest steps are worth by far the most",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Stressed:
    """How the options come out when the levels are worth this much.

    `winner` holds every option with the highest value, and is None without weights; `changes` tells
    whether that is another result than with the policy's own level values. `shares` are of all
    weights.
    """

    steps: Steps
    winner: tuple[str, ...] | None
    changes: bool
    values: Mapping[str, Fraction]
    shares: Mapping[str, Fraction | None]

    @property
    def level_values(self) -> LevelValues:
        """Give what the levels 0 to 4 are worth here."""
        return self.steps.value


def stress_levels(
    options: Sequence[Option], *, weighting: Weighting, set_aside: Collection[str] = ()
) -> tuple[Stressed, ...]:
    """Give how the options not set aside come out under each choice of steps."""
    running = [option for option in options if option.id not in set_aside]
    usual = _winner(running, weighting)
    return tuple(
        _stressed(running, steps, replace(weighting, level_values=steps.value), usual)
        for steps in Steps
    )


def best_worst_scores(
    options: Sequence[Option], *, set_aside: Collection[str] = ()
) -> tuple[str, ...]:
    """Give the options whose lowest likely score is the highest, sorted by id.

    No weights and no level values matter here: no strength makes up for a weakness.
    """
    worst = {o.id: min(o.likelies) for o in options if o.id not in set_aside}
    best = max(worst.values(), default=Fraction(0))
    return tuple(sorted(name for name, score in worst.items() if score == best))


def _winner(running: Sequence[Option], weighting: Weighting) -> tuple[str, ...] | None:
    if weighting.weights is None:
        return None
    return line_up(running, weighting=weighting).winners(point_of(weighting.weights))


def _stressed(
    running: Sequence[Option],
    steps: Steps,
    weighting: Weighting,
    usual: tuple[str, ...] | None,
) -> Stressed:
    field = line_up(running, weighting=weighting)
    winner = _winner(running, weighting)
    at = None if weighting.weights is None else point_of(weighting.weights)
    partition = partition_of(field, domain=ALL_WEIGHTS)
    return Stressed(
        steps=steps,
        winner=winner,
        changes=winner != usual,
        values={} if at is None else {e.id: field.value(e, at=at) for e in field.entrants},
        shares={entrant.id: partition.of(entrant.id).share for entrant in field.entrants},
    )
