"""A day's vibration: where the bands lie, what adds up, and what proves nothing."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.worksheets import Run, SheetRefuses, Verdict, find_sheet, run

SHEET = find_sheet("hand-arm-vibration")


def day(*exposure: str, **more: str) -> Run:
    return run(SHEET, {"exposure": exposure, **more})


# The regulator's ready reckoner (seen): 2 a^2 points an hour, 100 at the action value, 400 at the
# limit value.
@pytest.mark.parametrize(
    ("exposure", "points", "band"),
    [
        ("2.4 m/s2 for 8 h", 92.16, "below action"),
        ("2.5 m/s2 for 8 h", 100, "above action"),
        ("5 m/s2 for 2 h", 100, "above action"),
        ("5 m/s2 for 8 h", 400, "above action"),
        ("10 m/s2 for 120 min", 400, "above action"),
        ("5.01 m/s2 for 8 h", 401.6016, "above limit"),
        ("0 m/s2 for 8 h", 0, "below action"),
    ],
)
def test_the_bands_begin_where_the_points_say(exposure: str, points: float, band: str) -> None:
    results = day(exposure).results
    assert (points, band) == (results["points"].value, results["band"].value)


# ISO 5349-2:2001, E.3 (seen, as quoted): each tool alone.
@pytest.mark.parametrize(
    ("exposure", "a8"),
    [("4.6 m/s2 for 2 h", 2.3), ("6.0 m/s2 for 1 h", 2.1), ("3.6 m/s2 for 2 h", 1.8)],
)
def test_each_tool_alone_is_that_of_the_standard(exposure: str, a8: float) -> None:
    assert a8 == pytest.approx(day(exposure).results["a8"].value, abs=0.05)


@pytest.mark.parametrize(
    ("exposure", "verdict"),
    [
        ("4 m/s2 for 8 h", Verdict.WITHIN),
        ("4.9 m/s2 for 8 h", Verdict.NEAR),
        ("5 m/s2 for 8 h", Verdict.NEAR),
        ("6 m/s2 for 8 h", Verdict.BEYOND),
        ("5 ± 1 m/s2 for 8 h", Verdict.CANNOT_TELL),
    ],
)
def test_the_day_meets_the_limit_value(exposure: str, verdict: Verdict) -> None:
    assert verdict is day(exposure).verdict


@pytest.mark.parametrize(
    ("exposure", "verdict"),
    [("3 m/s2 for 8 h", Verdict.CANNOT_TELL), ("6 m/s2 for 8 h", Verdict.BEYOND)],
)
def test_one_axis_can_prove_a_breach_but_not_its_absence(exposure: str, verdict: Verdict) -> None:
    assert verdict is day(exposure, measured="single-axis").verdict


def test_more_than_a_day_is_refused() -> None:
    with pytest.raises(SheetRefuses, match="more than a day") as caught:
        day("3 m/s2 for 20 h", "3 m/s2 for 5 h")
    assert ["exposure"] == [fault.name for fault in caught.value.faults]


@pytest.mark.parametrize(
    "text", ["3 m/s2", "3 m/s2 for 0 h", "-3 m/s2 for 1 h", "3 for 1 h", "3 m/s2 for 30 h"]
)
def test_what_is_no_exposure_is_refused_by_name(text: str) -> None:
    with pytest.raises(SheetRefuses) as caught:
        day(text)
    assert ["exposure"] == [fault.name for fault in caught.value.faults]


def test_a_day_without_a_tool_is_refused() -> None:
    with pytest.raises(SheetRefuses, match="'exposure' is not given"):
        run(SHEET, {"exposure": ()})


@pytest.mark.parametrize(
    ("words", "exposure", "said"),
    [
        ("action value is reached", "2.5 m/s2 for 8 h", True),
        ("action value is reached", "2.4 m/s2 for 8 h", False),
        ("range of this sheet", "60 m/s2 for 1 min", True),
        ("declared figure", "1 m/s2 for 1 h", True),
    ],
)
def test_a_doubtful_day_is_cautioned(*, words: str, exposure: str, said: bool) -> None:
    assert said is any(words in text for text in day(exposure).cautions)


TOOLS = st.lists(st.tuples(st.integers(0, 300), st.integers(1, 120)), min_size=1, max_size=6)


@given(TOOLS)
def test_tools_add_as_squares_in_any_order(tools: list[tuple[int, int]]) -> None:
    texts = [f"{a / 10} m/s2 for {t} min" for a, t in tools]
    there, back = (day(*order).results["a8"].value for order in (texts, texts[::-1]))
    alone = [float(day(text).results["a8"].value) for text in texts]
    assert there == back
    assert math.hypot(*alone) == pytest.approx(there)
