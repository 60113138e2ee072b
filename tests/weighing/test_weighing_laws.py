"""Laws that every weighing keeps, whatever the scores, weights and ranges, tried with hypothesis.

The laws are the usual ones of the linear additive model (common practice): they follow from its
definition, so no run of the program could excuse a breach. Where a published figure exists it is
named beside the test.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from witnessmark.weighing import (
    Option,
    Range,
    Ranges,
    Weighing,
    Weighting,
    Weights,
    weigh,
)

F = Fraction
TRIED = settings(deadline=None, max_examples=30)

LEVEL = st.fractions(0, 4, max_denominator=4)
DOUBTFUL = st.lists(LEVEL, min_size=3, max_size=3).map(sorted).map(lambda row: Range(*row))
SCORES = st.tuples(DOUBTFUL, DOUBTFUL, DOUBTFUL)
OPTIONS = st.lists(SCORES, min_size=2, max_size=4).map(
    lambda rows: [Option(f"o{place}", row) for place, row in enumerate(rows)]
)
POINTS = st.tuples(*[st.integers(1, 9)] * 3)


@st.composite
def weightings(draw: st.DrawFn) -> Weighting:
    """Some weights, and ranges of some width around them: never empty, never a mere point."""
    points = draw(POINTS)
    first, second, third = (F(point, sum(points)) for point in points)
    room = F(draw(st.integers(1, 30)), 100)
    ranges: Ranges = (_around(first, room), _around(second, room), _around(third, room))
    return Weighting(weights=(first, second, third), ranges=ranges)


def _around(weight: Fraction, room: Fraction) -> tuple[Fraction, Fraction]:
    return max(F(0), weight - room), min(F(1), weight + room)


def shares(weighing: Weighing, *, without: str = "") -> dict[str, tuple[F | None, F | None]]:
    found = {o.id: (o.share_all, o.share_policy) for o in weighing.options}
    found.pop(without, None)
    return found


@TRIED
@given(OPTIONS, weightings(), st.integers(0, 2), st.data())
def test_adding_a_dominated_option_changes_no_share(
    options: list[Option], weighting: Weighting, place: int, data: st.DataObject
) -> None:
    better = data.draw(st.sampled_from(options))
    assume(better.likelies[place] >= F(1, 2))
    worse = replace(better, id="worse", scores=_lowered(better, place, F(1, 2)))
    before = weigh(options, weighting=weighting)
    after = weigh([*options, worse], weighting=weighting)
    assert shares(before) == shares(after, without="worse")
    assert (F(0), F(0)) == shares(after)["worse"]


@TRIED
@given(OPTIONS, weightings(), st.integers(0, 2), LEVEL, st.data())
def test_lowering_a_score_never_helps_its_option(
    options: list[Option], weighting: Weighting, place: int, by: Fraction, data: st.DataObject
) -> None:
    hurt = data.draw(st.sampled_from(options))
    lower = replace(hurt, scores=_lowered(hurt, place, by))
    before = weigh(options, weighting=weighting).of(hurt.id)
    changed = [lower if option is hurt else option for option in options]
    after = weigh(changed, weighting=weighting).of(hurt.id)
    for figure in ("value", "share_all", "share_policy", "chance_best"):
        assert getattr(after, figure) <= getattr(before, figure), figure


@TRIED
@given(OPTIONS, weightings(), st.data())
def test_the_order_of_the_options_never_matters(
    options: list[Option], weighting: Weighting, data: st.DataObject
) -> None:
    shuffled = data.draw(st.permutations(options))
    assert weigh(options, weighting=weighting) == weigh(shuffled, weighting=weighting)


@TRIED
@given(OPTIONS, weightings(), SCORES)
def test_no_other_option_changes_what_an_option_is_worth(
    options: list[Option], weighting: Weighting, newcomer: tuple[Range, Range, Range]
) -> None:
    """So nothing is normalised to the options at hand, which would let a loser reverse the rest."""
    before = weigh(options, weighting=weighting)
    after = weigh([*options, Option("newcomer", newcomer)], weighting=weighting)
    for option in before.options:
        assert option.value == after.of(option.id).value


@pytest.mark.parametrize("with_third", [True, False])
def test_a_third_option_does_not_reverse_the_other_two(*, with_third: bool) -> None:
    """By hand: 0.3 x 2 + 0.5 x 2 + 0.2 x 1 and so on.

    Scaled between the worst and the best at hand, a would be worth .63 to .57 of b with c there,
    and .3 to .7 without.
    """
    rows = {"a": (2, 2, 1), "b": (1, 3, 2), **({"c": (1, 0, 4)} if with_third else {})}
    options = [
        Option(name, (Range.certain(F(x)), Range.certain(F(y)), Range.certain(F(z))))
        for name, (x, y, z) in rows.items()
    ]
    weighing = weigh(options, weighting=Weighting(weights=(F(3, 10), F(1, 2), F(1, 5))))
    assert (F(9, 5), F(11, 5)) == (weighing.of("a").value, weighing.of("b").value)


def _lowered(option: Option, place: int, by: Fraction) -> tuple[Range, Range, Range]:
    """The scores with one of them lower, all its three levels alike, never below 0."""
    rows = list(option.scores)
    low, likely, high = (
        max(F(0), level - by) for level in (rows[place].low, rows[place].likely, rows[place].high)
    )
    rows[place] = Range(low, likely, high)
    return rows[0], rows[1], rows[2]


def _middle(parts: list[tuple[Fraction, Weights]]) -> Weights:
    first, second, third = (
        sum((share * weights[place] for share, weights in parts), F(0)) for place in range(3)
    )
    return first, second, third


@TRIED
@given(OPTIONS)
def test_central_weights_balance_about_the_middle_of_all_weights(options: list[Option]) -> None:
    """Weighted by the shares, the central weights average to a third each."""
    alone = list({option.likelies: option for option in options}.values())
    weighing = weigh(alone, weighting=Weighting())
    parts = [
        (option.share_all, option.central_weights)
        for option in weighing.options
        if option.share_all and option.central_weights
    ]
    assert (F(1, 3), F(1, 3), F(1, 3)) == _middle(parts)


def test_the_published_central_weights_of_two_medicines_balance_likewise() -> None:
    """The R package smaa prints these figures for its thrombolytics example (10,000 draws).

    Its data are not ours to ship and the scores were drawn, not judged, so only the printed figures
    are used: they keep the law above up to the error of so many draws (four times 1/sqrt(12 n), and
    what four printed digits leave out).
    """
    heparin = (F("0.3504"), (F("0.1865097"), F("0.2772205"), F("0.5362698")))
    enoxaparin = (F("0.6496"), (F("0.4073100"), F("0.3641477"), F("0.2285423")))
    found = _middle([heparin, enoxaparin])
    assert [1 / 3] * 3 == pytest.approx([float(part) for part in found], abs=0.012)
    assert heparin[0] + enoxaparin[0] == 1
