"""A day's noise: where the bands lie, what adds up, and what is refused."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.worksheets import Run, SheetRefuses, Verdict, find_sheet, run

SHEET = find_sheet("noise-dose")


def day(*exposure: str, **more: str) -> Run:
    return run(SHEET, {"exposure": exposure, **more})


def level(*exposure: str) -> float:
    value = day(*exposure).results["daily_level"].value
    assert isinstance(value, float)
    return value


# HSE, Sound Advice (seen): all equal to 80 dB for eight hours, and all to 85 dB.
@pytest.mark.parametrize(
    ("exposure", "daily"),
    [
        ("80 dB for 8 h", 80),
        ("83 dB for 4 h", 80),
        ("86 dB for 2 h", 80),
        ("89 dB for 1 h", 80),
        ("92 dB for 30 min", 80),
        ("88 dB for 4 h", 85),
        ("94 dB for 1 h", 85),
        ("105 dB for 5 min", 85),
    ],
)
def test_three_decibels_more_halve_the_time(exposure: str, daily: int) -> None:
    assert daily == pytest.approx(level(exposure), abs=0.2)


# Control of Noise at Work Regulations 2005, regulation 4 (from memory): an action value is met
# when reached, the limit value must not be passed.
@pytest.mark.parametrize(
    ("exposure", "band"),
    [
        ("79.9 dB for 8 h", "below lower action"),
        ("80 dB for 8 h", "above lower action"),
        ("84.9 dB for 8 h", "above lower action"),
        ("85 dB for 8 h", "above upper action"),
        ("87 dB for 8 h", "above upper action"),
        ("87.1 dB for 8 h", "above limit"),
    ],
)
def test_the_bands_begin_where_the_regulations_say(exposure: str, band: str) -> None:
    assert band == day(exposure).results["band"].value


@pytest.mark.parametrize(
    ("peak", "band"),
    [
        ("134.9 dB", "below lower action"),
        ("135 dB", "above lower action"),
        ("137 dB", "above upper action"),
        ("140 dB", "above upper action"),
        ("140.1 dB", "above limit"),
    ],
)
def test_a_peak_counts_by_itself(peak: str, band: str) -> None:
    assert band == day("70 dB for 1 h", peak=peak).results["band"].value


def test_no_peak_is_told_where_none_was_given() -> None:
    assert "peak_level" not in day("70 dB for 1 h").results


@pytest.mark.parametrize(
    ("exposure", "more", "verdict"),
    [
        ("84 dB for 8 h", {}, Verdict.WITHIN),
        ("86.8 dB for 8 h", {}, Verdict.NEAR),
        ("87 dB for 8 h", {}, Verdict.NEAR),
        ("88 dB for 8 h", {}, Verdict.BEYOND),
        ("86 ± 3 dB for 8 h", {}, Verdict.CANNOT_TELL),
        ("70 dB for 8 h", {"peak": "141 dB"}, Verdict.BEYOND),
        ("70 dB for 8 h", {"peak": "120 dB"}, Verdict.WITHIN),
    ],
)
def test_the_day_meets_the_limit_values(
    exposure: str, more: dict[str, str], verdict: Verdict
) -> None:
    assert verdict is day(exposure, **more).verdict


# HSE, weekly ready reckoner (seen): a day at 90 dB is printed as 315 points, at 85 dB as 100.
@pytest.mark.parametrize(("exposure", "points"), [("85 dB for 8 h", 100), ("90 dB for 8 h", 315)])
def test_points_are_those_of_the_ready_reckoner(exposure: str, points: int) -> None:
    assert points == pytest.approx(day(exposure).results["points"].value, rel=0.01)


def test_more_than_a_day_is_refused() -> None:
    with pytest.raises(SheetRefuses, match="more than a day"):
        day("80 dB for 20 h", "80 dB for 5 h")


@pytest.mark.parametrize("text", ["80 dB", "80 dB for 0 h", "-5 dB for 1 h", "80 for 1 h"])
def test_what_is_no_exposure_is_refused_by_name(text: str) -> None:
    with pytest.raises(SheetRefuses) as caught:
        day(text)
    assert ["exposure"] == [fault.name for fault in caught.value.faults]


@pytest.mark.parametrize(
    ("words", "exposure", "said"),
    [
        ("upper action value is reached", "86 dB for 8 h", True),
        ("upper action value is reached", "84 dB for 8 h", False),
        ("lower action value is reached", "84 dB for 8 h", True),
        ("lower action value is reached", "79 dB for 8 h", False),
        ("range of this sheet", "135 dB for 1 min", True),
        ("OSHA", "60 dB for 1 h", True),
    ],
)
def test_a_loud_day_is_cautioned(*, words: str, exposure: str, said: bool) -> None:
    assert said is any(words in text for text in day(exposure).cautions)


SPELLS = st.lists(st.tuples(st.integers(40, 120), st.integers(1, 120)), min_size=1, max_size=6)


@given(SPELLS)
def test_spells_add_as_energy_in_any_order(spells: list[tuple[int, int]]) -> None:
    texts = [f"{db} dB for {t} min" for db, t in spells]
    alone = [10 ** (level(text) / 10) for text in texts]
    assert level(*texts) == pytest.approx(level(*texts[::-1]))
    assert 10 * math.log10(sum(alone)) == pytest.approx(level(*texts))
