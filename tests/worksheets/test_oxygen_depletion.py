"""Oxygen left in a room: what the sheet counts, refuses and warns of."""

from __future__ import annotations

import pytest
from CoolProp.CoolProp import PropsSI

from witnessmark.worksheets import SheetRefuses, Verdict, find_sheet, run

SHEET = find_sheet("oxygen-depletion")
CYLINDER = {"room": "100 m3", "cylinder": "50 litre", "cylinder_pressure": "200 bar"}


def figures(**given: str) -> dict[str, float]:
    return {name: float(result.value) for name, result in run(SHEET, given).results.items()}


def test_the_oxygen_left_is_that_of_the_guides() -> None:
    # 100 x 0.21 (Vr - Vg) / Vr, as a university safety office prints it (seen), worked by hand.
    reached = figures(room="36 m3", gas="10.78 m3")
    expected = {"oxygen": 14.712, "oxygen_mixed": 15.565}
    assert expected == pytest.approx({name: reached[name] for name in expected}, abs=0.001)


def test_what_leaves_a_cylinder_is_its_content_less_one_filling() -> None:
    inside, outside = (
        PropsSI("D", "T", 293.15, "P", p, "Nitrogen") for p in (200e5 + 101325, 101325)
    )
    expected = 0.050 * (inside / outside - 1)
    assert expected == pytest.approx(figures(**CYLINDER)["gas_released"], rel=1e-6)


def test_an_absolute_cylinder_pressure_is_taken_as_it_stands() -> None:
    inside, outside = (PropsSI("D", "T", 293.15, "P", p, "Nitrogen") for p in (200e5, 101325))
    expected = 0.050 * (inside / outside - 1)
    reached = figures(**CYLINDER, cylinder_pressure_kind="absolute")["gas_released"]
    assert expected == pytest.approx(reached, rel=1e-6)


def test_gas_let_out_and_a_cylinder_add_up() -> None:
    alone, both = figures(**CYLINDER), figures(**CYLINDER, gas="5 m3")
    assert 5 == pytest.approx(both["gas_released"] - alone["gas_released"])


def test_what_is_lost_and_what_is_left_make_the_air() -> None:
    reached = figures(room="36 m3", gas="10.78 m3")
    assert 21 == pytest.approx(reached["oxygen"] + reached["oxygen_lost"])


def test_no_gas_leaves_the_air_as_it_was() -> None:
    assert 21 == figures(room="10 m3", gas="0 m3")["oxygen"]


@pytest.mark.parametrize("gas", ["36 m3", "40 m3"])
def test_a_room_full_of_gas_gets_no_figure(gas: str) -> None:
    with pytest.raises(SheetRefuses, match="Treat the room as deadly") as caught:
        run(SHEET, {"room": "36 m3", "gas": gas})
    assert ["room"] == [fault.name for fault in caught.value.faults]


@pytest.mark.parametrize(
    "given",
    [
        {"room": "36 m3"},
        {"room": "36 m3", "cylinder": "50 litre"},
        {"room": "36 m3", "cylinder_pressure": "200 bar"},
        {"room": "36 m3", "gas": "1 m3", "cylinder": "50 litre"},
    ],
)
def test_half_a_cylinder_is_refused(given: dict[str, str]) -> None:
    with pytest.raises(SheetRefuses, match="a cylinder and its pressure"):
        run(SHEET, given)


def test_a_cylinder_no_fuller_than_the_air_lets_nothing_out() -> None:
    given = CYLINDER | {"cylinder_pressure": "1 bar", "cylinder_pressure_kind": "absolute"}
    with pytest.raises(SheetRefuses, match="nothing comes out"):
        run(SHEET, given)


@pytest.mark.parametrize(
    ("gas", "verdict"),
    [("5 m3", Verdict.WITHIN), ("7 m3", Verdict.NEAR), ("7.2 m3", Verdict.BEYOND)],
)
def test_less_oxygen_than_entry_asks_for_is_beyond(gas: str, verdict: Verdict) -> None:
    # EIGA Doc 44/18 (seen): 19.5 %, so 7.14 m3 out of 100 m3.
    assert verdict is run(SHEET, {"room": "100 m3", "gas": gas}).verdict


def test_a_doubtful_room_leaves_the_verdict_open() -> None:
    assert Verdict.CANNOT_TELL is run(SHEET, {"room": "100 ± 10 m3", "gas": "7 m3"}).verdict


@pytest.mark.parametrize(
    ("words", "gas", "said"),
    [
        ("falls within a breath", "60 m3", True),
        ("falls within a breath", "20 m3", False),
        ("evacuated", "20 m3", True),
        ("evacuated", "10 m3", False),
        ("two people", "1 m3", True),
    ],
)
def test_thin_air_is_cautioned(*, words: str, gas: str, said: bool) -> None:
    cautions = run(SHEET, {"room": "100 m3", "gas": gas}).cautions
    assert said is any(words in text for text in cautions)
