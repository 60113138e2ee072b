"""Pulls up a slope: grip, tackle, and what is refused."""

from __future__ import annotations

import math

import pytest

from witnessmark.worksheets import SheetRefuses, Verdict, find_sheet, run

SHEET = find_sheet("tow-pull")
TOW = {"mass": "20 tonne", "gradient": "10 %", "rolling": "0.03"}
GRIP = {"driven_mass": "8 tonne", "friction": "0.5"}


def figure(name: str, **given: str) -> float:
    value = run(SHEET, TOW | given).results[name].value
    assert isinstance(value, float)
    return value


def test_the_slope_is_taken_by_its_sine_not_its_tangent() -> None:
    # By hand: 20 t x 9.80665 x sin(arctan 0.1) = 19.516 kN; by the tangent it would be 19.613.
    assert 19.516 == pytest.approx(figure("grade_pull"), abs=5e-4)


def test_rolling_is_a_share_of_the_weight() -> None:
    # By hand: 0.03 x 20 t x 9.80665 = 5.884 kN.
    assert 5.884 == pytest.approx(figure("rolling_pull"), abs=5e-4)


# A winch manual's chart of grade resistance (seen), in hundredths of the weight.
@pytest.mark.parametrize(
    ("gradient", "share"),
    [("20 %", 0.20), ("40 %", 0.37), ("60 %", 0.51), ("80 %", 0.62), ("100 %", 0.71)],
)
def test_the_grade_pull_is_that_of_a_published_chart(gradient: str, share: float) -> None:
    ours = figure("grade_pull", gradient=gradient) / (20 * 9.80665)
    assert share == pytest.approx(ours, abs=0.006)


def test_a_machine_just_holds_where_its_grip_is_its_slope() -> None:
    # Hibbeler, example 8.2 (seen): a block just slips at 25 degrees, friction 0.466 = tan 25 deg.
    given = {"gradient": "46.63 %", "driven_mass": "20 tonne", "friction": "0.466"}
    assert figure("grade_pull", **given) == pytest.approx(
        figure("traction_limit", **given), rel=1e-3
    )


def test_grip_counts_only_what_stands_on_driven_wheels() -> None:
    expected = 0.5 * 8 * 9.80665 * math.cos(math.atan(0.1))
    assert expected == pytest.approx(figure("traction_limit", **GRIP))


@pytest.mark.parametrize(
    ("tackle", "share"),
    [
        ({"falls": "1"}, 1),
        ({"falls": "2"}, 1 / 2),
        ({"falls": "2", "sheave_efficiency": "0.95"}, 1 / (2 * 0.95**2)),
        ({"falls": "3", "sheave_efficiency": "0.9"}, 1 / (3 * 0.9**3)),
    ],
)
def test_the_line_pulls_less_the_more_falls_there_are(tackle: dict[str, str], share: float) -> None:
    assert figure("pull") * share == pytest.approx(figure("line_pull", **tackle))


def test_neither_grip_nor_line_is_told_where_none_was_given() -> None:
    assert not {"traction_limit", "line_pull"} & run(SHEET, TOW).results.keys()


@pytest.mark.parametrize(
    ("given", "verdict"),
    [
        ({}, None),
        (GRIP, Verdict.WITHIN),
        (GRIP | {"friction": "0.34"}, Verdict.NEAR),
        (GRIP | {"friction": "0.3"}, Verdict.BEYOND),
        ({"falls": "2", "line_rating": "20 kN"}, Verdict.WITHIN),
        ({"falls": "2", "line_rating": "12 kN"}, Verdict.BEYOND),
        (GRIP | {"falls": "2", "line_rating": "12 kN"}, Verdict.BEYOND),
        ({"rolling": "0.08 ± 0.04"} | GRIP, Verdict.CANNOT_TELL),
    ],
)
def test_grip_and_line_are_both_judged(given: dict[str, str], verdict: Verdict | None) -> None:
    assert verdict is run(SHEET, TOW | given).verdict


@pytest.mark.parametrize(
    ("name", "given"),
    [
        ("friction", {"driven_mass": "8 tonne"}),
        ("driven_mass", {"friction": "0.5"}),
        ("falls", {"sheave_efficiency": "0.95"}),
        ("falls", {"falls": "2.5"}),
        ("gradient", {"gradient": "10"}),
        ("gradient", {"gradient": "6 deg"}),
        ("gradient", {"gradient": "-5 %"}),
        ("mass", {"mass": "20 ton"}),
        ("mass", {"mass": "196 kN"}),
    ],
)
def test_what_cannot_be_told_is_refused_by_name(name: str, given: dict[str, str]) -> None:
    with pytest.raises(SheetRefuses) as caught:
        run(SHEET, TOW | given)
    assert [name] == [fault.name for fault in caught.value.faults]


@pytest.mark.parametrize(
    ("words", "given", "said"),
    [
        ("slide back", GRIP | {"friction": "0.09"}, True),
        ("slide back", GRIP, False),
        ("No sheave losses", {"falls": "2"}, True),
        ("No sheave losses", {"falls": "1"}, False),
        ("No sheave losses", {"falls": "2", "sheave_efficiency": "0.95"}, False),
        ("range of this sheet", {"gradient": "30 %"}, True),
        ("parting line", {}, True),
    ],
)
def test_a_doubtful_tow_is_cautioned(*, words: str, given: dict[str, str], said: bool) -> None:
    assert said is any(words in text for text in run(SHEET, TOW | given).cautions)
