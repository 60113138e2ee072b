"""Who wins where: the weights divided among the options, exactly."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from witnessmark.weighing.field import Entrant, Field
from witnessmark.weighing.option import Weights
from witnessmark.weighing.simplex import Region, dot
from witnessmark.weighing.words import Standing


@dataclass(frozen=True, slots=True)
class Territory:
    """The weights at which an option is best, shared by all that are equal to it throughout.

    The share is of the region divided up: by area, by length where that is a segment, and None
    where it is a single point.
    """

    members: tuple[str, ...]
    region: Region
    share: Fraction | None

    @property
    def central_weights(self) -> Weights | None:
        """Give the mean of the weights that favour it, None where they have no extent."""
        return None if self.share == 0 else self.region.centroid


@dataclass(frozen=True, slots=True)
class Partition:
    """A region of weights and the territories in it, in order of their first members."""

    domain: Region
    territories: tuple[Territory, ...]

    def of(self, option: str) -> Territory:
        """Give the territory of one option."""
        return next(place for place in self.territories if option in place.members)


def partition_of(field: Field, *, domain: Region) -> Partition:
    """Give every option's territory in a region; the shares add up to exactly 1."""
    territories = []
    for group in equals_throughout(field, domain=domain):
        region = domain
        for side in group[0].sides_against(field):
            region = region.clipped(side)
        members = tuple(entrant.id for entrant in group)
        territories.append(Territory(members, region, region.share_of(domain)))
    return Partition(domain, tuple(territories))


def equals_throughout(field: Field, *, domain: Region) -> list[list[Entrant]]:
    """Give the options in groups that are worth the same at all weights of a region.

    Two options are worth the same throughout a convex region when they are at its corners. In a
    region with area only equal scores do that; on a segment, options can tie all along it.
    """
    groups: dict[tuple[int, ...], list[Entrant]] = {}
    for entrant in field.entrants:
        worths = tuple(dot(entrant.likely, corner) for corner in domain.corners)
        groups.setdefault(worths, []).append(entrant)
    return list(groups.values())


def dominators(entrant: Entrant, *, field: Field) -> tuple[str, ...]:
    """Give the options that are as good on every criterion and better on one, by likely scores."""
    return tuple(other.id for other in field.entrants if other.dominates(entrant))


def standing_of(
    territory: Territory, *, is_winner: bool, dominated_by: tuple[str, ...]
) -> Standing:
    """Give the word for how an option stands, from its territory among all weights.

    An option that ties for best somewhere is touching, even where another dominates it.
    """
    if is_winner:
        return Standing.BEST
    if territory.share:
        return Standing.SUPPORTED
    if not territory.region.is_empty:
        return Standing.TOUCHING
    return Standing.DOMINATED if dominated_by else Standing.UNSUPPORTED
