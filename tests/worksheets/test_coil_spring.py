"""What the examples of the spring sheet cannot say: laws, refusals, limits and cautions."""

from __future__ import annotations

import pytest

from witnessmark.worksheets import SheetRefuses, Verdict, find_sheet, run

SHEET = find_sheet("coil-spring")
SPRING = {
    "wire": "5 mm",
    "mean_diameter": "30 mm",
    "active_coils": "15",
    "shear_modulus": "84 GPa",
}


def value(name: str, **given: str) -> float:
    return float(run(SHEET, SPRING | given).results[name].value)


def test_the_rate_goes_with_the_fourth_power_of_the_wire() -> None:
    ratio = value("rate", wire="10 mm") / value("rate")
    assert 16.0 == pytest.approx(ratio)


def test_wahl_over_direct_shear_is_the_curvature_of_the_book() -> None:
    # Jindal 8-1, worked right: Ks = 1 + 0.5 / C = 1.0833, and Kw / Ks = 1.156.
    assert 1.156 == pytest.approx(value("wahl") / (1 + 0.5 / 6), abs=5e-4)


def test_without_a_load_only_the_spring_itself_is_told() -> None:
    assert {"index", "rate", "wahl"} == run(SHEET, SPRING).results.keys()


@pytest.mark.parametrize("mean", ["5 mm", "4 mm"])
def test_a_coil_no_larger_than_its_wire_is_refused(mean: str) -> None:
    with pytest.raises(SheetRefuses, match="less one wire") as caught:
        run(SHEET, SPRING | {"mean_diameter": mean})
    assert ["mean_diameter"] == [fault.name for fault in caught.value.faults]


@pytest.mark.parametrize(
    ("words", "given", "is_said"),
    [
        ("outside 4 to 12", {"mean_diameter": "19.9 mm"}, True),
        ("outside 4 to 12", {"mean_diameter": "20 mm"}, False),
        ("outside 4 to 12", {"mean_diameter": "60.1 mm"}, True),
        ("without a load", {"travel": "20 mm"}, True),
        ("without a load", {"travel": "20 mm", "load": "300 N"}, False),
    ],
)
def test_a_doubtful_spring_is_cautioned(
    words: str, given: dict[str, str], *, is_said: bool
) -> None:
    assert is_said is any(words in text for text in run(SHEET, SPRING | given).cautions)


@pytest.mark.parametrize(
    ("given", "verdict"),
    [
        ({}, None),
        ({"travel": "18 mm"}, Verdict.BEYOND),  # 18.51 mm
        ({"travel": "20 mm"}, Verdict.NEAR),
        ({"travel": "30 mm"}, Verdict.WITHIN),
        ({"travel": "30 mm", "allowed_stress": "200 MPa"}, Verdict.BEYOND),  # 229.7 MPa
        ({"travel": "19 mm", "wire": "5 ± 0.05 mm"}, Verdict.CANNOT_TELL),
    ],
)
def test_stress_and_travel_are_held_to_their_limits(
    given: dict[str, str], verdict: Verdict | None
) -> None:
    assert verdict is run(SHEET, SPRING | {"load": "300 N"} | given).verdict


def test_half_a_tenth_of_wire_is_two_per_cent_of_the_rate() -> None:
    # By hand: 0.05 mm in 10 mm is 2 % of the fourth power; then k = 2 of a uniform band.
    given = {"wire": "10 ± 0.05 mm", "mean_diameter": "60 mm"}
    rate = run(SHEET, SPRING | given).results["rate"]
    assert rate.plus_minus is not None
    assert 0.02 * 2 / 3**0.5 == pytest.approx(rate.plus_minus / float(rate.value), rel=1e-3)
