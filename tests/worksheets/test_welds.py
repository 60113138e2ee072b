"""What the examples of the two weld sheets cannot say: spread, laws, verdicts and cautions."""

from __future__ import annotations

import pytest

from witnessmark.worksheets import SheetRefuses, Verdict, find_sheet, run
from witnessmark.worksheets.declare import Sheet

TACKS = find_sheet("tack-weld-break")
FILLET = find_sheet("fillet-weld-stress")
HEAD = {
    "tacks": "3",
    "leg": "4 mm",
    "length": "8 mm",
    "shear_strength": "250 MPa",
    "radius": "14 mm",
}
JOINT = {"leg": "8 mm", "total_length": "240 mm", "load": "100 kN"}


def test_the_torque_to_break_tacks_is_given_with_its_spread() -> None:
    results = run(TACKS, HEAD).results
    low, mean, high = (results[name].value for name in ("torque_low", "torque", "torque_high"))
    assert [118.8, 237.6, 356.4] == pytest.approx([low, mean, high], abs=0.05)


def test_the_throat_is_the_leg_over_the_square_root_of_two() -> None:
    assert 2.828 == pytest.approx(run(TACKS, HEAD).results["throat"].value, abs=5e-4)


@pytest.mark.parametrize("tacks", ["0", "2.5", "3 ± 1"])
def test_tacks_are_counted_in_whole_numbers(tacks: str) -> None:
    with pytest.raises(SheetRefuses) as caught:
        run(TACKS, HEAD | {"tacks": tacks})
    assert ["tacks"] == [fault.name for fault in caught.value.faults]


@pytest.mark.parametrize(
    ("limit", "verdict"),
    [("300 N m", Verdict.BEYOND), ("360 N m", Verdict.NEAR), ("500 N m", Verdict.WITHIN)],
)
def test_a_bolt_must_stand_what_deep_tacks_may_need(limit: str, verdict: Verdict) -> None:
    assert verdict is run(TACKS, HEAD | {"torque_limit": limit}).verdict


def test_tacks_longer_than_their_ring_are_cautioned() -> None:
    # 2 * pi * 14 = 87.96 mm; 11 tacks of 8 mm are 88.
    words = "longer than the ring"
    assert any(words in text for text in run(TACKS, HEAD | {"tacks": "11"}).cautions)
    assert not any(words in text for text in run(TACKS, HEAD | {"tacks": "10"}).cautions)


def test_the_load_for_a_stress_gives_back_the_stress() -> None:
    # Jindal 12-3 turned round: 0.707 * 12 * 120 * 80 = 81.446 kN.
    given = {"leg": "12 mm", "total_length": "120 mm", "load": "81.446 kN"}
    assert 80.0 == pytest.approx(run(FILLET, given).results["stress"].value, abs=0.02)


@pytest.mark.parametrize(
    ("allowed", "verdict"),
    [("70 MPa", Verdict.BEYOND), ("80 MPa", Verdict.NEAR), ("100 MPa", Verdict.WITHIN)],
)
def test_the_throat_is_held_to_the_stress_allowed(allowed: str, verdict: Verdict) -> None:
    assert verdict is run(FILLET, JOINT | {"allowed": allowed}).verdict


def test_an_uncertain_leg_cannot_tell_near_the_limit() -> None:
    given = {"leg": "8 ± 1 mm", "allowed": "75 MPa"}
    assert Verdict.CANNOT_TELL is run(FILLET, JOINT | given).verdict


def test_very_short_welds_are_cautioned() -> None:
    words = "shorter than four legs"
    assert any(words in text for text in run(FILLET, JOINT | {"total_length": "31 mm"}).cautions)
    assert not any(
        words in text for text in run(FILLET, JOINT | {"total_length": "32 mm"}).cautions
    )


@pytest.mark.parametrize(
    ("sheet", "given", "words"),
    [
        (TACKS, HEAD, "do not rely on it for safety"),
        (FILLET, JOINT, "a competent person; so is every weld on what lifts"),
    ],
)
def test_welds_that_keep_people_safe_are_left_to_competent_people(
    sheet: Sheet, given: dict[str, str], words: str
) -> None:
    assert any(words in text for text in run(sheet, given).cautions)
