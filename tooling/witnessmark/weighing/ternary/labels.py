"""Where the labels of the map stand: inside their area, or beside the triangle with a line to it.

A label never comes near the mark of the museum's own weights, and no two labels overlap.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from witnessmark.weighing.ternary.spots import HEIGHT, UNIT, WIDTH, Box, Spot, is_inside

LETTER_WIDTH: Final = 26 * UNIT
LINE_HEIGHT: Final = 44 * UNIT
"""A text of 40 units, 13 pixels where the map is 320 wide, and a broad letter of it (tried)."""

LINE_SPACE: Final = LINE_HEIGHT + 8 * UNIT
"""From one label beside the triangle to the next."""

MARK_ROOM: Final = 30 * UNIT
"""How near a label may come to the mark."""

GAP: Final = 36 * UNIT
"""How far a label beside the triangle stands from it, level; square to the slanted side that is
still more than MARK_ROOM, so that it keeps off a mark on that side."""

STEPS: Final = 24
"""How finely an area is searched for a place, by its width and by its height."""


@dataclass(frozen=True, slots=True)
class Label:
    """A text centred in a box; `leader` is the line from the box to the area, None if inside it."""

    text: str
    box: Box
    leader: tuple[Spot, Spot] | None = None

    @property
    def centre(self) -> Spot:
        """Give where the middle of the text stands."""
        return self.box.centre


@dataclass(frozen=True, slots=True)
class Wanted:
    """A text to be placed, and the corners of the area it belongs to."""

    text: str
    outline: tuple[Spot, ...]

    def box_at(self, centre: Spot) -> Box:
        """Give the room the text takes there."""
        return Box.around(centre, width=LETTER_WIDTH * (len(self.text) + 1), height=LINE_HEIGHT)

    @property
    def middle(self) -> Spot:
        """Give the mean of the corners, which lies inside."""
        count = len(self.outline)
        return Spot(
            sum(spot.x for spot in self.outline) // count,
            sum(spot.y for spot in self.outline) // count,
        )


def place_labels(wanted: Sequence[Wanted], *, mark: Spot | None) -> tuple[Label, ...]:
    """Give every label its place, in the order given: the inner ones first, then those beside."""
    inside = [_inside(each, mark) for each in wanted]
    placed = [label for label in inside if label]
    found = []
    for each, inner in zip(wanted, inside, strict=True):
        label = inner or _beside(each, placed, mark)
        found.append(label)
        if inner is None:
            placed.append(label)
    return tuple(found)


def _inside(wanted: Wanted, mark: Spot | None) -> Label | None:
    """Give the place in the area nearest to its middle, None where the text does not fit."""
    for spot in _from_the_middle(wanted):
        box = wanted.box_at(spot)
        if box.is_within(wanted.outline) and not (mark and box.grown(MARK_ROOM).holds(mark)):
            return Label(wanted.text, box)
    return None


def _from_the_middle(wanted: Wanted) -> Iterator[Spot]:
    middle = wanted.middle
    yield middle
    raster = _raster(wanted.outline)
    yield from sorted(raster, key=lambda spot: (spot.squared_distance(middle), spot))


def _raster(outline: tuple[Spot, ...]) -> Iterator[Spot]:
    left, right = min(spot.x for spot in outline), max(spot.x for spot in outline)
    top, bottom = min(spot.y for spot in outline), max(spot.y for spot in outline)
    for across in range(1, STEPS):
        for down in range(1, STEPS):
            spot = Spot(
                left + (right - left) * across // STEPS, top + (bottom - top) * down // STEPS
            )
            if is_inside(spot, outline=outline):
                yield spot


def _beside(wanted: Wanted, placed: Sequence[Label], mark: Spot | None) -> Label:
    """Give the free place beside the triangle whose line is clear, and shortest.

    Where no line is clear, one that keeps off the mark is better than one that keeps off labels.
    """
    target = _target(wanted, mark)
    free = [
        _led(wanted, centre, target)
        for centre in _places_beside(wanted)
        if not any(wanted.box_at(centre).overlaps(label.box) for label in placed)
    ]

    def drawbacks(label: Label) -> tuple[bool, bool, int, Spot]:
        start, end = label.leader or (target, target)
        near_mark = mark is not None and Box.around(
            mark, width=2 * MARK_ROOM, height=2 * MARK_ROOM
        ).is_crossed(start, end)
        through = any(_collide(label, other) for other in placed)
        return near_mark, through, start.squared_distance(end), label.centre

    return min(free, key=drawbacks)


def _collide(label: Label, other: Label) -> bool:
    """Tell whether the line of one of two labels runs through the text of the other."""
    ours = label.leader is not None and other.box.is_crossed(*label.leader)
    return ours or (other.leader is not None and label.box.is_crossed(*other.leader))


def _target(wanted: Wanted, mark: Spot | None) -> Spot:
    """Give the spot in the area a line leads to: its middle, unless that is too near the mark."""
    middle = wanted.middle
    if mark is None or middle.squared_distance(mark) > (2 * MARK_ROOM) ** 2:
        return middle
    towards = (middle.towards(corner, part=Fraction(3, 4)) for corner in wanted.outline)
    return max(towards, key=lambda spot: (spot.squared_distance(mark), spot))


def _places_beside(wanted: Wanted) -> Iterator[Spot]:
    """Give the middles of places down both slanted sides, clear of the triangle."""
    box = wanted.box_at(Spot(0, 0))
    half = box.right
    for down in range(LINE_SPACE, HEIGHT, LINE_SPACE):
        # At the foot of the box the triangle is widest.
        edge = WIDTH * (HEIGHT - down - box.bottom) // (2 * HEIGHT)
        for centre in (edge - GAP - half, WIDTH - edge + GAP + half):
            yield Spot(centre, down)


def _led(wanted: Wanted, centre: Spot, target: Spot) -> Label:
    box = wanted.box_at(centre)
    side = box.right if centre.x < target.x else box.left
    return Label(wanted.text, box, (Spot(side, centre.y), target))
