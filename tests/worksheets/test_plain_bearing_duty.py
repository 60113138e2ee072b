"""What the examples of the plain bearing sheet cannot say: the table, verdicts and cautions."""

from __future__ import annotations

from fractions import Fraction

import pytest

from witnessmark.model.units import UNITS
from witnessmark.worksheets import Verdict, find_sheet, run
from witnessmark.worksheets.bearing_metals import bearing_metals

SHEET = find_sheet("plain-bearing-duty")
POST = {"load": "31 kN", "diameter": "65 mm", "length": "80 mm", "speed": "2 rpm"}


def cautioned(words: str, **given: str) -> bool:
    return any(words in text for text in run(SHEET, POST | given).cautions)


def test_a_slow_heavy_bush_is_reckoned_on_its_projected_area() -> None:
    # By hand: 31000 / (65 * 80) = 5.9615 MPa; pi * 0.065 * 2 / 60 = 0.0068068 m/s.
    reached = run(SHEET, POST).results
    expected = (5.961538, 0.006806784, 0.04057890)
    given = tuple(reached[name].value for name in ("pressure", "velocity", "pv"))
    assert expected == pytest.approx(given, rel=1e-6)


def test_without_a_limit_nothing_is_judged_and_the_reader_is_told() -> None:
    assert run(SHEET, POST).verdict is None
    assert cautioned("nothing is judged")


def test_a_metal_brings_its_published_limits_and_says_where_they_come_from() -> None:
    reached = run(SHEET, POST | {"material": "leaded-tin-bronze"})
    assert reached.verdict is Verdict.WITHIN
    assert "Mott, Table 16-1" in str(reached.results["limits_from"].value)


def test_cast_iron_has_no_published_limit() -> None:
    assert run(SHEET, POST | {"material": "cast-iron"}).verdict is None
    assert cautioned("nothing is judged", material="cast-iron")


# PV of a porous bronze bush: 0.7 MPa m/s in one list, 1.75 (50 000 psi ft/min) in another.
@pytest.mark.parametrize(
    ("speed", "verdict"),
    [
        ("30 rpm", Verdict.WITHIN),  # 0.61 MPa m/s
        ("33 rpm", Verdict.NEAR),  # 0.67
        ("40 rpm", Verdict.CANNOT_TELL),  # 0.81
        ("85 rpm", Verdict.CANNOT_TELL),  # 1.72
        ("90 rpm", Verdict.BEYOND),  # 1.83
    ],
)
def test_a_duty_between_two_published_limits_is_not_passed(speed: str, verdict: Verdict) -> None:
    assert verdict is run(SHEET, POST | {"speed": speed, "material": "porous-bronze"}).verdict


def test_a_disagreement_of_the_sources_is_named() -> None:
    reached = run(SHEET, POST | {"speed": "40 rpm", "material": "porous-bronze"})
    assert any("disagree" in limit.because for limit in reached.limits)


def test_a_band_across_the_higher_published_limit_cannot_tell() -> None:
    given = {"speed": "87 ± 2 rpm", "material": "porous-bronze"}
    assert run(SHEET, POST | given).verdict is Verdict.CANNOT_TELL


def test_a_typed_limit_takes_the_place_of_the_published_one_and_says_so() -> None:
    given = {"material": "leaded-tin-bronze", "pressure_limit": "5 MPa"}
    assert run(SHEET, POST | given).verdict is Verdict.BEYOND
    assert cautioned("typed one is used", **given)


def test_a_metal_with_some_limits_says_that_others_are_not_judged() -> None:
    assert cautioned("those are not judged", material="tin-babbitt")
    assert not cautioned("those are not judged", material="leaded-tin-bronze")


@pytest.mark.parametrize("length", ["16 mm", "131 mm"])
def test_a_very_short_or_long_bush_is_cautioned(length: str) -> None:
    assert cautioned("quarter of its diameter", length=length)
    assert not cautioned("quarter of its diameter")


def test_a_standing_shaft_is_judged_by_pressure_alone() -> None:
    reached = run(SHEET, POST | {"speed": "0 rpm", "material": "leaded-tin-bronze"})
    assert 0.0 == reached.results["pv"].value
    assert reached.verdict is Verdict.WITHIN


@pytest.mark.parametrize(
    ("metal", "name", "unit", "low", "high"),
    [
        # The same pages print both units: 3000 psi is 20.7 MPa, 75 000 psi ft/min is 2.63 MPa m/s.
        ("leaded-tin-bronze", "pressure", "MPa", 20.68, 20.68),
        ("leaded-tin-bronze", "pv", "MPa m/s", 2.627, 2.627),
        ("aluminium-bronze", "pv", "MPa m/s", 4.378, 4.378),
        ("manganese-bronze", "pv", "MPa m/s", 5.254, 5.254),
        # Carvill page 103 prints 800-1500 psi and 800-1160 psi beside these.
        ("tin-babbitt", "pressure", "psi", 798, 1494),
        ("lead-babbitt", "pressure", "psi", 798, 1160),
        ("porous-bronze", "pv", "psi ft/min", 19986, 50000),
    ],
)
def test_the_table_agrees_with_the_other_unit_its_source_prints(
    metal: str, name: str, unit: str, low: float, high: float
) -> None:
    allowed = getattr(bearing_metals()[metal], name)
    shown = tuple(
        float(UNITS[unit].from_base(Fraction(end))) for end in (allowed.low, allowed.high)
    )
    assert (low, high) == pytest.approx(shown, rel=1e-3)


def test_no_speed_limit_is_shipped_where_the_printed_one_looks_wrong() -> None:
    assert bearing_metals()["manganese-bronze"].velocity is None
