"""What the examples of the lean sheet cannot say: sides, bands and verdicts."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.worksheets import Verdict, find_sheet, run

SHEET = find_sheet("ride-lean")
LEANS = {"left": "480 mm", "right": "500 mm", "track": "2000 mm"}


def test_a_machine_low_on_the_left_leans_with_a_minus_sign() -> None:
    results = run(SHEET, LEANS).results
    # By hand: arctan(-20 / 2000) = -0.57294 degrees.
    expected = (-20, -0.57294, 20)
    ours = tuple(results[name].value for name in ("difference", "angle", "unevenness"))
    assert expected == pytest.approx(ours, abs=1e-5)


def test_a_level_machine_leans_nowhere() -> None:
    assert 0 == run(SHEET, LEANS | {"left": "500 mm"}).results["angle"].value


@pytest.mark.parametrize(
    ("left", "verdict"),
    [
        ("490 mm", Verdict.WITHIN),
        ("510 mm", Verdict.WITHIN),
        ("477 mm", Verdict.NEAR),
        ("470 mm", Verdict.BEYOND),
        ("530 mm", Verdict.BEYOND),
        ("476 ± 2 mm", Verdict.CANNOT_TELL),
    ],
)
def test_a_lean_to_either_side_meets_the_limit(left: str, verdict: Verdict) -> None:
    assert verdict is run(SHEET, LEANS | {"left": left, "allowed": "25 mm"}).verdict


def test_the_band_of_the_angle_follows_both_heights() -> None:
    # JCGM 100:2008, 5.1.2, by hand: U = 2 * sqrt(2) * 2 mm / sqrt(3) / 2000 mm, in degrees.
    reached = run(SHEET, LEANS | {"left": "480 ± 2 mm", "right": "500 ± 2 mm"}).results["angle"]
    expected = math.degrees(2 * math.sqrt(2) * 2 / math.sqrt(3) / 2000)
    assert expected == pytest.approx(reached.plus_minus, rel=1e-3)


def test_an_impossible_lean_is_cautioned() -> None:
    cautions = run(SHEET, LEANS | {"left": "1200 mm"}).cautions
    assert any("1 in 4" in text for text in cautions)


@given(st.integers(0, 5000), st.integers(0, 5000))
def test_swapping_the_sides_only_turns_the_sign(left: int, right: int) -> None:
    one = {"left": f"{left} mm", "right": f"{right} mm", "track": "2000 mm"}
    other = {"left": f"{right} mm", "right": f"{left} mm", "track": "2000 mm"}
    there, back = (run(SHEET, heights).results["angle"].value for heights in (one, other))
    assert isinstance(back, float)
    assert there == -back
