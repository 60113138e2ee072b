"""Ground pressures: the mean, the peaks, and what they must not be used for."""

from __future__ import annotations

import pytest

from witnessmark.worksheets import SheetRefuses, Verdict, find_sheet, run

SHEET = find_sheet("ground-pressure")
PLOUGH = {"weight": "100 kN", "track_width": "400 mm", "contact_length": "2200 mm"}
GEAR = {"wheels_per_side": "5", "wheel_diameter": "250 mm", "pitch": "170 mm"}


def figure(name: str, **given: str) -> float:
    value = run(SHEET, PLOUGH | given).results[name].value
    assert isinstance(value, float)
    return value


def test_the_mean_is_the_weight_over_both_tracks() -> None:
    # By hand: 100 kN / (2 x 0.4 m x 2.2 m) = 56.818 kPa.
    assert 56.818 == pytest.approx(figure("nominal"), abs=5e-4)


def test_the_peaks_are_by_rowlands_formula() -> None:
    # By hand: 1.26 x 100 / (2 x 5 x 0.4 x sqrt(0.17 x 0.25)) = 152.8 kPa; no worked example was
    # found in print.
    assert 152.8 == pytest.approx(figure("mean_maximum", **GEAR), abs=0.05)


def test_open_links_press_harder() -> None:
    whole, open_ = (figure("mean_maximum", **GEAR, link_area_ratio=ratio) for ratio in ("1", "0.8"))
    assert whole / 0.8 == pytest.approx(open_)


def test_wider_shoes_press_less_in_their_ratio() -> None:
    # A handbook of excavators (seen) prints 36.8 kPa on 450 mm shoes and 27.0 kPa on 600 mm; the
    # wide shoes weigh more, so the plain ratio is met to 3 in 100.
    narrow, wide = (figure("nominal", track_width=width) for width in ("450 mm", "600 mm"))
    assert 27.0 / 36.8 == pytest.approx(wide / narrow, rel=0.03)


def test_no_peaks_are_told_without_the_running_gear() -> None:
    assert "mean_maximum" not in run(SHEET, PLOUGH).results


@pytest.mark.parametrize("left_out", sorted(GEAR))
def test_half_a_running_gear_is_refused(left_out: str) -> None:
    given = {name: text for name, text in GEAR.items() if name != left_out}
    with pytest.raises(SheetRefuses, match="Give all three"):
        run(SHEET, PLOUGH | given)


@pytest.mark.parametrize(
    ("allowed", "verdict"),
    [("75 kPa", Verdict.WITHIN), ("60 kPa", Verdict.NEAR), ("50 kPa", Verdict.BEYOND)],
)
def test_the_mean_meets_what_the_ground_may_take(allowed: str, verdict: Verdict) -> None:
    assert verdict is run(SHEET, PLOUGH | {"allowed": allowed}).verdict


def test_the_peaks_are_held_against_no_limit() -> None:
    reached = run(SHEET, PLOUGH | GEAR | {"allowed": "75 kPa"})
    assert ["nominal"] == [limit.result for limit in reached.limits]


@pytest.mark.parametrize(
    ("words", "given", "said"),
    [
        ("Only the mean is told", {}, True),
        ("Only the mean is told", GEAR, False),
        ("differs much from measurement", GEAR, True),
        ("differs much from measurement", {}, False),
        ("A floor is another matter", {}, True),
    ],
)
def test_what_the_figures_do_not_tell_is_said(
    *, words: str, given: dict[str, str], said: bool
) -> None:
    assert said is any(words in text for text in run(SHEET, PLOUGH | given).cautions)
