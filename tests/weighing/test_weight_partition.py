"""Who wins at which weights.

The examples were made for this project, worked by hand in exact fractions; here every share is
also checked against shapely (a general-purpose geometry library), which cuts the same triangle
by its own method in floating point.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from witnessmark.errors import WitnessmarkError
from witnessmark.weighing import (
    Option,
    Partition,
    Range,
    Ranges,
    Standing,
    Weighing,
    Weighting,
    weigh,
)

F = Fraction

S1 = {"a": (4, 1, 1), "b": (0, 3, 3)}
S2 = {"a": (4, 0, 0), "b": (0, 4, 0), "c": (0, 0, 4)}
S3 = {**S2, "m": (2, 2, 2)}
S4 = {**S2, "m": (1, 1, 1)}
S5 = {
    "keep": (4, 1, 4),
    "rebush": (3, 3, 3),
    "rolling": (1, 4, 1),
    "sleeve": (2, 3, 3),
    "nothing": (4, 0, 4),
}
S6 = {"rebush": (3, 3, 2), "rolling": (1, 4, 1), "shim": (3, 2, 3), "keep": (4, 1, 3)}
RUNNING: Ranges = ((F(1, 5), F(1, 2)), (F(3, 10), F(3, 5)), (F(1, 10), F(2, 5)))
STATIC: Ranges = ((F(2, 5), F(7, 10)), (F(1, 10), F(3, 10)), (F(1, 5), F(2, 5)))

Scores = dict[str, tuple[int, int, int]]


def weigh_scores(scores: Scores, weighting: Weighting | None = None) -> Weighing:
    options = [
        Option(name, (Range.certain(F(a)), Range.certain(F(s)), Range.certain(F(r))))
        for name, (a, s, r) in scores.items()
    ]
    return weigh(options, weighting=weighting or Weighting())


def shares(weighing: Weighing) -> dict[str, F | None]:
    return {option.id: option.share_all for option in weighing.options}


def policy_shares(weighing: Weighing) -> dict[str, F | None]:
    return {option.id: option.share_policy for option in weighing.options}


def standings(weighing: Weighing) -> dict[str, str]:
    return {option.id: str(option.standing) for option in weighing.options}


def shapely_side(a: float, s: float, r: float) -> shapely.Geometry:
    """Give the part of a big square where a * x + s * y + r * (1 - x - y) is 0 or more."""
    across, up, level = a - r, s - r, r
    square = shapely.box(-1, -1, 2, 2)
    if across == up == 0:
        return square if level >= 0 else shapely.Polygon()
    length = (across**2 + up**2) ** 0.5
    foot_x, foot_y = -level * across / length**2, -level * up / length**2
    far, along = 20 / length, 20 / length
    corners = [
        (foot_x - up * along, foot_y + across * along),
        (foot_x + up * along, foot_y - across * along),
        (foot_x + up * along + across * far, foot_y - across * along + up * far),
        (foot_x - up * along + across * far, foot_y + across * along + up * far),
    ]
    return shapely.intersection(square, shapely.Polygon(corners))


def shapely_shares(scores: Scores, ranges: Ranges | None = None) -> dict[str, float]:
    domain = shapely.Polygon([(0, 0), (1, 0), (0, 1)])
    for place, (least, greatest) in enumerate(ranges or ()):
        for bound, sign in ((float(least), 1), (float(greatest), -1)):
            side = [-sign * bound] * 3
            side[place] += sign
            domain = shapely.intersection(domain, shapely_side(*side))
    found = {}
    for name, ours in scores.items():
        region = domain
        for theirs in scores.values():
            gaps = [float(our - their) for our, their in zip(ours, theirs, strict=True)]
            region = shapely.intersection(region, shapely_side(*gaps))
        found[name] = region.area / domain.area
    return found


EXACT_SHARES = [
    pytest.param(S1, {"a": F(4, 9), "b": F(5, 9)}, id="two"),
    pytest.param(S2, {"a": F(1, 3), "b": F(1, 3), "c": F(1, 3)}, id="three-alike"),
    pytest.param(S3, dict.fromkeys("abcm", F(1, 4)), id="a-middle-one"),
    pytest.param(S4, {**dict.fromkeys("abc", F(1, 3)), "m": F(0)}, id="a-weak-middle-one"),
    pytest.param(
        S5,
        {
            "keep": F(5, 9),
            "rebush": F(1, 3),
            "rolling": F(1, 9),
            "sleeve": F(0),
            "nothing": F(0),
        },
        id="five",
    ),
]


@pytest.mark.parametrize(("scores", "expected"), EXACT_SHARES)
def test_every_share_of_all_weights_is_exact(scores: Scores, expected: dict[str, F]) -> None:
    assert expected == shares(weigh_scores(scores))


@pytest.mark.parametrize("scores", [S1, S2, S3, S4, S5, S6])
def test_every_share_of_all_weights_agrees_with_shapely(scores: Scores) -> None:
    exact = {name: float(share or 0) for name, share in shares(weigh_scores(scores)).items()}
    assert shapely_shares(scores) == pytest.approx(exact, abs=1e-12)


@pytest.mark.parametrize(("authenticity", "expected"), [(2, F(1, 4)), (3, F(9, 25)), (4, F(4, 9))])
def test_a_share_follows_the_score_it_depends_on(authenticity: int, expected: F) -> None:
    # By hand: (x, 1, 1) beats (0, 3, 3) on a triangle x / (x + 2) the size of the whole.
    scores = {"a": (authenticity, 1, 1), "b": (0, 3, 3)}
    assert expected == shares(weigh_scores(scores))["a"]


def test_a_share_of_the_running_policy_is_exact() -> None:
    expected = {"rebush": F(100, 117), "keep": F(11, 117), "shim": F(2, 39), "rolling": F(0)}
    assert expected == policy_shares(weigh_scores(S6, Weighting(ranges=RUNNING)))


def test_a_share_of_the_running_policy_agrees_with_shapely() -> None:
    exact = policy_shares(weigh_scores(S6, Weighting(ranges=RUNNING)))
    floats = {name: float(share or 0) for name, share in exact.items()}
    assert shapely_shares(S6, RUNNING) == pytest.approx(floats, abs=1e-12)


def test_the_same_options_come_out_otherwise_under_a_static_policy() -> None:
    expected = {"keep": F(1), "rebush": F(0), "shim": F(0), "rolling": F(0)}
    assert expected == policy_shares(weigh_scores(S6, Weighting(ranges=STATIC)))


@pytest.mark.parametrize(("ranges", "area"), [(RUNNING, F(13, 100)), (STATIC, F(7, 100))])
def test_the_area_a_policy_allows_is_exact(ranges: Ranges, area: F) -> None:
    policy = weigh_scores(S6, Weighting(ranges=ranges)).policy
    assert policy is not None
    assert area == policy.domain.size


def test_the_corners_a_policy_allows_are_exact() -> None:
    policy = weigh_scores(S6, Weighting(ranges=RUNNING)).policy
    assert policy is not None
    expected = {(3, 6, 1), (1, 3, 1), (1, 2, 2), (3, 3, 4), (5, 3, 2), (5, 4, 1)}
    assert expected == set(policy.domain.corners)


def test_the_middle_of_a_policy_is_exact() -> None:
    policy = weigh_scores(S6, Weighting(ranges=RUNNING)).policy
    assert policy is not None
    assert (F(1, 3), F(13, 30), F(7, 30)) == policy.domain.centroid


@pytest.mark.parametrize(
    ("scores", "option", "expected"),
    [
        (S1, "a", (F(5, 9), F(2, 9), F(2, 9))),
        (S1, "b", (F(7, 45), F(19, 45), F(19, 45))),
        (S3, "m", (F(1, 3), F(1, 3), F(1, 3))),
        (S5, "keep", (F(19, 45), F(7, 45), F(19, 45))),
        (S5, "rebush", (F(7, 27), F(13, 27), F(7, 27))),
        (S5, "rolling", (F(1, 9), F(7, 9), F(1, 9))),
    ],
)
def test_central_weights_are_the_middle_of_the_weights_that_favour_an_option(
    scores: Scores, option: str, expected: tuple[F, F, F]
) -> None:
    assert expected == weigh_scores(scores).of(option).central_weights


def test_central_weights_lie_in_the_policy_where_it_has_ranges() -> None:
    weighing = weigh_scores(S6, Weighting(ranges=RUNNING))
    expected = (F(739, 2250), F(508, 1125), F(11, 50))
    assert expected == weighing.of("rebush").central_weights


def test_an_option_with_a_single_favourable_point_has_no_central_weights() -> None:
    assert weigh_scores(S6, Weighting(ranges=RUNNING)).of("rolling").central_weights is None


def test_the_single_point_where_an_option_ties_is_found() -> None:
    policy = weigh_scores(S6, Weighting(ranges=RUNNING)).policy
    assert policy is not None
    expected = ((1, 3, 1),)
    assert expected == policy.of("rolling").region.corners


def test_three_kinds_of_loser_are_told_apart() -> None:
    scores = {**S4, "low": (0, 0, 0), "edge": (4, 0, 0)}
    expected = {
        "a": "supported",
        "b": "supported",
        "c": "supported",
        "edge": "supported",
        "low": "dominated",
        "m": "unsupported",
    }
    assert expected == standings(weigh_scores(scores))


def test_an_option_best_only_on_an_edge_is_touching_and_still_dominated() -> None:
    sleeve = weigh_scores(S5).of("sleeve")
    expected = (Standing.TOUCHING, ("rebush",))
    assert expected == (sleeve.standing, sleeve.dominated_by)


def test_an_option_best_only_at_one_point_is_touching_though_nothing_dominates_it() -> None:
    scores = {"a": (3, 0, 0), "b": (0, 3, 0), "c": (0, 0, 3), "m": (1, 1, 1)}
    middle = weigh_scores(scores).of("m")
    expected = (Standing.TOUCHING, (), F(0), None)
    assert expected == (
        middle.standing,
        middle.dominated_by,
        middle.share_all,
        middle.central_weights,
    )


def test_no_option_is_best_without_weights() -> None:
    assert "best" not in standings(weigh_scores(S5)).values()


def test_the_winner_at_the_weights_is_best_and_the_rest_keep_their_standing() -> None:
    weighing = weigh_scores(S5, Weighting(weights=(F(3, 10), F(1, 2), F(1, 5))))
    expected = {
        "keep": "supported",
        "nothing": "touching",
        "rebush": "best",
        "rolling": "supported",
        "sleeve": "touching",
    }
    assert expected == standings(weighing)


def test_equal_options_are_one_group_and_share_its_results() -> None:
    weighing = weigh_scores({**S1, "a2": (4, 1, 1)})
    first, second = weighing.of("a"), weighing.of("a2")
    assert (("a2",), ("a",), F(4, 9), F(4, 9)) == (
        first.tied_with,
        second.tied_with,
        first.share_all,
        second.share_all,
    )


def test_equal_options_do_not_dominate_each_other() -> None:
    expected = ()
    assert expected == weigh_scores({"a": (2, 2, 2), "b": (2, 2, 2)}).of("a").dominated_by


def test_ranges_no_weights_can_meet_are_refused_with_their_sums() -> None:
    ranges: Ranges = ((F(1, 2), F(1)), (F(2, 5), F(1)), (F(1, 5), F(1)))
    with pytest.raises(WitnessmarkError, match="lows add up to 11/10 and the highs to 3"):
        weigh_scores(S6, Weighting(ranges=ranges))


def test_a_policy_of_one_point_has_no_shares() -> None:
    ranges: Ranges = ((F(1, 2), F(1, 2)), (F(3, 10), F(3, 10)), (F(1, 5), F(1, 5)))
    weighing = weigh_scores(S6, Weighting(ranges=ranges))
    assert {None} == set(policy_shares(weighing).values())


def test_a_policy_of_one_point_still_finds_who_wins_there() -> None:
    # At (1/2, 3/10, 1/5): rebush 2.8, rolling 1.9, shim 2.7, keep 2.9, by hand.
    ranges: Ranges = ((F(1, 2), F(1, 2)), (F(3, 10), F(3, 10)), (F(1, 5), F(1, 5)))
    policy = weigh_scores(S6, Weighting(ranges=ranges)).policy
    assert policy is not None
    winners = [place.members for place in policy.territories if not place.region.is_empty]
    expected = [("keep",)]
    assert expected == winners


SEGMENT: Ranges = ((F(1, 2), F(1, 2)), (F(1, 10), F(2, 5)), (F(0), F(1)))


def test_a_policy_that_fixes_one_weight_is_shared_out_by_length() -> None:
    # By hand: keep is ahead of rebush while the safety weight is under 1/3, 7/30 of 3/10.
    expected = {"keep": F(7, 9), "rebush": F(2, 9), "shim": F(0), "rolling": F(0)}
    assert expected == policy_shares(weigh_scores(S6, Weighting(ranges=SEGMENT)))


def test_options_that_tie_all_along_a_segment_are_one_group_there() -> None:
    # keep and rebush of S5 tie wherever the safety weight is 1/3.
    ranges: Ranges = ((F(0), F(1)), (F(1, 3), F(1, 3)), (F(0), F(1)))
    policy = weigh_scores(S5, Weighting(ranges=ranges)).policy
    assert policy is not None
    expected = ("keep", "rebush")
    assert expected == policy.of("keep").members
    assert sum(place.share or 0 for place in policy.territories) == 1


LEVELS = st.tuples(*[st.fractions(0, 4, max_denominator=6)] * 3)
WEIGHT_RANGES = st.tuples(*[st.tuples(*[st.fractions(0, 1, max_denominator=10)] * 2)] * 3)


@settings(deadline=None, max_examples=60)
@given(st.lists(LEVELS, min_size=1, max_size=6), WEIGHT_RANGES)
def test_shares_always_add_up_to_exactly_one(
    scores: list[tuple[F, F, F]], bounds: tuple[tuple[F, F], ...]
) -> None:
    ordered = [(min(pair), max(pair)) for pair in bounds]
    ranges: Ranges = (ordered[0], ordered[1], ordered[2])
    fits = sum(low for low, _ in ranges) <= 1 <= sum(high for _, high in ranges)
    options = [
        Option(f"o{place}", (Range.certain(a), Range.certain(s), Range.certain(r)))
        for place, (a, s, r) in enumerate(scores)
    ]
    weighing = weigh(options, weighting=Weighting(ranges=ranges if fits else None))
    assert total_share(weighing.all_weights) == 1
    assert weighing.policy is None or total_share(weighing.policy) in (None, 1)


def total_share(partition: Partition) -> F | None:
    """Give the sum of all shares, None where the region is a point and nobody has one."""
    divided = [place.share for place in partition.territories if place.share is not None]
    if partition.domain.dimension == 0:
        assert not divided
        return None
    assert len(divided) == len(partition.territories)
    return sum(divided, F(0))


@settings(deadline=None, max_examples=60)
@given(st.dictionaries(st.sampled_from("abcdef"), LEVELS, min_size=2))
def test_any_partition_agrees_with_shapely(scores: dict[str, tuple[F, F, F]]) -> None:
    options = [
        Option(name, (Range.certain(a), Range.certain(s), Range.certain(r)))
        for name, (a, s, r) in scores.items()
    ]
    weighing = weigh(options, weighting=Weighting())
    exact = {option.id: float(option.share_all or 0) for option in weighing.options}
    whole: dict[str, tuple[int, int, int]] = {
        name: (int(a * 60), int(s * 60), int(r * 60)) for name, (a, s, r) in scores.items()
    }
    assert shapely_shares(whole) == pytest.approx(exact, abs=1e-9)
