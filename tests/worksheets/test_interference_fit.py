"""What the examples of the interference sheet cannot say: its laws, refusals and cautions."""

from __future__ import annotations

import math

import pytest

from witnessmark.worksheets import SheetRefuses, Verdict, find_sheet, run

SHEET = find_sheet("interference-fit")
# A steel hub of 100 mm on a solid steel shaft of 50 mm, 50 H7/s6 at its tightest: 0.059 mm.
HUB = {
    "diameter": "50 mm",
    "interference": "0.059 mm",
    "interference_kind": "diametral",
    "hub_outside": "100 mm",
    "hub_modulus": "210 GPa",
    "hub_poisson": "0.3",
    "shaft_modulus": "210 GPa",
    "shaft_poisson": "0.3",
}


def value(name: str, **given: str) -> float:
    return float(run(SHEET, HUB | given).results[name].value)


def test_like_metals_give_the_short_formula_of_the_textbooks() -> None:
    # p = E delta / d * (Do^2 - d^2) / (2 Do^2), solid shaft, same E and nu (common practice).
    expected = 210e3 * 0.059 / 50 * (100**2 - 50**2) / (2 * 100**2)
    assert expected == pytest.approx(value("pressure"), rel=1e-12)


def test_force_torque_and_heating_follow_from_the_pressure() -> None:
    # By hand: 92.925 MPa on pi * 50 * 60 mm2 at 0.12; (0.059 + 0.050) / (11.5e-6 * 50) K.
    given = {
        "length": "60 mm",
        "friction": "0.12",
        "hub_expansion": "11.5e-6 1/K",
        "assembly_clearance": "0.05 mm",
    }
    force = 92.925 * math.pi * 50 * 60 * 0.12 / 1000
    expected = [force, force * 25, 0.109 / (11.5e-6 * 50)]
    names = ("press_force", "torque", "heating")
    assert expected == pytest.approx([value(name, **given) for name in names])


def test_strains_at_the_joint_make_up_the_interference() -> None:
    # Hooke in plane stress: hub hoop strain less shaft hoop strain is delta / d exactly.
    given = {"hub_modulus": "100 GPa", "hub_poisson": "0.25", "shaft_bore": "20 mm"}
    p, hoop = value("pressure", **given), value("hub_hoop_stress", **given)
    hub = (hoop + 0.25 * p) / 100e3
    at_joint = -p * (50**2 + 20**2) / (50**2 - 20**2)
    shaft = (at_joint + 0.3 * p) / 210e3
    expected = 0.059 / 50
    assert expected == pytest.approx(hub - shaft, rel=1e-12)


def test_a_hollow_shaft_is_worst_at_its_bore() -> None:
    # Lame, outer pressure only: hoop at the inner face is -2 p d^2 / (d^2 - di^2).
    p = value("pressure", shaft_bore="20 mm")
    expected = -2 * p * 50**2 / (50**2 - 20**2)
    assert expected == pytest.approx(value("shaft_stress", shaft_bore="20 mm"))


def test_the_same_figure_on_radius_grips_twice_as_hard() -> None:
    twice = value("pressure", interference_kind="radial") / value("pressure")
    assert 2.0 == pytest.approx(twice)


def test_which_interference_is_meant_must_be_said() -> None:
    given = {name: text for name, text in HUB.items() if name != "interference_kind"}
    with pytest.raises(SheetRefuses, match="diametral or radial"):
        run(SHEET, given)


@pytest.mark.parametrize(
    ("given", "name"),
    [
        ({"hub_outside": "50 mm"}, "hub_outside"),
        ({"hub_outside": "40 mm"}, "hub_outside"),
        ({"shaft_bore": "50 mm"}, "shaft_bore"),
    ],
)
def test_sizes_that_cannot_sit_together_are_refused(given: dict[str, str], name: str) -> None:
    with pytest.raises(SheetRefuses) as caught:
        run(SHEET, HUB | given)
    assert [name] == [fault.name for fault in caught.value.faults]


@pytest.mark.parametrize(
    ("words", "given", "is_said"),
    [
        ("over 0.2 % of the diameter", {"interference": "0.101 mm"}, True),
        ("over 0.2 % of the diameter", {"interference": "0.1 mm"}, False),
        (
            "over 0.2 % of the diameter",
            {"interference": "0.051 mm", "interference_kind": "radial"},
            True,
        ),
        ("it is a shell", {"hub_outside": "54 mm"}, True),
        ("it is a shell", {"hub_outside": "55 mm"}, False),
        ("without a length", {"friction": "0.1"}, True),
        ("without a length", {"friction": "0.1", "length": "60 mm"}, False),
    ],
)
def test_a_doubtful_fit_is_cautioned(words: str, given: dict[str, str], *, is_said: bool) -> None:
    assert is_said is any(words in text for text in run(SHEET, HUB | given).cautions)


def test_force_needs_both_length_and_friction() -> None:
    assert "press_force" not in run(SHEET, HUB).results
    assert "press_force" not in run(SHEET, HUB | {"friction": "0.1"}).results
    assert "press_force" not in run(SHEET, HUB | {"length": "60 mm"}).results


@pytest.mark.parametrize(
    ("limit", "verdict"),
    [("150 MPa", Verdict.BEYOND), ("160 MPa", Verdict.NEAR), ("200 MPa", Verdict.WITHIN)],
)
def test_the_hub_is_held_to_its_allowed_stress(limit: str, verdict: Verdict) -> None:
    # The hoop stress is 154.9 MPa.
    assert verdict is run(SHEET, HUB | {"hub_stress_limit": limit}).verdict


def test_an_uncertain_interference_cannot_tell_near_the_limit() -> None:
    given = {"interference": "0.059 ± 0.005 mm", "hub_stress_limit": "160 MPa"}
    assert Verdict.CANNOT_TELL is run(SHEET, HUB | given).verdict
