"""What the examples of the preload sheet cannot say: classes, refusals and cautions."""

from __future__ import annotations

import pytest

from witnessmark.worksheets import SheetRefuses, find_sheet, run

SHEET = find_sheet("bolt-preload")
BOLT = {"thread": "M20", "proof_stress": "4.6", "nut_factor": "0.2"}


def value(name: str, **given: str) -> float:
    return float(run(SHEET, BOLT | given).results[name].value)


def cautioned(words: str, **given: str) -> bool:
    return any(words in text for text in run(SHEET, BOLT | given).cautions)


def test_a_bolt_is_drawn_up_to_three_quarters_of_its_proof_load_unless_said() -> None:
    # By hand: 245 mm2 * 225 MPa = 55.125 kN; 0.75 of it; 0.2 * 0.020 m * 41.344 kN.
    expected = [55.125, 41.34375, 165.375]
    names = ("proof_load", "preload", "torque")
    assert expected == pytest.approx([value(name) for name in names])


def test_the_spread_of_a_torque_wrench_stands_beside_the_preload() -> None:
    expected = [0.7 * 41.34375, 1.3 * 41.34375]
    assert expected == pytest.approx([value(name) for name in ("preload_low", "preload_high")])


@pytest.mark.parametrize("written", ["8.8", "class 8.8", "class: 8.8", "600 MPa"])
def test_a_class_and_its_proof_stress_give_the_same(written: str) -> None:
    assert 147.0 == pytest.approx(value("proof_load", proof_stress=written))


def test_a_whitworth_bolt_is_given_on_both_areas() -> None:
    # By hand from the printed core of 5/8 BSW, .5086 in: core .2032 in2 = 131.1 mm2; stress 146.5.
    given = {"thread": "5/8 BSW", "proof_stress": "225 MPa"}
    expected = [146.5, 131.0, 146.5 * 0.225, 131.0 * 0.225]
    names = ("stress_area", "core_area", "proof_load", "core_proof_load")
    assert expected == pytest.approx([value(name, **given) for name in names], rel=1e-3)
    assert cautioned("Old British practice", **given)


@pytest.mark.parametrize(
    ("given", "name", "words"),
    [
        ({"proof_stress": "8.7"}, "proof_stress", "plain number"),
        ({"proof_stress": "9.8"}, "proof_stress", "only up to M16"),
        ({"thread": "M13"}, "thread", "no pitch"),
        ({"thread": "5/8"}, "thread", "does not name a thread"),
        ({"fraction": "1.1"}, "fraction", "1 or less"),
    ],
)
def test_what_is_not_known_of_a_bolt_is_refused(
    given: dict[str, str], name: str, words: str
) -> None:
    with pytest.raises(SheetRefuses, match=words) as caught:
        run(SHEET, BOLT | given)
    assert [name] == [fault.name for fault in caught.value.faults]


@pytest.mark.parametrize(
    ("words", "given", "is_said"),
    [
        ("may pass its proof load", {"fraction": "0.78"}, True),
        ("may pass its proof load", {}, False),
        ("stand in no table", {"thread": "M20x1"}, True),
        ("stand in no table", {}, False),
        ("Old British practice", {}, False),
        ("is an estimate", {"thread": "5/8 UNC"}, True),
        ("is an estimate", {"thread": "5/8 UNC", "proof_stress": "225 MPa"}, False),
        ("unmarked historic bolt", {}, True),
    ],
)
def test_a_doubtful_bolt_is_cautioned(words: str, given: dict[str, str], *, is_said: bool) -> None:
    assert is_said is cautioned(words, **given)


def test_an_uncertain_nut_factor_is_carried_to_the_torque() -> None:
    # Uniform: U = 2 * 0.05 / sqrt(3) / 0.2 of the torque.
    band = run(SHEET, BOLT | {"nut_factor": "0.2 ± 0.05"}).results["torque"].plus_minus
    assert 165.375 * 2 * 0.05 / 3**0.5 / 0.2 == pytest.approx(band)
