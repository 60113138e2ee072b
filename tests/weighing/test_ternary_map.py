"""The map of all weights, checked against the winner at sampled weights and against shapely.

The drawing itself is tested where it is drawn; here its geometry. Sizes of text are the project's
own estimates.
"""

from __future__ import annotations

import random
from fractions import Fraction

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from witnessmark.weighing import Option, Range, Ranges, Weighting, Weights, weigh, who_leads
from witnessmark.weighing.ternary import (
    MARK_ROOM,
    UNIT,
    Area,
    Box,
    Spot,
    TernaryMap,
    spot_of,
    ternary_map,
)

F = Fraction
Scores = dict[str, tuple[int, int, int]]

S3 = {"a": (4, 0, 0), "b": (0, 4, 0), "c": (0, 0, 4), "m": (2, 2, 2)}
S5 = {
    "keep": (4, 1, 4),
    "rebush": (3, 3, 3),
    "rolling": (1, 4, 1),
    "sleeve": (2, 3, 3),
    "nothing": (4, 0, 4),
}
S6 = {"rebush": (3, 3, 2), "rolling": (1, 4, 1), "shim": (3, 2, 3), "keep": (4, 1, 3)}
RUNNING: Ranges = ((F(1, 5), F(1, 2)), (F(3, 10), F(3, 5)), (F(1, 10), F(2, 5)))
WEIGHTS: Weights = (F(7, 20), F(2, 5), F(1, 4))


def options_of(scores: Scores) -> list[Option]:
    return [
        Option(name, (Range.certain(F(a)), Range.certain(F(s)), Range.certain(F(r))))
        for name, (a, s, r) in scores.items()
    ]


def map_of(
    scores: Scores, *, weights: Weights | None = WEIGHTS, ranges: Ranges | None = RUNNING
) -> TernaryMap | None:
    weighing = weigh(options_of(scores), weighting=Weighting(weights=weights, ranges=ranges))
    letters = {name: chr(ord("A") + place) for place, name in enumerate(scores)}
    return ternary_map(weighing, weights=weights, labels=letters)


def drawn(
    scores: Scores, *, weights: Weights | None = WEIGHTS, ranges: Ranges | None = RUNNING
) -> TernaryMap:
    found = map_of(scores, weights=weights, ranges=ranges)
    assert found is not None
    return found


def polygon(spots: tuple[Spot, ...]) -> shapely.Polygon:
    return shapely.Polygon([(spot.x / UNIT, spot.y / UNIT) for spot in spots])


def shape_of(box: Box) -> shapely.Geometry:
    return shapely.box(*(side / UNIT for side in (box.left, box.top, box.right, box.bottom)))


def point(spot: Spot) -> shapely.Point:
    return shapely.Point(spot.x / UNIT, spot.y / UNIT)


def test_each_corner_is_where_one_criterion_alone_counts() -> None:
    expected = ["0,866", "1000,866", "500,0"]
    assert expected == [str(corner) for corner in drawn(S5).corners]


def test_the_mark_is_at_the_policys_weights() -> None:
    # By hand: x = 1000 (2/5 + 1/8) = 525, y = 866 x 3/4 = 649.5.
    assert str(drawn(S6).mark) == "525,649.5"


def test_an_area_has_the_corners_worked_out_by_hand() -> None:
    # keep leads while the safety weight is at most 1/3, nothing else counting.
    area = drawn(S5).area_of("keep")
    assert area is not None
    expected = {"0,866", "333.33,866", "666.67,288.67", "500,0"}
    found = {str(spot) for spot in area.outline}
    # At a safety weight of 1/3 and no authenticity: x = 1000 (1/3 + 1/3), y = 866 / 3.
    assert expected == found


def test_the_policys_ranges_are_outlined() -> None:
    # The six corners of the ranges, placed by hand: x = 1000 (s + r / 2), y = 866 (1 - r).
    expected = {"650,779.4", "700,692.8", "600,519.6", "500,519.6", "400,692.8", "450,779.4"}
    assert expected == {str(spot) for spot in drawn(S6).policy}


def test_there_is_no_map_where_nothing_can_flip() -> None:
    assert map_of({"good": (4, 4, 4), "poor": (1, 1, 1)}) is None


def test_there_is_no_map_of_a_single_option() -> None:
    assert map_of({"only": (4, 4, 4)}) is None


def test_there_is_no_map_of_options_that_score_the_same() -> None:
    assert map_of({"one": (2, 2, 2), "two": (2, 2, 2)}) is None


def test_options_that_score_the_same_share_one_area_and_label() -> None:
    area = drawn({"a": (4, 1, 1), "b": (0, 3, 3), "a2": (4, 1, 1)}).area_of("a2")
    assert area is not None
    assert (("a", "a2"), "A, C") == (area.members, area.label.text)


def test_only_the_winners_area_leads() -> None:
    expected = {"rebush": True, "rolling": False, "shim": False, "keep": False}
    found = drawn(S6)
    assert expected == {name: leads(found.area_of(name)) for name in S6}


def leads(area: Area | None) -> bool:
    return area is not None and area.leads


def test_without_weights_there_is_no_mark() -> None:
    found = drawn(S6, weights=None)
    assert (None, False) == (found.mark, any(area.leads for area in found.areas))


def test_without_ranges_no_part_is_allowed_or_outlined() -> None:
    found = drawn(S6, ranges=None)
    assert ((), {()}) == (found.policy, {area.allowed for area in found.areas})


def test_the_part_of_an_area_the_policy_allows_has_its_share() -> None:
    found = drawn(S6)
    area = found.area_of("keep")
    assert area is not None
    share = polygon(area.allowed).area / polygon(found.policy).area
    # The exact share is 11/117.
    assert share == pytest.approx(11 / 117, abs=1e-4)


