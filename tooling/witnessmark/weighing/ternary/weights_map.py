"""The areas of the map, the policy's ranges on it, and the mark of the museum's own weights.

The map is a triangle: only authenticity counts at the lower left, only safety at the lower right,
only reversibility at the top. Points are worked out exactly and rounded once, so that neighbours
share their corners and no gap opens between them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import chain

from witnessmark.weighing.option import Weights
from witnessmark.weighing.partition import Partition, Territory
from witnessmark.weighing.simplex import ALL_WEIGHTS
from witnessmark.weighing.ternary.labels import Label, Wanted, place_labels
from witnessmark.weighing.ternary.spots import HEIGHT, WIDTH, Box, Spot, outline_of, spot_of
from witnessmark.weighing.weigh import Weighing


@dataclass(frozen=True, slots=True)
class Area:
    """Where one option leads, or several that score the same.

    `outline` is the corners of a polygon in turn, `allowed` those of the part of it within the
    policy's ranges: two for a segment, one for a point, none where there is no such part.
    """

    members: tuple[str, ...]
    outline: tuple[Spot, ...]
    allowed: tuple[Spot, ...]
    label: Label
    leads: bool


@dataclass(frozen=True, slots=True)
class TernaryMap:
    """Everything a drawing of the map needs; an option that never leads alone has no area.

    `corners` stand in the order of CRITERIA, each where that criterion alone counts. `mark` is at
    the policy's weights, None without. `policy` is the outline of the ranges: two spots for a
    segment, one for a point, none without ranges. Triangle and labels lie within `frame`.
    """

    frame: Box
    corners: tuple[Spot, ...]
    areas: tuple[Area, ...]
    policy: tuple[Spot, ...]
    mark: Spot | None

    def area_of(self, option: str) -> Area | None:
        """Give where an option leads, None where it does nowhere."""
        return next((area for area in self.areas if option in area.members), None)


def ternary_map(
    weighing: Weighing, *, weights: Weights | None, labels: Mapping[str, str]
) -> TernaryMap | None:
    """Give the map of a weighing, None where the same option leads at all weights.

    `weights` are the policy's; `labels` give each option a letter or a word or two.
    """
    territories = [place for place in weighing.all_weights.territories if place.share]
    if len(territories) <= 1:
        return None
    mark = None if weights is None else spot_of(weights)
    wanted = [Wanted(_text(place, labels), outline_of(place.region)) for place in territories]
    placed = place_labels(wanted, mark=mark)
    winners = set(weighing.winner or ())
    areas = [
        Area(
            place.members,
            outline_of(place.region),
            _allowed(place, weighing.policy),
            label,
            bool(winners.intersection(place.members)),
        )
        for place, label in zip(territories, placed, strict=True)
    ]
    return TernaryMap(
        frame=_frame([label.box for label in placed]),
        corners=outline_of(ALL_WEIGHTS),
        areas=tuple(areas),
        policy=() if weighing.policy is None else outline_of(weighing.policy.domain),
        mark=mark,
    )


def _text(territory: Territory, labels: Mapping[str, str]) -> str:
    return ", ".join(labels.get(member, member) for member in territory.members)


def _allowed(territory: Territory, policy: Partition | None) -> tuple[Spot, ...]:
    if policy is None:
        return ()
    return outline_of(policy.of(territory.members[0]).region)


def _frame(boxes: list[Box]) -> Box:
    """Give the least box around the triangle and every label."""
    corners = list(chain.from_iterable(box.corners for box in boxes))
    return Box(
        min(0, *(corner.x for corner in corners)),
        min(0, *(corner.y for corner in corners)),
        max(WIDTH, *(corner.x for corner in corners)),
        max(HEIGHT, *(corner.y for corner in corners)),
    )
