"""What the examples of the sling sheet cannot say: angle words, legs that count, refusals."""

from __future__ import annotations

import pytest

from witnessmark.worksheets import SheetRefuses, Verdict, find_sheet, run

SHEET = find_sheet("sling-legs")
TWO = {"load": "10 kN", "legs": "2", "angle": "60 deg", "angle_from": "horizontal"}


def pull(**given: str) -> float:
    value = run(SHEET, TWO | given).results["leg_tension"].value
    assert isinstance(value, float)
    return value


# A sling maker's tension factor chart (seen), angle from the level.
@pytest.mark.parametrize(
    ("angle", "factor"),
    [(90, 1.000), (75, 1.035), (70, 1.064), (65, 1.104), (55, 1.221), (50, 1.305), (30, 2.000)],
)
def test_the_factor_is_that_of_a_published_chart(angle: int, factor: float) -> None:
    ours = run(SHEET, TWO | {"angle": f"{angle} deg"}).results["factor"].value
    assert factor == pytest.approx(ours, abs=0.0008)


@pytest.mark.parametrize(
    ("angle", "angle_from"),
    [("60 deg", "horizontal"), ("30 deg", "vertical"), ("60 deg", "included")],
)
def test_one_spread_gives_one_pull_whatever_it_is_measured_from(
    angle: str, angle_from: str
) -> None:
    expected = 10 / 2 * 2 / 3**0.5
    assert expected == pytest.approx(pull(angle=angle, angle_from=angle_from))


@pytest.mark.parametrize(
    ("legs", "loaded", "share"),
    [("2", "", 2), ("3", "", 2), ("4", "", 2), ("4", "3", 3), ("3", "1", 1)],
)
def test_two_legs_are_counted_unless_more_are_said_to_be_loaded(
    legs: str, loaded: str, share: int
) -> None:
    given = {"legs": legs, "angle": "90 deg"} | ({"loaded_legs": loaded} if loaded else {})
    assert 10 / share == pytest.approx(pull(**given))


def test_three_loaded_legs_at_45_degrees_carry_2_1_times_one_leg() -> None:
    # British uniform load method, 3 and 4 legs at 0 to 45 degrees from the vertical: 2.1 (memory).
    expected = 2.1
    carried = 10 / pull(legs="4", loaded_legs="3", angle="45 deg", angle_from="vertical")
    assert expected == pytest.approx(carried, abs=0.03)


# Two-leg factors of the British uniform load method: 1.4 up to 90, 1.0 up to 120 degrees (seen).
@pytest.mark.parametrize(("angle", "factor"), [("90 deg", 1.4), ("120 deg", 1.0)])
def test_the_uniform_load_method_is_met_at_its_own_ends(angle: str, factor: float) -> None:
    carried = 10 / pull(angle=angle, angle_from="included")
    assert factor == pytest.approx(carried, abs=0.015)


@pytest.mark.parametrize(
    "given",
    [
        {"angle": "29.9 deg"},
        {"angle": "91 deg"},
        {"angle": "60.1 deg", "angle_from": "vertical"},
        {"angle": "0 deg"},
        {"legs": "1"},
    ],
)
def test_a_leg_that_must_not_be_used_so_gets_no_figure(given: dict[str, str]) -> None:
    with pytest.raises(SheetRefuses) as caught:
        run(SHEET, TWO | given)
    assert ["angle"] == [fault.name for fault in caught.value.faults]


def test_a_single_leg_straight_down_carries_the_load() -> None:
    assert 10 == pytest.approx(pull(legs="1", angle="0 deg", angle_from="vertical"))


def test_more_loaded_legs_than_legs_are_refused_by_name() -> None:
    with pytest.raises(SheetRefuses, match="cannot be loaded") as caught:
        run(SHEET, TWO | {"loaded_legs": "3"})
    assert ["loaded_legs"] == [fault.name for fault in caught.value.faults]


def test_a_mass_is_refused_where_a_weight_is_wanted() -> None:
    with pytest.raises(SheetRefuses, match="is a mass, and a force is wanted"):
        run(SHEET, TWO | {"load": "1 tonne"})


@pytest.mark.parametrize(
    ("rating", "verdict"),
    [
        ("8 kN", Verdict.WITHIN),
        ("6 kN", Verdict.NEAR),
        ("5 kN", Verdict.BEYOND),
    ],
)
def test_the_pull_must_keep_to_the_rating_of_a_leg(rating: str, verdict: Verdict) -> None:
    assert verdict is run(SHEET, TWO | {"leg_rating": rating}).verdict


def test_a_doubtful_angle_leaves_the_verdict_open() -> None:
    given = {"angle": "45 ± 5 deg", "leg_rating": "7.3 kN"}
    assert Verdict.CANNOT_TELL is run(SHEET, TWO | given).verdict


def test_a_band_that_reaches_under_30_degrees_is_refused() -> None:
    with pytest.raises(SheetRefuses, match="The stated ± reaches values"):
        run(SHEET, TWO | {"angle": "31 ± 5 deg"})


@pytest.mark.parametrize(
    ("words", "given", "said"),
    [
        ("only two are counted", {"legs": "4"}, True),
        ("only two are counted", {}, False),
        ("only with an equaliser", {"legs": "4", "loaded_legs": "4"}, True),
        ("only with an equaliser", {"legs": "4"}, False),
        ("more than 90 degrees", {"angle": "40 deg"}, True),
        ("more than 90 degrees", {"angle": "45 deg"}, False),
    ],
)
def test_a_doubtful_rig_is_cautioned(*, words: str, given: dict[str, str], said: bool) -> None:
    assert said is any(words in text for text in run(SHEET, TWO | given).cautions)
