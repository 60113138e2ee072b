"""The sentences people read, made from the figures.

The wording is the museum's own; the two limits on length are the project's (average 20 words, none
above 30), counted with names of up to four words. What the sentences claim is checked against the
weighing by values at sampled weights.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from witnessmark.weighing import (
    CRITERIA,
    Option,
    Range,
    Ranges,
    Weighing,
    Weighting,
    Weights,
    weigh,
    who_leads,
)
from witnessmark.weighing.sentences import Account, account_of
from witnessmark.weighing.sentences.bound import bound_in_words

F = Fraction
Level = int | tuple[int, int, int]

RUNNING: Ranges = ((F(1, 5), F(1, 2)), (F(3, 10), F(3, 5)), (F(1, 10), F(2, 5)))
WEIGHTS: Weights = (F(7, 20), F(2, 5), F(1, 4))
EQUAL: Weights = (F(1, 3), F(1, 3), F(1, 3))
POLICY = Weighting(weights=WEIGHTS, ranges=RUNNING)


def option(name: str, *levels: Level) -> Option:
    first, second, third = (
        Range(*map(F, level)) if isinstance(level, tuple) else Range.certain(F(level))
        for level in levels
    )
    return Option(name, (first, second, third))


def named(*options: Option) -> dict[str, str]:
    return {each.id: each.id.capitalize() for each in options}


def account(*options: Option, weighting: Weighting = POLICY, **further: object) -> Account:
    weighing = weigh(options, weighting=weighting, **further)  # type: ignore[arg-type]
    return account_of(weighing, names=named(*options))


REBUSH, ROLLING, SHIM, KEEP = (
    option("rebush", 3, 3, 2),
    option("rolling", 1, 4, 1),
    option("shim", 3, 2, 3),
    option("keep", 4, 1, 3),
)
DOUBTFUL = (
    option("rebush", (2, 3, 4), 3, (1, 2, 3)),
    option("shim", 3, (1, 2, 3), 3),
    option("keep", 4, (0, 1, 2), 3),
)
GOOD, POOR = option("good", 4, 4, 4), option("poor", 1, 1, 1)


def test_a_lead_with_rivals_is_told_with_its_share_and_the_nearest_rival() -> None:
    expected = (
        "Rebush leads at our weights and for 85 in 100 of the weightings our policy allows.",
        "Shifting about 7 in 100 of the weight could put Keep ahead.",
        (
            "The result holds but is not firm: some allowed weightings favour another option and"
            " one step of one score would end its lead."
        ),
    )
    assert expected == account(REBUSH, ROLLING, SHIM, KEEP).lead


def test_a_lead_that_one_weight_decides_is_told_by_that_weight() -> None:
    # keep is ahead of rebush by 1 - 3 x the safety weight, by hand.
    lead = account(option("rebush", 3, 3, 3), option("keep", 4, 1, 4)).lead
    expected = "It stops leading only if safety counts for less than a third."
    assert expected == lead[1]


def test_a_lead_between_two_limits_of_one_weight_is_told_by_both() -> None:
    # rolling is ahead of rebush from a safety weight of 2/3 on, by hand.
    options = option("rebush", 3, 3, 3), option("keep", 4, 1, 4), option("rolling", 1, 4, 1)
    expected = "It leads only while safety counts for between a third and two thirds."
    assert expected == account(*options).lead[1]


def test_a_limit_that_only_decides_within_the_policy_says_so() -> None:
    # By hand: keep is ahead of rebush under a safety weight of 1/3; costly is ahead of it only over
    # an authenticity weight of 1/2, and the policy stops there.
    options = option("rebush", 3, 3, 3), option("keep", 4, 1, 4), option("costly", 4, 2, 2)
    expected = (
        "Within our policy's ranges it stops leading only if safety counts for less than a third."
    )
    assert expected == account(*options).lead[1]


def test_a_lead_that_only_forbidden_weights_would_end_says_so() -> None:
    # By hand: both rivals lead only outside the ranges, each beyond a limit of another weight.
    options = option("rebush", 3, 3, 3), option("keep", 4, 2, 2), option("undo", 1, 1, 4)
    expected = "Only weights outside our policy's ranges would end its lead."
    assert expected == account(*options).lead[1]


def test_a_close_call_gives_the_chance() -> None:
    expected = "It is a close call: its chance of being best is 52 in 100."
    assert expected == account(*DOUBTFUL).lead[2]


def test_a_firm_result_that_nothing_flips_says_that_nothing_flips_it() -> None:
    expected = (
        "Good leads at our weights and for every weighting our policy allows.",
        "Nothing flips this: no weighting, and no change of one score by whole steps.",
        "The result is firm.",
    )
    assert expected == account(GOOD, POOR).lead


def test_a_firm_result_other_weights_would_end_says_which() -> None:
    # By hand: good is ahead while 3(1 - s) > s, that is, under 3/4.
    expected = (
        "It stops leading only if safety counts for more than three quarters.",
        "The result is firm: no single step of one score would end its lead.",
    )
    assert expected == account(option("good", 4, 3, 4), option("poor", 1, 4, 1)).lead[1:]


def test_a_tie_is_left_to_the_reasons() -> None:
    expected = (
        "Keep and Rebush tie: they have exactly the same value at our weights.",
        "The least shift of the weights would part them.",
        "The figures do not choose between them; the written reasons must.",
    )
    options = option("rebush", 3, 3, 3), option("keep", 4, 1, 4)
    assert expected == account(*options, weighting=Weighting(weights=EQUAL)).lead


def test_equal_scores_are_said_to_tie_at_any_weights() -> None:
    expected = "Their scores are the same, so no weighting would part them."
    assert expected == account(option("one", 2, 2, 2), option("two", 2, 2, 2)).lead[1]


def test_equal_scores_are_said_to_be_equally_likely() -> None:
    expected = "Given the doubt in the scores, each of them is equally likely to be best."
    assert expected == account(option("one", 2, 2, 2), option("two", 2, 2, 2)).doubt[0]


def test_the_only_option_left_is_not_praised() -> None:
    expected = (
        "Only Keep is left, so nothing was weighed against it.",
        "That says nothing about how good it is.",
    )
    assert expected == account(KEEP).lead


def test_nothing_left_is_said_plainly() -> None:
    expected = ("No option is left to weigh.", "Each was set aside or has a score missing.")
    assert expected == account(KEEP, set_aside={"keep": "ruled out by law"}).lead


def test_without_weights_the_widest_favourite_is_named() -> None:
    expected = (
        "Our policy gives no weights here, so no option leads.",
        "More weightings favour B than any other: 56 in 100.",
    )
    found = account(option("a", 4, 1, 1), option("b", 0, 3, 3), weighting=Weighting())
    assert expected == found.lead


def test_weights_outside_the_policys_own_ranges_are_not_hidden() -> None:
    weighting = Weighting(weights=(F(1), F(0), F(0)), ranges=RUNNING)
    expected = "Keep leads at our weights, but for no weighting within our policy's ranges."
    options = option("keep", 4, 0, 0), option("rebush", 3, 4, 4)
    assert expected == account(*options, weighting=weighting).lead[0]


def test_a_chance_comes_with_the_runner_up_and_with_what_it_takes_for_granted() -> None:
    expected = (
        "Given the doubt in the scores, Rebush has a chance of 52 in 100 of being best.",
        "Next comes Shim with 31 in 100.",
        "These chances take the doubt in each score to be independent of the others.",
        "They give the low and the high level of a score one chance in four each.",
    )
    assert expected == account(*DOUBTFUL).doubt


def test_certain_scores_leave_no_doubt_to_tell() -> None:
    expected = ("At our weights, no doubt recorded in the scores would put another option ahead.",)
    assert expected == account(REBUSH, SHIM).doubt


def test_a_rival_with_the_higher_chance_is_named() -> None:
    # By hand, in thirds: shaky is worth 9 with chance 27/64, else 6 or less; steady 8 with chance
    # 3/4, else 9, where the two share it. So shaky is best with 27/64 x (3/4 + 1/8) = 189/512.
    shaky = option("shaky", (0, 3, 3), (0, 3, 3), (0, 3, 3))
    steady = option("steady", 2, 3, (3, 3, 4))
    expected = (
        "Given the doubt in the scores, Shaky has a chance of 37 in 100 of being best.",
        "Steady has a higher one, 63 in 100, though behind at likely scores.",
    )
    assert expected == account(shaky, steady, weighting=Weighting(weights=EQUAL)).doubt[:2]


def test_the_single_score_that_flips_the_result_is_named_with_how_many_more_there_are() -> None:
    expected = (
        "If the safety of Keep were 2 instead of 1, it would lead.",
        "Another 7 single changes of that size would also change the result.",
    )
    assert expected == account(REBUSH, ROLLING, SHIM, KEEP).flips


def test_steps_that_matter_are_named_with_who_would_pass() -> None:
    # At (3/10, 1/2, 1/5) keep has half the weight at level 4, rebush none, by hand.
    weighting = Weighting(weights=(F(3, 10), F(1, 2), F(1, 5)))
    options = option("rebush", 3, 3, 3), option("keep", 4, 1, 4)
    expected = (
        "If level 4 were worth enough more than the levels below it, Keep would pass Rebush.",
    )
    assert expected == account(*options, weighting=weighting).steps


def test_steps_that_do_not_matter_are_said_not_to() -> None:
    # Published idea, example made for this project: ahead at every level by weight reached.
    weighting = Weighting(weights=(F(1, 2), F(3, 10), F(1, 5)))
    expected = ("The result is the same however much each step of a score is worth.",)
    options = option("a", 4, 3, 2), option("b", 3, 2, 4)
    assert expected == account(*options, weighting=weighting).steps


def test_every_option_behind_gets_its_sentence() -> None:
    options = [
        option("a", 4, 0, 0),
        option("b", 0, 4, 0),
        option("c", 0, 0, 4),
        option("c2", 0, 0, 4),
        option("edge", 4, 0, 0),
        option("low", 0, 0, 0),
        option("middle", 1, 1, 1),
    ]
    weighting = Weighting(weights=(F(1, 5), F(3, 5), F(1, 5)))
    expected = (
        "A leads for 33 in 100 of all weightings.",
        "A scores the same as Edge.",
        "C leads for 33 in 100 of all weightings.",
        "C scores the same as C2.",
        "C2 leads for 33 in 100 of all weightings.",
        "Edge leads for 33 in 100 of all weightings.",
        "Low cannot lead: A is as good on every criterion and better on one.",
        "Nothing is as good as Middle on every criterion, yet no weighting favours it.",
    )
    assert expected == account(*options, weighting=weighting).others


def test_an_option_that_only_ties_says_so() -> None:
    options = option("keep", 4, 1, 4), option("rebush", 3, 3, 3), option("sleeve", 2, 3, 3)
    expected = "Sleeve can tie for the lead, but never leads alone."
    assert expected == account(*options).others[-1]


def test_an_option_the_policy_never_favours_is_told_from_one_it_may() -> None:
    expected = (
        "Keep leads for 9 in 100 of the weightings our policy allows.",
        "Rolling would lead only at weights outside our policy's ranges.",
        "Shim leads for 5 in 100 of the weightings our policy allows.",
    )
    assert expected == account(REBUSH, ROLLING, SHIM, KEEP).others


def test_what_setting_aside_costs_is_told_for_each() -> None:
    aside = {"rebush": "below the floor", "rolling": "ruled out", "twin": "misses the aim"}
    found = account(
        REBUSH,
        ROLLING,
        SHIM,
        option("twin", 3, 2, 3),
        set_aside=aside,
        not_scored=["paint", "wax"],
    ).aside
    expected = (
        "Paint has a score missing, so it was not weighed.",
        "Rebush was set aside; allowed back, it would lead.",
        "Rolling was set aside; allowed back, it would not lead.",
        "Twin was set aside; allowed back, it would tie for the lead.",
        "Wax has a score missing, so it was not weighed.",
    )
    assert expected == found


def test_an_option_without_a_short_name_is_called_by_its_id() -> None:
    weighing = weigh([KEEP], weighting=POLICY)
    expected = "Only keep is left, so nothing was weighed against it."
    assert expected == account_of(weighing, names={}).lead[0]


# The laws: length, and truth.

WORDS = st.sampled_from(["new", "bronze", "bushes", "leave", "rollers", "as", "found", "sleeve"])
NAMES = st.lists(WORDS, min_size=1, max_size=4).map(" ".join)
LEVELS = st.lists(st.integers(0, 4), min_size=3, max_size=3).map(sorted)
SCORES = st.lists(LEVELS, min_size=3, max_size=3)
CASES = st.dictionaries(
    st.sampled_from("abcdefgh"), st.tuples(SCORES, NAMES), min_size=1, max_size=6
)
PARTS = st.lists(st.integers(0, 6), min_size=3, max_size=3).filter(any)
POLICIES = st.sampled_from(
    [
        None,
        RUNNING,
        ((F(1, 2), F(1, 2)), (F(3, 10), F(3, 10)), (F(1, 5), F(1, 5))),
        ((F(1, 2), F(1, 2)), (F(1, 10), F(2, 5)), (F(0), F(1))),
    ]
)


def weighed(
    case: dict[str, tuple[list[list[int]], str]],
    parts: list[int] | None,
    ranges: Ranges | None,
    aside: set[str],
) -> tuple[Weighing, dict[str, str]]:
    options = [
        Option(name, (Range(*map(F, rows[0])), Range(*map(F, rows[1])), Range(*map(F, rows[2]))))
        for name, (rows, _) in case.items()
    ]
    shares = None if parts is None else [F(part, sum(parts)) for part in parts]
    weights = None if shares is None else (shares[0], shares[1], shares[2])
    weighing = weigh(
        options,
        weighting=Weighting(weights=weights, ranges=ranges),
        set_aside=dict.fromkeys(aside & set(case), "ruled out"),
        not_scored=["unscored"],
    )
    return weighing, {name: called for name, (_, called) in case.items()}


@settings(deadline=None, max_examples=120)
@given(CASES, st.one_of(st.none(), PARTS), POLICIES, st.sets(st.sampled_from("abc")))
def test_every_account_is_short_and_plain(
    case: dict[str, tuple[list[list[int]], str]],
    parts: list[int] | None,
    ranges: Ranges | None,
    aside: set[str],
) -> None:
    weighing, names = weighed(case, parts, ranges, aside)
    found = account_of(weighing, names=names)
    counts = [len(sentence.split()) for sentence in found.sentences]
    assert max(counts) <= 30
    assert sum(counts) <= 20 * len(counts)
    assert len(found.lead) in {2, 3}
    for sentence in found.sentences:
        assert sentence[0] == sentence[0].upper()
        assert sentence.endswith(".")
        assert " 0 in 100" not in sentence
        assert "None" not in sentence


def grid(steps: int) -> Iterator[Weights]:
    for a, s in product(range(steps + 1), repeat=2):
        if a + s <= steps:
            yield F(a, steps), F(s, steps), F(steps - a - s, steps)


LIMITS = {"a third": F(1, 3), "half": F(1, 2), "a quarter": F(1, 4)}
LIMITS |= {"two thirds": F(2, 3), "three quarters": F(3, 4)}


@settings(deadline=None, max_examples=60)
@given(st.dictionaries(st.sampled_from("abcd"), st.tuples(*[st.integers(0, 4)] * 3), min_size=2))
def test_a_limit_in_a_sentence_is_exactly_where_the_lead_ends(
    scores: dict[str, tuple[int, int, int]],
) -> None:
    options = [option(name, *levels) for name, levels in scores.items()]
    weighing = weigh(options, weighting=Weighting(weights=EQUAL))
    for winner in weighing.winner or ():
        words = bound_in_words(weighing.all_weights, option=winner)
        if words is None or not words.startswith("stops") or "%" in words:
            continue
        criterion = next(name for name in CRITERIA if name in words)
        limit = next(size for name, size in LIMITS.items() if words.endswith(name))
        sign = 1 if "less than" in words else -1
        for weights in grid(12):
            leads = winner in who_leads(options, weighting=Weighting(weights=weights)).winner
            expected = sign * (weights[CRITERIA.index(criterion)] - limit) >= 0
            assert expected == leads


@settings(deadline=None, max_examples=40)
@given(CASES, PARTS)
def test_the_least_shift_is_told_to_a_rival_that_can_lead(
    case: dict[str, tuple[list[list[int]], str]], parts: list[int]
) -> None:
    called = {name: (rows, f"option {name}") for name, (rows, _) in case.items()}
    weighing, names = weighed(called, parts, None, set())
    second = account_of(weighing, names=names).lead[1]
    if second.startswith("Shifting"):
        shares = {f"option {o.id}": o.share_all or 0 for o in weighing.options}
        rivals = [name for name in shares if f"{name} " in second]
        assert rivals
        assert all(shares[name] > 0 for name in rivals)


@pytest.mark.parametrize("criterion", CRITERIA)
def test_every_criterion_can_be_the_one_that_decides(criterion: str) -> None:
    place = CRITERIA.index(criterion)
    even = [option("wide", 3, 3, 3), option("sharp", *(4 if n == place else 1 for n in range(3)))]
    # By hand: sharp is ahead from a weight of 2/3 on.
    expected = f"It stops leading only if {criterion} counts for more than two thirds."
    assert expected == account(*even).lead[1]
