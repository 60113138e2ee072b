"""How often an option comes first, second, third: its rank acceptabilities.

Source: Lahdelma and Salminen, SMAA-2, Operations Research 49(3), 2001, pp. 444-454 (formulas from
memory). There ties give two firsts; here tied options share their ranks equally, so that every
row and every column adds up to 1.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, groupby

from witnessmark.weighing.field import Entrant, Field
from witnessmark.weighing.partition import equals_throughout
from witnessmark.weighing.simplex import Point, Region, difference, dot


def rank_acceptabilities(field: Field, *, domain: Region) -> dict[str, tuple[Fraction, ...]]:
    """Give each option's share of the weights at which it is first, second, and so on."""
    ranks = {entrant.id: [Fraction(0)] * len(field.entrants) for entrant in field.entrants}
    for cell in _cells(field, domain):
        share = cell.share_of(domain)
        # A region of one point has no extent to share out; its one order counts for everything.
        _add_order(ranks, field, at=cell.inner_point, share=Fraction(1) if share is None else share)
    return {name: tuple(row) for name, row in ranks.items()}


def _cells(field: Field, domain: Region) -> list[Region]:
    """Give the pieces of a region within which the order of the options never changes."""
    cells = [domain]
    for one, other in combinations(equals_throughout(field, domain=domain), 2):
        line = difference(one[0].likely, other[0].likely)
        cells = [half for cell in cells for half in cell.halves(line)]
    return cells


def _add_order(
    ranks: dict[str, list[Fraction]], field: Field, *, at: Point, share: Fraction
) -> None:
    def worth(entrant: Entrant) -> int:
        return -dot(entrant.likely, at)

    place = 0
    for _, equals in groupby(sorted(field.entrants, key=worth), key=worth):
        tied = list(equals)
        for entrant in tied:
            for rank in range(place, place + len(tied)):
                ranks[entrant.id][rank] += share / len(tied)
        place += len(tied)
