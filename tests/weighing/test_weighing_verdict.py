"""The verdict, the order test, and what setting options aside does.

Thresholds are the museum's own (policy, not science); the examples were made for this project and
their figures are worked by hand.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from witnessmark.errors import WitnessmarkError
from witnessmark.weighing import (
    Lifted,
    Option,
    OrderTest,
    Range,
    Ranges,
    Standing,
    Weighing,
    Weighting,
    Weights,
    below_a_floor,
    in_a_hundred,
    weigh,
    who_leads,
)

F = Fraction

HALF_SAFETY: Weights = (F(3, 10), F(1, 2), F(1, 5))
EQUAL: Weights = (F(1, 3), F(1, 3), F(1, 3))
RUNNING: Ranges = ((F(1, 5), F(1, 2)), (F(3, 10), F(3, 5)), (F(1, 10), F(2, 5)))


def option(name: str, a: int, s: int, r: int) -> Option:
    return Option(name, (Range.certain(F(a)), Range.certain(F(s)), Range.certain(F(r))))


KEEP, REBUSH, ROLLING = (
    option("keep", 4, 1, 4),
    option("rebush", 3, 3, 3),
    option("rolling", 1, 4, 1),
)


def verdict(weighing: Weighing) -> tuple[str, str]:
    assert weighing.verdict is not None
    return str(weighing.verdict.word), weighing.verdict.because


def test_a_lead_that_nothing_allowed_can_change_is_firm() -> None:
    options = [option("good", 4, 4, 4), option("poor", 1, 1, 1)]
    word, because = verdict(weigh(options, weighting=Weighting(weights=EQUAL, ranges=RUNNING)))
    expected = "firm"
    assert expected == word
    assert "good is best at every weight the policy allows" in because


def test_a_lead_that_other_allowed_weights_would_end_only_holds() -> None:
    options = [option("high", 4, 0, 4), option("safe", 0, 4, 0)]
    weighting = Weighting(weights=(F(1, 2), F(3, 10), F(1, 5)), ranges=RUNNING)
    word, because = verdict(weigh(options, weighting=weighting))
    expected = "holds"
    assert expected == word
    # By hand: safe leads while the safety weight is over 1/2, the triangle (3/10, 3/5, 1/10),
    # (1/5, 3/5, 1/5), (1/5, 1/2, 3/10), (2/5, 1/2, 1/10): area 3/100 of 13/100.
    assert "it is best on 77 in 100 of the policy's ranges, not throughout" in because
    assert "one step" not in because


def judged(name: str, *levels: str) -> Option:
    first, second, third = (Range.certain(F(level)) for level in levels)
    return Option(name, (first, second, third))


def test_a_lead_of_a_whole_step_is_firm_because_one_step_only_ties() -> None:
    options = [judged("good", "4", "4", "3"), judged("near", "3", "4", "3")]
    word, _ = verdict(weigh(options, weighting=Weighting(weights=EQUAL, ranges=RUNNING)))
    assert word == "firm"


def test_a_lead_that_one_step_of_a_score_would_end_only_holds() -> None:
    options = [judged("good", "4", "4", "3"), judged("near", "7/2", "4", "3")]
    word, because = verdict(weigh(options, weighting=Weighting(weights=EQUAL, ranges=RUNNING)))
    assert word == "holds"
    assert "one score changed by one step would make another option win" in because


def test_a_lead_within_the_doubt_of_the_scores_is_close() -> None:
    rows = {
        "rebush": ((2, 3, 4), (3, 3, 3), (1, 2, 3)),
        "shim": ((3, 3, 3), (1, 2, 3), (3, 3, 3)),
        "keep": ((4, 4, 4), (0, 1, 2), (3, 3, 3)),
    }
    options = [
        Option(name, (Range(*map(F, a)), Range(*map(F, s)), Range(*map(F, r))))
        for name, (a, s, r) in rows.items()
    ]
    weighting = Weighting(weights=(F(7, 20), F(2, 5), F(1, 4)), ranges=RUNNING)
    word, because = verdict(weigh(options, weighting=weighting))
    # The chance is 67/128, under 3/5.
    expected = ("close", True)
    assert expected == (word, "52 in 100, and the policy asks for 60 in 100" in because)


def test_the_chance_that_makes_a_lead_hold_is_the_policys() -> None:
    doubtful = Option("a", (Range(F(0), F(2), F(4)), Range.certain(F(2)), Range.certain(F(2))))
    options = [
        doubtful,
        Option("b", (Range.certain(F(1)), Range.certain(F(2)), Range.certain(F(2)))),
    ]
    # a is behind only at its low level: best with chance 3/4.
    strict = Weighting(weights=EQUAL, holds_chance=F(4, 5))
    words = [verdict(weigh(options, weighting=by))[0] for by in (Weighting(weights=EQUAL), strict)]
    expected = ["holds", "close"]
    assert expected == words


def test_a_chance_of_just_what_the_policy_asks_is_enough() -> None:
    # a is behind only at its low level: best with chance 3/4; two steps would flip it, not one.
    doubtful = Option("a", (Range(F(0), F(4), F(4)), Range.certain(F(4)), Range.certain(F(4))))
    options = [doubtful, option("b", 2, 4, 4)]
    firm = Weighting(weights=EQUAL, ranges=RUNNING, firm_chance=F(3, 4))
    holds = Weighting(weights=EQUAL, ranges=RUNNING, holds_chance=F(3, 4))
    expected = ["firm", "holds"]
    assert expected == [verdict(weigh(options, weighting=by))[0] for by in (firm, holds)]


def test_equal_highest_values_are_tied() -> None:
    word, because = verdict(weigh([KEEP, REBUSH, ROLLING], weighting=Weighting(weights=EQUAL)))
    expected = ("tied", "keep and rebush have exactly the same value at the policy's weights.")
    assert expected == (
        word,
        because,
    )


def test_a_single_option_left_is_not_said_to_have_won_anything() -> None:
    weighing = weigh(
        [KEEP, REBUSH], weighting=Weighting(weights=EQUAL), set_aside={"keep": "misses the aim"}
    )
    expected = ("only-one-left", ("rebush",))
    assert expected == (verdict(weighing)[0], weighing.winner)


def test_no_option_left_has_a_verdict_of_its_own() -> None:
    weighing = weigh([KEEP], weighting=Weighting(weights=EQUAL), set_aside={"keep": "by law"})
    expected = ("none-left", ())
    assert expected == (verdict(weighing)[0], weighing.winner)


def test_the_verdict_tells_how_many_options_were_weighed() -> None:
    weighing = weigh(
        [KEEP, REBUSH, ROLLING],
        weighting=Weighting(weights=HALF_SAFETY),
        set_aside={"keep": "misses the aim"},
        not_scored=["unknown"],
    )
    assert weighing.verdict is not None
    expected = 2
    assert expected == weighing.verdict.weighed


@pytest.mark.parametrize(
    ("share", "expected"),
    [
        (F(0), "0 in 100"),
        (F(1, 1000), "under 1 in 100"),
        (F(1, 8), "13 in 100"),
        (F(999, 1000), "over 99 in 100"),
        (F(1), "100 in 100"),
    ],
)
def test_a_share_is_never_rounded_to_nothing_or_to_everything(share: F, expected: str) -> None:
    assert expected == in_a_hundred(share)


def test_a_winner_can_depend_on_what_the_top_step_is_worth() -> None:
    weighing = weigh([KEEP, REBUSH], weighting=Weighting(weights=HALF_SAFETY))
    expected = OrderTest("rebush", "keep", F(4), F(0), F(1, 2))
    assert (expected,) == weighing.order_tests


def test_a_winner_can_be_ahead_whatever_the_steps_are_worth() -> None:
    # By hand: the weights at or above level 2, 3, 4 are 1, .8, .5 against 1, .7, .2.
    options = [option("a", 4, 3, 2), option("b", 3, 2, 4)]
    (test,) = weigh(options, weighting=Weighting(weights=(F(1, 2), F(3, 10), F(1, 5)))).order_tests
    assert test.holds


LEVELS = st.tuples(*[st.integers(0, 4)] * 3)
STEPS = st.lists(st.fractions(F(1, 10), 10, max_denominator=10), min_size=5, max_size=5)


@settings(deadline=None, max_examples=60)
@given(LEVELS, LEVELS, STEPS)
def test_a_winner_that_passes_the_order_test_stays_ahead_under_other_level_values(
    one: tuple[int, int, int], other: tuple[int, int, int], steps: list[F]
) -> None:
    options = [option("a", *one), option("b", *other)]
    tests = weigh(options, weighting=Weighting(weights=HALF_SAFETY)).order_tests
    rising = [sum(steps[: level + 1], F(0)) for level in range(5)]
    changed = Weighting(
        weights=HALF_SAFETY, level_values=(rising[0], rising[1], rising[2], rising[3], rising[4])
    )
    winners = weigh(options, weighting=changed).winner or ()
    assert all(test.winner in winners for test in tests if test.holds)


@pytest.mark.parametrize(
    ("level_values", "expected"),
    [
        ((0, 1, 2, 3, 4), (F(5, 9), F(1, 3), F(1, 9))),
        ((0, F(1, 2), F(4, 3), F(5, 2), 4), (F(33, 49), F(1, 7), F(9, 49))),
        ((0, F(3, 2), F(8, 3), F(7, 2), 4), (F(9, 25), F(3, 5), F(1, 25))),
        ((0, F(1, 4), 1, F(9, 4), 4), (F(161, 225), F(1, 15), F(49, 225))),
    ],
)
def test_what_the_levels_are_worth_changes_every_share(
    level_values: tuple[F, F, F, F, F], expected: tuple[F, F, F]
) -> None:
    first, second, third, fourth, fifth = map(F, level_values)
    weighting = Weighting(level_values=(first, second, third, fourth, fifth))
    weighing = weigh([KEEP, REBUSH, ROLLING], weighting=weighting)
    assert expected == tuple(option.share_all for option in weighing.options)


def test_a_score_between_levels_is_worth_an_even_part_of_the_step() -> None:
    values = (F(0), F(1, 2), F(4, 3), F(5, 2), F(4))
    assert F(13, 4) == Weighting(level_values=values).value_of(F(7, 2))


def test_level_values_that_do_not_rise_are_refused() -> None:
    with pytest.raises(WitnessmarkError, match="does not rise at every step"):
        Weighting(level_values=(F(0), F(1), F(1), F(3), F(4)))


def test_an_option_set_aside_keeps_its_value_and_reason_and_joins_no_share() -> None:
    weighing = weigh(
        [KEEP, REBUSH],
        weighting=Weighting(weights=EQUAL),
        set_aside={"keep": "the owner rules it out"},
    )
    keep = weighing.of("keep")
    assert (Standing.SET_ASIDE, "the owner rules it out", F(3), None) == (
        keep.standing,
        keep.set_aside,
        keep.value,
        keep.share_all,
    )


def test_an_option_not_scored_has_no_value_and_moves_nothing() -> None:
    with_it = weigh([KEEP, REBUSH], weighting=Weighting(weights=EQUAL), not_scored=["later"])
    without = weigh([KEEP, REBUSH], weighting=Weighting(weights=EQUAL))
    later = with_it.of("later")
    expected = (Standing.NOT_SCORED, None)
    assert expected == (later.standing, later.value)
    assert without.options == tuple(each for each in with_it.options if each.id != "later")


def test_options_set_aside_move_no_figure_of_the_others() -> None:
    weighting = Weighting(weights=HALF_SAFETY, ranges=RUNNING)
    with_it = weigh([KEEP, REBUSH, ROLLING], weighting=weighting, set_aside={"keep": "by law"})
    without = weigh([REBUSH, ROLLING], weighting=weighting)
    assert without.options == tuple(each for each in with_it.options if each.id != "keep")


def test_what_would_win_is_said_for_each_exclusion_lifted_alone() -> None:
    perfect = option("perfect", 4, 4, 4)
    weighing = weigh(
        [KEEP, REBUSH, ROLLING, perfect],
        weighting=Weighting(weights=HALF_SAFETY),
        set_aside={"perfect": "no stock left", "keep": "misses the aim"},
    )
    assert (Lifted("keep", ("rebush",)), Lifted("perfect", ("perfect",))) == weighing.if_lifted


def test_a_likely_score_at_the_floor_stays_in() -> None:
    floors = (None, F(3), None)
    expected: dict[str, str] = {}
    assert expected == below_a_floor([REBUSH, ROLLING], floors=floors)


def test_a_likely_score_below_the_floor_is_said_in_words() -> None:
    expected = {"keep": "its safety of 1 is below the floor of 2"}
    assert expected == below_a_floor([KEEP, REBUSH], floors=(None, F(2), None))


def test_the_short_way_to_the_leader_agrees_with_the_whole_weighing() -> None:
    weighting, aside = Weighting(weights=HALF_SAFETY), {"rebush": "by law"}
    whole = weigh([KEEP, REBUSH, ROLLING], weighting=weighting, set_aside=aside)
    short = who_leads([KEEP, REBUSH, ROLLING], weighting=weighting, set_aside=aside)
    assert whole.winner == short.winner
    assert short.values == {each.id: each.value for each in whole.options}


def test_nobody_leads_without_weights() -> None:
    with pytest.raises(WitnessmarkError, match="no weights, so no option leads"):
        who_leads([KEEP], weighting=Weighting())


def test_an_option_named_twice_is_refused() -> None:
    with pytest.raises(WitnessmarkError, match="keep stands twice"):
        weigh([KEEP, KEEP], weighting=Weighting())


def test_an_unknown_option_set_aside_is_refused() -> None:
    with pytest.raises(WitnessmarkError, match="is not one of the options"):
        weigh([KEEP], weighting=Weighting(), set_aside={"rebsuh": "slip of the pen"})


def test_deleting_the_worst_option_does_not_turn_the_others_round() -> None:
    # Stretching each criterion to the best and worst option present would put b ahead once c is
    # gone (.6333 to .5667 becomes .3 to .7, worked by hand); scores from 0 to 4 never do.
    a, b, c = option("a", 2, 2, 1), option("b", 1, 3, 2), option("c", 1, 0, 4)
    weighting = Weighting(weights=HALF_SAFETY)
    values = {each.id: each.value for each in weigh([a, b, c], weighting=weighting).options[:2]}
    fewer = {each.id: each.value for each in weigh([a, b], weighting=weighting).options}
    assert values == fewer


@settings(deadline=None, max_examples=60)
@given(
    st.dictionaries(st.sampled_from("abcdef"), LEVELS, min_size=2),
    st.tuples(*[st.integers(0, 9)] * 3).filter(any),
)
def test_deleting_a_loser_never_changes_the_order_of_the_rest(
    scores: dict[str, tuple[int, int, int]], parts: tuple[int, int, int]
) -> None:
    first, second, third = (F(part, sum(parts)) for part in parts)
    weighting = Weighting(weights=(first, second, third))
    whole = weigh([option(name, *row) for name, row in scores.items()], weighting=weighting)
    losers = set(scores) - set(whole.winner or ())
    for loser in losers:
        rest = weigh(
            [option(name, *row) for name, row in scores.items() if name != loser],
            weighting=weighting,
        )
        assert whole.winner == rest.winner
        assert _order(whole, without=loser) == _order(rest, without=loser)


def _order(weighing: Weighing, *, without: str) -> list[str]:
    left = [each for each in weighing.options if each.id != without]
    return [each.id for each in sorted(left, key=lambda each: (-(each.value or 0), each.id))]
