"""What the examples of the sag sheet cannot say: the catenary a second way, limits, cautions."""

from __future__ import annotations

import math

import pytest

from witnessmark.worksheets import SheetRefuses, Verdict, find_sheet, run

SHEET = find_sheet("track-sag")
RUN = {"span": "2 m", "sag": "0.05 m", "weight_per_length": "1200 N/m"}


def value(name: str, **given: str) -> float:
    return float(run(SHEET, RUN | given).results[name].value)


def test_the_pull_is_that_of_the_parabola() -> None:
    # By hand: 1200 * 4 / 0.4 = 12 000 N; hypot(12 000, 1200); 2 (1 + 8/3 * 0.025^2).
    expected = [12000.0, math.hypot(12000, 1200), 2 * (1 + 8 / 3 * 0.025**2)]
    names = ("horizontal_tension", "greatest_tension", "length")
    assert expected == pytest.approx([value(name) for name in names])


def test_the_catenary_of_a_known_length_is_found_from_its_sag() -> None:
    # Tayal 10.6: half length S = 100 m and sag 50 m give c = (S^2 - s^2) / 2s = 75 m, a pull at the
    # ends of w (c + s) = 49.05 * 125 = 6131.25 N, and the span 2 c asinh(S / c).
    span = 2 * 75 * math.asinh(100 / 75)
    given = {"span": f"{span:.12f} m", "sag": "50 m", "weight_per_length": "49.05 N/m"}
    expected = [6131.25, 200.0]
    names = ("catenary_tension", "catenary_length")
    assert expected == pytest.approx([value(name, **given) for name in names])


def test_a_flat_run_is_the_same_by_both_curves() -> None:
    # Within w * sag / 6 of each other for small sags: c = L^2/(8 s) + s/6 to first order.
    assert value("greatest_tension") == pytest.approx(value("catenary_tension"), rel=1e-3)


def test_a_very_taut_run_is_still_found() -> None:
    taut = {"sag": "1e-6 m"}
    assert value("horizontal_tension", **taut) == pytest.approx(value("catenary_tension", **taut))


@pytest.mark.parametrize(
    ("sag", "is_said"), [("0.2 m", False), ("0.201 m", True), ("0.05 m", False)]
)
def test_a_deep_sag_is_out_of_range_of_the_parabola(sag: str, *, is_said: bool) -> None:
    told = run(SHEET, RUN | {"sag": sag}).cautions
    assert is_said is any("out of its range" in text for text in told)


def test_a_sag_of_fifty_spans_is_a_slip() -> None:
    with pytest.raises(SheetRefuses, match="slip in a unit"):
        run(SHEET, RUN | {"sag": "101 m"})


@pytest.mark.parametrize(
    ("limit", "verdict"),
    [("12 kN", Verdict.BEYOND), ("13 kN", Verdict.NEAR), ("15 kN", Verdict.WITHIN)],
)
def test_the_pull_is_held_to_its_limit(limit: str, verdict: Verdict) -> None:
    # Greatest pull 12 060 N.
    assert verdict is run(SHEET, RUN | {"tension_limit": limit}).verdict


def test_an_uncertain_sag_gives_an_uncertain_pull() -> None:
    # The pull goes with one over the sag: 5 % of sag is 5 % of pull, k = 2 of a uniform band.
    pull = run(SHEET, RUN | {"sag": "0.05 m ± 5 %"}).results["horizontal_tension"]
    assert pull.plus_minus is not None
    assert 0.05 * 2 / 3**0.5 == pytest.approx(pull.plus_minus / 12000, rel=5e-3)
