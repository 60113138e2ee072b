"""What follows from one set of weights: values, intervals, nearest weights, flips and regret.

The examples were made for this project and worked by hand in exact fractions. The values are also
checked against scikit-criteria (a general-purpose library for weighted sums), the nearest points
against shapely, and the rest against the property that defines them.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
import shapely
import skcriteria
from hypothesis import given, settings
from hypothesis import strategies as st
from skcriteria.agg.simple import WeightedSumModel

from witnessmark.weighing import (
    Nearest,
    Option,
    Range,
    Ranges,
    Weighing,
    Weighting,
    Weights,
    weigh,
)

F = Fraction

S1 = {"a": (4, 1, 1), "b": (0, 3, 3)}
S1_WEIGHTS: Weights = (F(1, 2), F(1, 4), F(1, 4))
S5 = {
    "keep": (4, 1, 4),
    "rebush": (3, 3, 3),
    "rolling": (1, 4, 1),
    "sleeve": (2, 3, 3),
    "nothing": (4, 0, 4),
}
S5_WEIGHTS: Weights = (F(3, 10), F(1, 2), F(1, 5))
EQUAL: Weights = (F(1, 3), F(1, 3), F(1, 3))
S6 = {"rebush": (3, 3, 2), "rolling": (1, 4, 1), "shim": (3, 2, 3), "keep": (4, 1, 3)}
S6_WEIGHTS: Weights = (F(7, 20), F(2, 5), F(1, 4))
S6_RANGES: Ranges = ((F(1, 5), F(1, 2)), (F(3, 10), F(3, 5)), (F(1, 10), F(2, 5)))

Scores = dict[str, tuple[int, int, int]]
CASES = [(S1, S1_WEIGHTS), (S5, S5_WEIGHTS), (S5, EQUAL), (S6, S6_WEIGHTS)]


def weigh_scores(scores: Scores, weights: Weights, ranges: Ranges | None = None) -> Weighing:
    options = [
        Option(name, (Range.certain(F(a)), Range.certain(F(s)), Range.certain(F(r))))
        for name, (a, s, r) in scores.items()
    ]
    return weigh(options, weighting=Weighting(weights=weights, ranges=ranges))


def values(weighing: Weighing) -> dict[str, F | None]:
    return {option.id: option.value for option in weighing.options}


def flips(weighing: Weighing) -> set[tuple[str, str, int, int]]:
    return {
        (flip.option, flip.criterion, int(flip.before), int(flip.after))
        for flip in weighing.flips or ()
    }


@pytest.mark.parametrize(
    ("scores", "weights", "expected"),
    [
        (S1, S1_WEIGHTS, {"a": F(5, 2), "b": F(3, 2)}),
        (
            S5,
            S5_WEIGHTS,
            {
                "keep": F(5, 2),
                "rebush": F(3),
                "rolling": F(5, 2),
                "sleeve": F(27, 10),
                "nothing": F(2),
            },
        ),
        (
            S6,
            S6_WEIGHTS,
            {"rebush": F(11, 4), "shim": F(13, 5), "keep": F(51, 20), "rolling": F(11, 5)},
        ),
    ],
)
def test_a_value_is_the_weighted_sum_of_the_scores(
    scores: Scores, weights: Weights, expected: dict[str, F]
) -> None:
    assert expected == values(weigh_scores(scores, weights))


@pytest.mark.parametrize(("scores", "weights"), CASES)
def test_values_agree_with_scikit_criteria(scores: Scores, weights: Weights) -> None:
    matrix = skcriteria.mkdm(
        list(scores.values()), [max] * 3, weights=[float(weight) for weight in weights]
    )
    theirs = WeightedSumModel().evaluate(matrix).e_.score
    ours = values(weigh_scores(scores, weights))
    assert list(theirs) == pytest.approx([float(ours[name] or 0) for name in scores], abs=1e-12)


def test_decimal_weights_do_not_break_a_tie() -> None:
    # In floats 0.1 * 3 + 0.6 * 3 + 0.3 * 3 is 2.9999999999999996, and (3, 3, 3) would lose.
    weights = (F("0.1"), F("0.6"), F("0.3"))
    expected = ("flat", "mixed")
    assert expected == weigh_scores({"flat": (3, 3, 3), "mixed": (3, 3, 3)}, weights).winner


def test_all_options_that_tie_for_best_are_named() -> None:
    expected = ("keep", "rebush")
    assert expected == weigh_scores(S5, EQUAL).winner


def test_the_winner_does_not_depend_on_the_order_of_the_options() -> None:
    assert weigh_scores(S5, EQUAL) == weigh_scores(dict(reversed(S5.items())), EQUAL)


@pytest.mark.parametrize(
    ("scores", "weights", "expected"),
    [
        (S1, S1_WEIGHTS, ((F(1, 3), F(1)), (F(0), F(1, 2)), (F(0), F(1, 2)))),
        (S5, S5_WEIGHTS, ((F(1, 15), F(8, 15)), (F(1, 3), F(2, 3)), (F(0), F(7, 15)))),
        (S6, S6_WEIGHTS, ((F(3, 29), F(11, 24)), (F(1, 3), F(19, 31)), (F(0), F(8, 23)))),
        # A tie holds at these weights alone.
        (S5, EQUAL, ((F(1, 3), F(1, 3)), (F(1, 3), F(1, 3)), (F(1, 3), F(1, 3)))),
        # All weight on safety: what it loses is shared equally by the others, so "safe", worth 4t,
        # leads "true", worth 4(1 - t)/2, down to t = 1/3.
        (
            {"safe": (0, 4, 0), "true": (4, 0, 0)},
            (F(0), F(1), F(0)),
            ((F(0), F(1, 2)), (F(1, 3), F(1)), (F(0), F(1))),
        ),
    ],
)
def test_each_weight_can_move_within_its_interval_before_the_result_changes(
    scores: Scores, weights: Weights, expected: tuple[tuple[F, F], ...]
) -> None:
    assert expected == weigh_scores(scores, weights).stability


@pytest.mark.parametrize(
    ("scores", "weights", "option", "expected"),
    [
        (S1, S1_WEIGHTS, "b", Nearest(F(1, 6), EQUAL)),
        (S5, S5_WEIGHTS, "keep", Nearest(F(1, 6), (F(23, 60), F(1, 3), F(17, 60)))),
        (S5, S5_WEIGHTS, "rolling", Nearest(F(1, 6), (F(13, 60), F(2, 3), F(7, 60)))),
        (S6, S6_WEIGHTS, "keep", Nearest(F(1, 15), (F(23, 60), F(1, 3), F(17, 60)))),
        # The tie line with rebush comes nearer, but at its foot a third option has won.
        (S6, S6_WEIGHTS, "shim", Nearest(F(1, 12), EQUAL)),
        # Worth as much as the best only where authenticity weighs 0 and safety 1/3 to 2/3.
        (S5, S5_WEIGHTS, "sleeve", Nearest(F(3, 10), (F(0), F(13, 20), F(7, 20)))),
        (
            S5,
            (F(1, 10), F(4, 5), F(1, 10)),
            "sleeve",
            Nearest(F(7, 30), (F(0), F(2, 3), F(1, 3))),
        ),
        (
            S5,
            (F(1, 10), F(1, 10), F(4, 5)),
            "sleeve",
            Nearest(F(7, 30), (F(0), F(1, 3), F(2, 3))),
        ),
        # The two measures have different nearest points.
        (S6, S6_WEIGHTS, "rolling", Nearest(F(11, 60), (F(27, 140), F(167, 280), F(59, 280)))),
    ],
)
def test_the_smallest_move_of_weights_that_reaches_an_option_is_exact(
    scores: Scores, weights: Weights, option: str, expected: Nearest
) -> None:
    assert expected == weigh_scores(scores, weights).of(option).nearest


def test_a_winner_has_no_nearest_weights() -> None:
    assert weigh_scores(S5, S5_WEIGHTS).of("rebush").nearest is None


def test_an_option_no_weights_favour_has_no_nearest_weights() -> None:
    scores = {"a": (4, 0, 0), "b": (0, 4, 0), "c": (0, 0, 4), "m": (1, 1, 1)}
    assert weigh_scores(scores, S5_WEIGHTS).of("m").nearest is None


LEVELS = st.tuples(*[st.integers(0, 4)] * 3)
SHARES = st.tuples(*[st.integers(0, 20)] * 3).filter(any)


@settings(deadline=None, max_examples=60)
@given(st.dictionaries(st.sampled_from("abcde"), LEVELS, min_size=2), SHARES)
def test_any_nearest_weights_agree_with_shapely(
    scores: dict[str, tuple[int, int, int]], parts: tuple[int, int, int]
) -> None:
    weights = tuple(F(part, sum(parts)) for part in parts)
    weighing = weigh_scores(scores, (weights[0], weights[1], weights[2]))
    for option in weighing.options:
        corners = weighing.all_weights.of(option.id).region.corners
        if option.nearest is None or len(corners) < 3:
            continue
        # Laid flat in true shape: equal distances in the plane are equal weight distances.
        flat = shapely.Polygon(
            [_flat(*(F(part, sum(corner)) for part in corner)) for corner in corners]
        )
        theirs = shapely.distance(flat, shapely.Point(_flat(*weights)))
        gaps = zip(option.nearest.weights, weights, strict=True)
        ours = float(sum((there - here) ** 2 for there, here in gaps)) ** 0.5
        assert theirs == pytest.approx(ours, abs=1e-9)


def _flat(a: F, s: F, r: F) -> tuple[float, float]:
    """Give a set of weights as a place on the page, lengths kept."""
    return float(a - s) / 2**0.5, float(a + s - 2 * r) / 6**0.5


@settings(deadline=None, max_examples=60)
@given(st.dictionaries(st.sampled_from("abcde"), LEVELS, min_size=2), SHARES)
def test_no_grid_point_reaches_an_option_with_a_smaller_move(
    scores: dict[str, tuple[int, int, int]], parts: tuple[int, int, int]
) -> None:
    weights = tuple(F(part, sum(parts)) for part in parts)
    weighing = weigh_scores(scores, (weights[0], weights[1], weights[2]))
    grid = [(F(a, 12), F(s, 12), F(12 - a - s, 12)) for a in range(13) for s in range(13 - a)]
    moves = {option.id: option.nearest for option in weighing.options}
    for point in grid:
        worths = {
            name: sum(score * weight for score, weight in zip(row, point, strict=True))
            for name, row in scores.items()
        }
        moved = sum(abs(here - there) for here, there in zip(weights, point, strict=True)) / 2
        for name, worth in worths.items():
            nearest = moves[name]
            if worth == max(worths.values()) and name not in (weighing.winner or ()):
                assert nearest is not None
                assert nearest.moved <= moved


def test_the_smallest_whole_steps_that_flip_five_options_are_one() -> None:
    expected = {("sleeve", "safety", 3, 4), ("rebush", "safety", 3, 2)}
    assert expected == flips(weigh_scores(S5, S5_WEIGHTS))


def test_the_smallest_whole_steps_that_flip_two_options_are_three() -> None:
    # Two steps on authenticity only tie them at 5/2 and at 3/2.
    expected = {("a", "authenticity", 4, 1), ("b", "authenticity", 0, 3)}
    assert expected == flips(weigh_scores(S1, S1_WEIGHTS))


def test_the_smallest_whole_steps_that_flip_four_close_options_are_one() -> None:
    expected = {
        ("shim", "safety", 2, 3),
        ("shim", "authenticity", 3, 4),
        ("shim", "reversibility", 3, 4),
        ("keep", "safety", 1, 2),
        ("keep", "reversibility", 3, 4),
        ("rebush", "authenticity", 3, 2),
        ("rebush", "safety", 3, 2),
        ("rebush", "reversibility", 2, 1),
    }
    assert expected == flips(weigh_scores(S6, S6_WEIGHTS))


@settings(deadline=None, max_examples=60)
@given(st.dictionaries(st.sampled_from("abcd"), LEVELS, min_size=2), SHARES)
def test_flips_are_exactly_the_fewest_steps_that_unseat_every_winner(
    scores: dict[str, tuple[int, int, int]], parts: tuple[int, int, int]
) -> None:
    weights = tuple(F(part, sum(parts)) for part in parts)
    weighing = weigh_scores(scores, (weights[0], weights[1], weights[2]))
    assert _flips_by_trial(scores, weights) == flips(weighing)


def _flips_by_trial(
    scores: dict[str, tuple[int, int, int]], weights: tuple[F, ...]
) -> set[tuple[str, str, int, int]]:
    def winners(table: dict[str, tuple[int, ...]]) -> set[str]:
        worths = {
            name: sum(score * weight for score, weight in zip(row, weights, strict=True))
            for name, row in table.items()
        }
        return {name for name, worth in worths.items() if worth == max(worths.values())}

    now = winners({**scores})
    found: dict[int, set[tuple[str, str, int, int]]] = {}
    for name, row in scores.items():
        for place, criterion in enumerate(("authenticity", "safety", "reversibility")):
            for after in range(5):
                changed = (*row[:place], after, *row[place + 1 :])
                if not now & winners({**scores, name: changed}):
                    steps = abs(after - row[place])
                    found.setdefault(steps, set()).add((name, criterion, row[place], after))
    return found[min(found)] if found else set()


def test_a_winner_that_one_step_would_drop_below_a_floor_can_be_flipped() -> None:
    options = [
        Option("a", (Range.certain(F(4)), Range.certain(F(2)), Range.certain(F(4)))),
        Option("b", (Range.certain(F(0)), Range.certain(F(3)), Range.certain(F(0)))),
    ]
    weighting = Weighting(weights=EQUAL, floors=(None, F(2), None))
    assert {("a", "safety", 2, 1)} == flips(weigh(options, weighting=weighting))


def test_the_greatest_regret_within_a_policy_is_exact() -> None:
    weighing = weigh_scores(S6, S6_WEIGHTS, S6_RANGES)
    expected = {"rebush": F(1, 10), "shim": F(1, 2), "keep": F(4, 5), "rolling": F(1)}
    assert expected == {option.id: option.regret for option in weighing.options}


def test_there_is_no_regret_without_ranges() -> None:
    weighing = weigh_scores(S6, S6_WEIGHTS)
    assert {None} == {option.regret for option in weighing.options}


def test_weights_outside_the_policy_ranges_are_pointed_out() -> None:
    weighing = weigh_scores(
        S6, S5_WEIGHTS, ((F(2, 5), F(7, 10)), (F(1, 10), F(3, 10)), (F(1, 5), F(2, 5)))
    )
    expected = ("The policy's weights lie outside its own ranges.",)
    assert expected == weighing.cautions


def test_a_bound_no_allowed_weights_reach_is_pointed_out() -> None:
    ranges: Ranges = ((F(1, 5), F(1, 2)), (F(3, 10), F(9, 10)), (F(1, 10), F(2, 5)))
    expected = (
        "The range of safety is written to 9/10, but the ranges of the others leave it only 7/10.",
    )
    assert expected == weigh_scores(S6, S6_WEIGHTS, ranges).cautions
