"""What the examples of the wear sheet cannot say: refusals, a second way, verdicts."""

from __future__ import annotations

import math
import random
import statistics

import pytest

from witnessmark.worksheets import SheetRefuses, Verdict, find_sheet, run

SHEET = find_sheet("wear-life")
BORE = {
    "first": "60.12 mm",
    "second": "60.31 mm",
    "limit": "60.60 mm",
    "interval": "820 h",
    "instrument": "0.01 mm",
}


def value(name: str, **given: str) -> float:
    return float(run(SHEET, BORE | given).results[name].value)


def test_the_uncertainty_is_that_of_many_simulated_pairs_of_readings() -> None:
    # JCGM 101:2008 (Monte Carlo), seeded: uniform readings of half-width 0.01 mm about both sizes.
    rng = random.Random(20240311)  # noqa: S311 - a simulation, not a secret
    lives = []
    for _ in range(40_000):
        first, second = (size + rng.uniform(-0.01, 0.01) for size in (60.12, 60.31))
        lives.append((60.60 - second) * 820 / (second - first))
    assert statistics.stdev(lives) == pytest.approx(value("standard_uncertainty"), rel=0.02)


def test_the_band_of_what_remains_is_the_expanded_uncertainty() -> None:
    reached = run(SHEET, BORE).results
    expected = reached["expanded_uncertainty"].value
    assert expected == pytest.approx(reached["remaining"].plus_minus)
    assert reached["use_until"].plus_minus is None


def test_the_rate_carries_the_band_of_both_readings() -> None:
    # By hand: 0.19 / 820 = 2.317e-4 mm/h; 2 * sqrt(2) * 0.01 / sqrt(3) / 820 mm/h.
    rate = run(SHEET, BORE).results["rate"]
    expected = (0.19 / 820, 2 * math.sqrt(2 / 3) * 0.01 / 820)
    assert expected == pytest.approx((rate.value, rate.plus_minus))


def test_a_shrinking_shaft_wears_as_a_growing_bore_does() -> None:
    shaft = {"first": "59.88 mm", "second": "59.69 mm", "limit": "59.40 mm"}
    assert value("remaining") == pytest.approx(value("remaining", **shaft))
    assert value("rate") == pytest.approx(-value("rate", **shaft))


@pytest.mark.parametrize(
    ("given", "words"),
    [
        # The wear 0.016 mm against 2 * sqrt(2) * 0.01 / sqrt(3) = 0.01633 mm.
        ({"second": "60.136 mm"}, "no life can be given"),
        ({"second": "60.12 mm"}, "no life can be given"),
        ({"second": "60.05 mm"}, "moved away from the limit"),
        ({"limit": "60.00 mm"}, "moved away from the limit"),
    ],
)
def test_no_life_is_given_where_none_can_be_known(given: dict[str, str], words: str) -> None:
    with pytest.raises(SheetRefuses, match=words) as caught:
        run(SHEET, BORE | given)
    assert ["second"] == [fault.name for fault in caught.value.faults]


def test_wear_just_over_its_uncertainty_gives_a_life() -> None:
    assert value("remaining", second="60.137 mm") > 0


@pytest.mark.parametrize("name", ["first", "second", "limit", "interval"])
def test_a_band_is_taken_from_the_instrument_alone(name: str) -> None:
    number, unit = BORE[name].split()
    with pytest.raises(SheetRefuses, match="'instrument'") as caught:
        run(SHEET, BORE | {name: f"{number} ± 0.01 {unit}"})
    assert [name] == [fault.name for fault in caught.value.faults]


@pytest.mark.parametrize(
    ("given", "verdict"),
    [
        ({}, Verdict.WITHIN),
        ({"wanted": "1000 h"}, Verdict.WITHIN),
        ({"wanted": "1200 h"}, Verdict.CANNOT_TELL),  # 1252 ± 147 h
        ({"wanted": "1500 h"}, Verdict.BEYOND),
        ({"second": "60.59 mm"}, Verdict.CANNOT_TELL),  # 17 ± 21 h
        ({"second": "60.70 mm"}, Verdict.BEYOND),
        ({"wanted": "1190 h", "instrument": "0.001 mm"}, Verdict.NEAR),  # 1252 ± 15 h
    ],
)
def test_the_verdict_is_on_the_running_wanted_or_on_the_limit_itself(
    given: dict[str, str], verdict: Verdict
) -> None:
    assert verdict is run(SHEET, BORE | given).verdict


def test_a_limit_passed_gives_what_is_past_and_says_so() -> None:
    reached = run(SHEET, BORE | {"second": "60.70 mm"})
    expected = (60.60 - 60.70) * 820 / 0.58
    assert expected == pytest.approx(reached.results["remaining"].value)
    assert any("no running is left" in text for text in reached.cautions)


def test_a_barely_resolved_rate_is_cautioned() -> None:
    words = "less than twice its own uncertainty"
    assert any(words in text for text in run(SHEET, BORE | {"second": "60.15 mm"}).cautions)
    assert not any(words in text for text in run(SHEET, BORE).cautions)


def test_the_reader_is_not_told_that_no_band_was_given() -> None:
    assert not [text for text in run(SHEET, BORE).cautions if "No ± was given" in text]
