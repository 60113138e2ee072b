"""The smallest change of one score, in whole steps, that would make another option win."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from witnessmark.weighing.field import Entrant, Field
from witnessmark.weighing.option import CRITERIA, HIGHEST_LEVEL, LOWEST_LEVEL
from witnessmark.weighing.simplex import point_of
from witnessmark.weighing.weighting import Weighting


@dataclass(frozen=True, slots=True)
class Flip:
    """One likely score that, changed so, makes an option win that does not win now."""

    option: str
    criterion: str
    before: Fraction
    after: Fraction

    @property
    def steps(self) -> int:
        """Give how many whole steps the score moves."""
        return int(abs(self.after - self.before))


def smallest_flips(field: Field, *, weighting: Weighting) -> tuple[Flip, ...]:
    """Give every change of the fewest whole steps after which no present winner is among the best.

    A score moves by whole steps and stays within 0 to 4. A winner lowered below a floor it stood on
    is out of the running, so that counts as well. Empty where no single score can do it.
    """
    if weighting.weights is None:
        return ()
    at = point_of(weighting.weights)
    values = {entrant.id: field.value(entrant, at=at) for entrant in field.entrants}
    for steps in range(1, int(HIGHEST_LEVEL) + 1):
        flips = tuple(_flips(field.entrants, values, weighting=weighting, steps=steps))
        if flips:
            return flips
    return ()


def _flips(
    entrants: Sequence[Entrant],
    values: Mapping[str, Fraction],
    *,
    weighting: Weighting,
    steps: int,
) -> Iterator[Flip]:
    best = max(values.values(), default=Fraction(0))
    winners = [name for name, value in values.items() if value == best]
    for entrant in entrants:
        gap = best - values[entrant.id]
        if gap:
            yield from _raised(entrant, to_pass=gap, weighting=weighting, steps=steps)
        elif len(winners) == 1 and len(entrants) > 1:
            runner_up = max(value for name, value in values.items() if name != entrant.id)
            yield from _lowered(entrant, lead=best - runner_up, weighting=weighting, steps=steps)


def _raised(
    entrant: Entrant, *, to_pass: Fraction, weighting: Weighting, steps: int
) -> Iterator[Flip]:
    for place, before in enumerate(entrant.option.likelies):
        after = before + steps
        if after <= HIGHEST_LEVEL and _gain(place, before, after, weighting=weighting) > to_pass:
            yield Flip(entrant.id, CRITERIA[place], before, after)


def _lowered(
    entrant: Entrant, *, lead: Fraction, weighting: Weighting, steps: int
) -> Iterator[Flip]:
    for place, before in enumerate(entrant.option.likelies):
        after = before - steps
        if after < LOWEST_LEVEL:
            continue
        loss = _gain(place, after, before, weighting=weighting)
        if loss > lead or _falls_through(weighting.floors[place], before=before, after=after):
            yield Flip(entrant.id, CRITERIA[place], before, after)


def _gain(place: int, low: Fraction, high: Fraction, *, weighting: Weighting) -> Fraction:
    """Give what a rise of one score adds to the value."""
    weight = weighting.weights[place] if weighting.weights else Fraction(0)
    if weighting.has_even_steps:
        return weight * (high - low)
    return weight * (weighting.value_of(high) - weighting.value_of(low))


def _falls_through(floor: Fraction | None, *, before: Fraction, after: Fraction) -> bool:
    return floor is not None and after < floor <= before
