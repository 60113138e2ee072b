"""What the examples of the rolling bearing sheet cannot say: factors, standing load, refusals."""

from __future__ import annotations

import pytest

from witnessmark.worksheets import SheetRefuses, Verdict, find_sheet, run

SHEET = find_sheet("rolling-bearing-life")
BALL = {"dynamic_rating": "41 kN", "radial": "10 kN", "kind": "ball"}


def value(name: str, **given: str) -> float:
    return float(run(SHEET, BALL | given).results[name].value)


def cautioned(words: str, **given: str) -> bool:
    return any(words in text for text in run(SHEET, BALL | given).cautions)


def test_rollers_follow_the_power_ten_thirds() -> None:
    # ISO 281: (C/P)^(10/3), by hand with C/P = 8: 8^(10/3) = 2^10.
    expected = 1024.0
    given = {"dynamic_rating": "80 kN", "kind": "roller"}
    assert expected == pytest.approx(value("life", **given))


def test_the_life_found_for_a_wanted_life_gives_back_the_rating() -> None:
    # Wentzell, example 20.2: 200 h at 1750 rpm under 2400 lbf wants C = 6621 lbf. Seen.
    given = {"dynamic_rating": "6621 lbf", "radial": "2400 lbf", "speed": "1750 rpm"}
    assert 200.0 == pytest.approx(value("life_hours", **given), abs=0.1)


def test_the_rating_that_iso_281_wants_for_98_in_100() -> None:
    # Jindal 18-7 worked again by hand: 3500 * (6000 * 60 * 1400 / 1e6 / 0.37)^(1/3) = 38 798 N.
    given = {
        "dynamic_rating": "38798 N",
        "radial": "3500 N",
        "speed": "1400 rpm",
        "reliability": "98 %",
    }
    assert 6000.0 == pytest.approx(value("life_hours", **given), rel=2e-4)


@pytest.mark.parametrize(
    ("reliability", "edition", "factor"),
    [
        ("90 %", "2007", 1),
        ("95 %", "2007", 0.64),
        ("0.95", "2007", 0.64),
        ("99 %", "2007", 0.25),
        ("95 %", "1990", 0.62),
        ("99 %", "1990", 0.21),
        ("99.9 %", "2007", 0.093),
    ],
)
def test_the_reliability_factor_is_that_of_the_edition_named(
    reliability: str, edition: str, factor: float
) -> None:
    given = {"reliability": reliability, "edition": edition}
    assert factor == value("reliability_factor", **given)


@pytest.mark.parametrize(
    ("given", "name", "words"),
    [
        ({"reliability": "94 %"}, "reliability", "gives no factor for 94 %"),
        ({"reliability": "99.9 %", "edition": "1990"}, "reliability", "ISO 281:1990 gives no"),
        ({"reliability": "95 % ± 1 %"}, "reliability", "states a ±"),
        ({"axial": "1 kN"}, "y", "without its factor y"),
        ({"radial": "0 N"}, "radial", "no load"),
        ({"speed": "0 rpm"}, "speed", "over 0"),
    ],
)
def test_what_no_life_can_be_reckoned_from_is_refused(
    given: dict[str, str], name: str, words: str
) -> None:
    with pytest.raises(SheetRefuses, match=words) as caught:
        run(SHEET, BALL | given)
    assert [name] == [fault.name for fault in caught.value.faults]


# By hand, on the formula of ISO 76 as makers print it; no published worked example was found.
@pytest.mark.parametrize(
    ("radial", "axial", "static", "expected"),
    [
        ("3 kN", "4 kN", "20 kN", 20 / 3.8),
        ("1250 N", "625 N", "2500 N", 2.0),  # 0.6 Fr + 0.5 Fa = 1062.5 < Fr, so P0 = Fr
    ],
)
def test_standing_load_is_never_taken_under_the_radial_load(
    radial: str, axial: str, static: str, expected: float
) -> None:
    given = {"radial": radial, "axial": axial, "static_rating": static, "y": "1", "x": "0.56"}
    assert expected == pytest.approx(value("static_safety", **given))


def test_rollers_without_axial_load_stand_on_their_radial_load() -> None:
    given = {"kind": "roller", "static_rating": "30 kN"}
    assert 3.0 == pytest.approx(value("static_safety", **given))


def test_rollers_under_axial_load_need_their_own_static_factors() -> None:
    given = {"kind": "roller", "static_rating": "30 kN", "axial": "4 kN", "y": "1.5", "x": "0.4"}
    assert "static_safety" not in run(SHEET, BALL | given).results
    assert cautioned("need x0 and y0", **given)
    factors = {"x0": "0.5", "y0": "0.8"}
    # 0.5 * 10 + 0.8 * 4 = 8.2 < 10, so P0 = 10 kN.
    assert 3.0 == pytest.approx(value("static_safety", **given, **factors))


@pytest.mark.parametrize(
    ("words", "given", "is_said"),
    [
        ("over half the dynamic rating", {"radial": "20.6 kN"}, True),
        ("over half the dynamic rating", {"radial": "20.5 kN"}, False),
        ("under the radial load", {"x": "0.56", "y": "1.2", "axial": "1 kN"}, True),
        ("under the radial load", {}, False),
        ("two editions", {"reliability": "95 %"}, True),
        ("two editions", {}, False),
        ("deep groove", {"axial": "1 kN", "y": "1", "static_rating": "20 kN"}, True),
        ("deep groove", {"axial": "1 kN", "y": "1"}, False),
        ("deep groove", {"static_rating": "20 kN"}, False),
        ("cannot be judged", {"wanted_hours": "100 h"}, True),
        ("cannot be judged", {"wanted_hours": "100 h", "speed": "10 rpm"}, False),
        ("cannot be judged", {"least_static_safety": "1"}, True),
    ],
)
def test_a_doubtful_life_is_cautioned(words: str, given: dict[str, str], *, is_said: bool) -> None:
    assert is_said is cautioned(words, **given)


def test_no_wanted_life_gives_no_verdict() -> None:
    assert run(SHEET, BALL).verdict is None


@pytest.mark.parametrize(
    ("given", "verdict"),
    [
        ({"wanted_hours": "1000 h"}, Verdict.WITHIN),  # life 1148.7 h at 1000 rpm
        ({"wanted_hours": "1100 h"}, Verdict.NEAR),
        ({"wanted_hours": "1200 h"}, Verdict.BEYOND),
        ({"wanted_hours": "1000 h", "radial": "10 ± 1 kN"}, Verdict.CANNOT_TELL),
        (
            {"wanted_hours": "1000 h", "static_rating": "15 kN", "least_static_safety": "2"},
            Verdict.BEYOND,
        ),
    ],
)
def test_life_and_standing_load_are_held_to_what_is_wanted(
    given: dict[str, str], verdict: Verdict
) -> None:
    assert verdict is run(SHEET, BALL | {"speed": "1000 rpm"} | given).verdict
