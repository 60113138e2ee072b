"""What other steps between the levels would do.

The example was made for this project and its fractions worked out for it beforehand by hand and
by simulation; the law at the end holds for any options.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from witnessmark.weighing import Option, Range, Weighting, Weights, weigh
from witnessmark.weighing.stress import Steps, Stressed, best_worst_scores, stress_levels

F = Fraction
HALF_SAFETY: Weights = (F(3, 10), F(1, 2), F(1, 5))


def option(name: str, *levels: int | F) -> Option:
    a, s, r = (Range.certain(F(level)) for level in levels)
    return Option(name, (a, s, r))


THREE = [option("keep", 4, 1, 4), option("rebush", 3, 3, 3), option("rolling", 1, 4, 1)]


def stressed(steps: Steps, weights: Weights = HALF_SAFETY) -> Stressed:
    every = stress_levels(THREE, weighting=Weighting(weights=weights))
    return next(found for found in every if found.steps is steps)


@pytest.mark.parametrize(
    ("steps", "keep", "rebush", "rolling"),
    [
        (Steps.EVEN, F(5, 9), F(1, 3), F(1, 9)),
        (Steps.TOP_HEAVY, F(33, 49), F(1, 7), F(9, 49)),
        (Steps.BOTTOM_HEAVY, F(9, 25), F(3, 5), F(1, 25)),
        (Steps.SQUARES, F(161, 225), F(1, 15), F(49, 225)),
    ],
)
def test_the_shares_lean_on_what_the_steps_are_worth(
    steps: Steps, keep: F, rebush: F, rolling: F
) -> None:
    expected = {"keep": keep, "rebush": rebush, "rolling": rolling}
    assert expected == stressed(steps).shares


@pytest.mark.parametrize(
    ("steps", "keep", "rebush", "rolling"),
    [
        (Steps.EVEN, F(5, 2), F(3), F(5, 2)),
        (Steps.TOP_HEAVY, F(9, 4), F(5, 2), F(9, 4)),
        (Steps.BOTTOM_HEAVY, F(11, 4), F(7, 2), F(11, 4)),
        (Steps.SQUARES, F(17, 8), F(9, 4), F(17, 8)),
    ],
)
def test_the_values_lean_on_what_the_steps_are_worth(
    steps: Steps, keep: F, rebush: F, rolling: F
) -> None:
    expected = {"keep": keep, "rebush": rebush, "rolling": rolling}
    assert expected == stressed(steps).values


@pytest.mark.parametrize("steps", Steps)
def test_one_winner_under_every_choice_of_steps_is_no_change(steps: Steps) -> None:
    found = stressed(steps)
    assert (("rebush",), False) == (found.winner, found.changes)


def test_a_winner_that_another_choice_of_steps_unseats_is_told() -> None:
    # By hand, at equal weights: keep and rebush tie at 3 with even steps; with top-heavy ones keep
    # is worth 17/6 to rebush's 5/2, with bottom-heavy ones 19/6 to 7/2.
    equal: Weights = (F(1, 3), F(1, 3), F(1, 3))
    found = {steps: stressed(steps, equal) for steps in Steps}
    expected = {
        Steps.EVEN: (("keep", "rebush"), False),
        Steps.TOP_HEAVY: (("keep",), True),
        Steps.BOTTOM_HEAVY: (("rebush",), True),
        Steps.SQUARES: (("keep",), True),
    }
    assert expected == {steps: (each.winner, each.changes) for steps, each in found.items()}


def test_change_is_told_against_the_policys_own_level_values() -> None:
    equal: Weights = (F(1, 3), F(1, 3), F(1, 3))
    weighting = Weighting(weights=equal, level_values=Steps.SQUARES.value)
    found = {each.steps: each.changes for each in stress_levels(THREE, weighting=weighting)}
    expected = {
        Steps.EVEN: True,
        Steps.TOP_HEAVY: False,
        Steps.BOTTOM_HEAVY: True,
        Steps.SQUARES: False,
    }
    assert expected == found


def test_without_weights_the_shares_are_still_told() -> None:
    found = stress_levels(THREE, weighting=Weighting())[1]
    assert (None, {}, F(33, 49)) == (found.winner, found.values, found.shares["keep"])


def test_an_option_set_aside_is_not_stressed() -> None:
    weighting = Weighting(weights=HALF_SAFETY)
    found = stress_levels(THREE, weighting=weighting, set_aside=["rebush"])[0]
    assert ("keep", "rolling") == found.winner


@pytest.mark.parametrize("steps", Steps)
def test_every_choice_of_steps_is_explained(steps: Steps) -> None:
    assert "step" in steps.in_words


def test_the_best_worst_score_needs_no_weights() -> None:
    expected = ("rebush",)
    assert expected == best_worst_scores(THREE)


def test_all_options_with_the_best_worst_score_are_named() -> None:
    expected = ("keep", "rolling")
    assert expected == best_worst_scores(THREE, set_aside=["rebush"])


def test_nothing_has_the_best_worst_score_when_nothing_is_left() -> None:
    assert best_worst_scores([]) == ()


LEVELS = st.tuples(*[st.integers(0, 4)] * 3)


@settings(deadline=None, max_examples=40)
@given(
    st.dictionaries(st.sampled_from("abcd"), LEVELS, min_size=2),
    st.tuples(*[st.integers(0, 5)] * 3).filter(any),
)
def test_a_lead_that_passes_the_order_test_survives_every_choice_of_steps(
    scores: dict[str, tuple[int, int, int]], parts: tuple[int, int, int]
) -> None:
    options = [option(name, *levels) for name, levels in scores.items()]
    whole = sum(parts)
    weights = (F(parts[0], whole), F(parts[1], whole), F(parts[2], whole))
    weighting = Weighting(weights=weights)
    weighing = weigh(options, weighting=weighting)
    winners = weighing.winner or ()
    if len(winners) == 1 and all(test.holds for test in weighing.order_tests):
        for found in stress_levels(options, weighting=weighting):
            assert winners[0] in (found.winner or ())
