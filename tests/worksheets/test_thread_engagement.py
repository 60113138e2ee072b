"""What the example of the engagement sheet cannot say: both threads, both forms, and the limit."""

from __future__ import annotations

import math

import pytest

from witnessmark.worksheets import SheetRefuses, Verdict, find_sheet, run

SHEET = find_sheet("thread-engagement")
SCREW = {"thread": "M10x1.5", "bolt_strength": "800 MPa", "host_strength": "200 MPa"}


def value(name: str, **given: str) -> float:
    return float(run(SHEET, SCREW | given).results[name].value)


def test_a_weak_host_strips_first_on_the_basic_area_of_its_thread() -> None:
    # By hand: M10 basic internal shear area pi * 10 * (0.5 + 0.97428 / 2.59808) = 27.49 mm2 a mm.
    expected = 58.0 * 800 / (27.49 * 0.6 * 200)
    assert expected == pytest.approx(value("engagement"), rel=1e-3)
    assert "host" == run(SHEET, SCREW).results["governed_by"].value


def test_in_a_strong_host_the_bolt_thread_strips_first() -> None:
    # The other thread by hand: D1 = 10 - 1.082532 * 1.5 = 8.3762, d2 = 10 - 0.649519 * 1.5.
    area = math.pi * 8.3762 * (0.5 + (9.02572 - 8.3762) / (1.5 * math.sqrt(3)))
    expected = 58.0 / (area * 0.6)
    given = {"host_strength": "800 MPa"}
    assert expected == pytest.approx(value("engagement", **given), rel=1e-4)
    assert "bolt" == run(SHEET, SCREW | given).results["governed_by"].value


def test_the_handbook_formula_with_basic_sizes_is_the_bolt_thread_at_half_the_strength() -> None:
    # Le = 2 At / (pi Kn (1/2 + 0.57735 n (Es - Kn))) in inches; 3/4-10 UNC, basic sizes:
    # Kn = 0.75 - 0.1082532, Es = 0.75 - 0.0649519, At = 0.334 in2.
    kn, es = 0.6417468, 0.6850481
    expected = 2 * 0.334 / (math.pi * kn * (0.5 + 0.57735 * 10 * (es - kn))) * 25.4
    given = {"thread": "3/4-10 UNC", "host_strength": "800 MPa", "shear_share": "0.5"}
    assert expected == pytest.approx(value("engagement", **given), rel=1e-5)


def test_real_threads_are_given_a_third_more() -> None:
    assert value("engagement") / 0.75 == pytest.approx(value("engagement_as_made"))
    assert value("engagement_as_made") / 10 == pytest.approx(value("of_diameter"))


def test_whitworth_form_shears_on_its_own_flank() -> None:
    # 5/8 BSW: p = 25.4/11 mm, d - d2 = 0.640327 p, flank 27.5 degrees.
    d = 15.875
    expected = 0.75 * math.pi * d * (0.5 + 0.640327 * math.tan(math.radians(27.5)))
    assert expected == pytest.approx(value("host_area", thread="5/8 BSW"))


@pytest.mark.parametrize(
    ("available", "verdict"),
    [("18 mm", Verdict.BEYOND), ("19 mm", Verdict.NEAR), ("25 mm", Verdict.WITHIN)],
)
def test_a_hole_is_judged_by_the_longer_length(available: str, verdict: Verdict) -> None:
    # As made: 14.07 / 0.75 = 18.75 mm.
    assert verdict is run(SHEET, SCREW | {"available": available}).verdict


def test_more_than_two_diameters_is_cautioned() -> None:
    words = "Over two diameters"
    assert any(words in text for text in run(SHEET, SCREW | {"host_strength": "180 MPa"}).cautions)
    assert not any(words in text for text in run(SHEET, SCREW).cautions)


def test_a_thread_without_a_known_pitch_is_refused() -> None:
    with pytest.raises(SheetRefuses, match="no pitch"):
        run(SHEET, SCREW | {"thread": "M13"})