def test_an_option_without_an_area_is_not_on_the_map() -> None:
    assert drawn(S5).area_of("sleeve") is None


def check_map(found: TernaryMap, scores: Scores) -> None:
    """Check all that a drawing relies on: areas tile, labels fit, the mark is clear."""
    triangle = polygon(found.corners)
    areas = [polygon(area.outline) for area in found.areas]
    assert sum(area.area for area in areas) == pytest.approx(triangle.area, rel=1e-4)
    boxes = [shape_of(area.label.box) for area in found.areas]
    for number, (area, shape, box) in enumerate(zip(found.areas, areas, boxes, strict=True)):
        assert shape_of(found.frame).covers(box)
        if found.mark:
            assert box.distance(point(found.mark)) >= MARK_ROOM / UNIT
        if area.label.leader is None:
            assert shape.buffer(0.01).covers(box)
        else:
            start, end = area.label.leader
            assert box.buffer(0.01).covers(point(start))
            assert shape.buffer(0.02).covers(point(end))
            assert triangle.distance(box) > 0
        for other in boxes[number + 1 :]:
            assert box.intersection(other).area == 0
    assert {name for area in found.areas for name in area.members} <= set(scores)


@pytest.mark.parametrize("scores", [S3, S5, S6])
@pytest.mark.parametrize("weights", [WEIGHTS, (F(1, 3), F(1, 3), F(1, 3)), (F(1), F(0), F(0))])
def test_every_label_is_in_its_area_or_beside_the_triangle_and_off_the_mark(
    scores: Scores, weights: Weights
) -> None:
    check_map(drawn(scores, weights=weights), scores)


# By hand: narrow leads while a quarter of safety counts for more than four times the rest, over a
# safety weight of 16/17, so its area is 59 units wide.
NARROW = [
    Option("wide", (Range.certain(F(4)), Range.certain(F(15, 4)), Range.certain(F(4)))),
    Option("narrow", (Range.certain(F(0)), Range.certain(F(4)), Range.certain(F(0)))),
]


@pytest.mark.parametrize(
    "weights",
    [WEIGHTS, (F(1, 100), F(98, 100), F(1, 100)), (F(0), F(9, 10), F(1, 10)), (F(0), F(1), F(0))],
)
def test_a_small_area_is_named_beside_the_triangle_with_a_line_to_it(weights: Weights) -> None:
    weighing = weigh(NARROW, weighting=Weighting(weights=weights))
    found = ternary_map(weighing, weights=weights, labels={"wide": "A", "narrow": "B"})
    assert found is not None
    check_map(found, {"wide": (0, 0, 0), "narrow": (0, 0, 0)})
    narrow, wide = found.area_of("narrow"), found.area_of("wide")
    assert narrow is not None
    assert wide is not None
    assert (True, False) == (narrow.label.leader is not None, wide.label.leader is not None)


def test_a_line_to_a_small_area_keeps_off_the_mark_where_it_can() -> None:
    weights = (F(1, 25), F(22, 25), F(2, 25))
    weighing = weigh(NARROW, weighting=Weighting(weights=weights))
    found = ternary_map(weighing, weights=weights, labels={})
    assert found is not None
    area = found.area_of("narrow")
    assert area is not None
    assert found.mark is not None
    assert area.label.leader is not None
    line = shapely.LineString([(end.x / UNIT, end.y / UNIT) for end in area.label.leader])
    assert line.distance(point(found.mark)) >= MARK_ROOM / UNIT


@settings(deadline=None, max_examples=25)
@given(
    st.dictionaries(st.sampled_from("abcdefgh"), st.tuples(*[st.integers(0, 4)] * 3), min_size=5),
    st.tuples(*[st.integers(0, 6)] * 3).filter(any),
)
def test_long_labels_stand_beside_the_triangle_without_covering_each_other(
    scores: Scores, parts: tuple[int, int, int]
) -> None:
    whole = sum(parts)
    weights = (F(parts[0], whole), F(parts[1], whole), F(parts[2], whole))
    weighing = weigh(options_of(scores), weighting=Weighting(weights=weights))
    found = ternary_map(
        weighing, weights=weights, labels=dict.fromkeys(scores, "A rather long label")
    )
    if found is not None:
        check_map(found, scores)


@settings(deadline=None, max_examples=40)
@given(
    st.dictionaries(st.sampled_from("abcdefgh"), st.tuples(*[st.integers(0, 4)] * 3), min_size=2),
    st.tuples(*[st.integers(0, 6)] * 3).filter(any),
)
def test_any_map_tiles_and_keeps_its_labels_clear(
    scores: Scores, parts: tuple[int, int, int]
) -> None:
    whole = sum(parts)
    weights = (F(parts[0], whole), F(parts[1], whole), F(parts[2], whole))
    found = map_of(scores, weights=weights)
    if found is not None:
        check_map(found, scores)


@pytest.mark.parametrize("scores", [S3, S5, S6])
def test_a_thousand_random_weights_fall_in_the_area_of_their_winner(scores: Scores) -> None:
    source = random.Random(20240211)  # noqa: S311 - a sample, no secret
    found = drawn(scores)
    options = options_of(scores)
    for _ in range(1000):
        cuts = sorted((F(source.randrange(10**6), 10**6), F(source.randrange(10**6), 10**6)))
        weights = (cuts[0], cuts[1] - cuts[0], 1 - cuts[1])
        winner = who_leads(options, weighting=Weighting(weights=weights)).winner[0]
        area = found.area_of(winner)
        assert area is not None
        assert polygon(area.outline).distance(point(spot_of(weights))) <= 0.02
