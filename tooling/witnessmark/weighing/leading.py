"""The values at the policy's weights and who leads, for those who need no more than that."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from witnessmark.errors import WitnessmarkError
from witnessmark.weighing.field import line_up
from witnessmark.weighing.option import Option
from witnessmark.weighing.simplex import point_of
from witnessmark.weighing.weighting import Weighting


@dataclass(frozen=True, slots=True)
class Leading:
    """Every option with the highest value, sorted by id, and the value of each option."""

    winner: tuple[str, ...]
    values: Mapping[str, Fraction]


def who_leads(
    options: Iterable[Option], *, weighting: Weighting, set_aside: Collection[str] = ()
) -> Leading:
    """Give the values and the winners that `weigh` gives, in a small part of its time.

    Raises:
        WitnessmarkError: the policy has no weights.

    """
    if weighting.weights is None:
        raise WitnessmarkError(
            "There are no weights, so no option leads.", remedy="Give the policy's weights."
        )
    at = point_of(weighting.weights)
    field = line_up(options, weighting=weighting)
    values = {entrant.id: field.value(entrant, at=at) for entrant in field.entrants}
    running = {name: value for name, value in values.items() if name not in set_aside}
    best = max(running.values(), default=Fraction(0))
    return Leading(tuple(name for name, value in running.items() if value == best), values)
