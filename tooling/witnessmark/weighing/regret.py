"""The most value an option could cost, compared with the best one, within the policy's ranges."""

from __future__ import annotations

from fractions import Fraction

from witnessmark.weighing.field import Field
from witnessmark.weighing.simplex import Region, dot


def greatest_regrets(field: Field, *, domain: Region) -> dict[str, Fraction]:
    """Give each option's greatest shortfall in a region, from likely scores.

    The shortfall is the highest of several linear functions, so a corner has the greatest of it.
    """
    regrets = {entrant.id: Fraction(0) for entrant in field.entrants}
    for corner in domain.corners:
        worths = {entrant.id: dot(entrant.likely, corner) for entrant in field.entrants}
        best = max(worths.values(), default=0)
        for name, worth in worths.items():
            regret = Fraction(best - worth, field.scale * sum(corner))
            regrets[name] = max(regrets[name], regret)
    return regrets
