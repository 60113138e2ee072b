"""What other programs and the museum's records may count on: names, units and words of each sheet.

The names and units stand here as data, written once by hand from what was promised; the sheets are
held to them, not the other way round.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import pytest

from calling import call
from witnessmark.worksheets import built_names, find_sheet, run
from witnessmark.worksheets.run import Run
from witnessmark.worksheets.signature import inputs_of

WORD = ""
PLAIN = "1"


@dataclass(frozen=True, kw_only=True)
class Promise:
    """One sheet: what must be given and may be left out, each as somebody would write it."""

    given: dict[str, str | tuple[str, ...]]
    gives: dict[str, str]
    optional: dict[str, str] = field(default_factory=dict)


CONTRACT = {
    "limits-and-fits": Promise(
        given={"size": "50 mm", "hole": "H7", "shaft": "p6"},
        gives={
            "hole_upper": "um",
            "hole_lower": "um",
            "shaft_upper": "um",
            "shaft_lower": "um",
            "clearance_max": "um",
            "clearance_min": "um",
            "fit": WORD,
        },
    ),
    "interference-fit": Promise(
        given={
            "diameter": "60 mm",
            "interference": "0.04 mm",
            "interference_kind": "diametral",
            "hub_outside": "100 mm",
            "hub_modulus": "110 GPa",
            "hub_poisson": "0.25",
            "shaft_modulus": "205 GPa",
            "shaft_poisson": "0.3",
        },
        optional={
            "shaft_bore": "20 mm",
            "length": "50 mm",
            "friction": "0.12",
            "hub_expansion": "0.0000105 1/K",
            "assembly_clearance": "0.05 mm",
        },
        gives={
            "pressure": "MPa",
            "hub_hoop_stress": "MPa",
            "shaft_stress": "MPa",
            "press_force": "kN",
            "torque": "N m",
            "heating": "K",
        },
    ),
    "plain-bearing-duty": Promise(
        given={"load": "31 kN", "diameter": "65 mm", "length": "80 mm", "speed": "2 rpm"},
        optional={
            "material": "leaded-tin-bronze",
            "pressure_limit": "7 MPa",
            "velocity_limit": "5 m/s",
            "pv_limit": "1.7 MPa m/s",
        },
        gives={"pressure": "MPa", "velocity": "m/s", "pv": "MPa m/s"},
    ),
    "bearing-clearance": Promise(
        given={"bore": "65.74 mm", "journal": "65.00 mm", "limit": "0.50 mm"},
        optional={"new_clearance": "0.10 mm"},
        gives={"clearance": "mm", "of_diameter": PLAIN, "share_of_limit": PLAIN},
    ),
    "rolling-bearing-life": Promise(
        given={"dynamic_rating": "22500 N", "radial": "4000 N", "kind": "ball"},
        optional={
            "axial": "1000 N",
            "x": "0.56",
            "y": "1.6",
            "speed": "500 rpm",
            "reliability": "95 %",
            "edition": "2007",
            "static_rating": "11600 N",
        },
        gives={
            "equivalent_load": "N",
            "life": "million rev",
            "life_hours": "h",
            "static_safety": PLAIN,
        },
    ),
    "wear-life": Promise(
        given={
            "first": "60.12 mm",
            "second": "60.31 mm",
            "limit": "60.60 mm",
            "interval": "820 h",
            "instrument": "0.01 mm",
        },
        gives={
            "rate": "mm/h",
            "remaining": "h",
            "standard_uncertainty": "h",
            "expanded_uncertainty": "h",
            "use_until": "h",
        },
    ),
    "bolt-preload": Promise(
        given={"thread": "M16x1.5", "proof_stress": "class: 8.8", "nut_factor": "0.2"},
        optional={"fraction": "0.75"},
        gives={
            "stress_area": "mm2",
            "core_area": "mm2",
            "proof_load": "kN",
            "preload": "kN",
            "torque": "N m",
        },
    ),
    "thread-engagement": Promise(
        given={"thread": "5/8 BSW", "bolt_strength": "400 MPa", "host_strength": "200 MPa"},
        optional={"shear_share": "0.6"},
        gives={"engagement": "mm"},
    ),
    "wasted-fastener": Promise(
        given={"thread": "M10x1.5", "shank": "8.6 mm"},
        optional={"shank_uncertainty": "0.05 mm"},
        gives={"governing_area": "mm2", "share_left": PLAIN, "governed_by": WORD},
    ),
    "tack-weld-break": Promise(
        given={
            "tacks": "3",
            "leg": "4 mm",
            "length": "8 mm",
            "shear_strength": "250 MPa",
            "radius": "14 mm",
        },
        gives={"throat": "mm", "torque": "N m"},
    ),
    "fillet-weld-stress": Promise(
        given={"leg": "6 mm", "total_length": "200 mm", "load": "50 kN"},
        gives={"stress": "MPa"},
    ),
    "coil-spring": Promise(
        given={
            "wire": "8 mm",
            "mean_diameter": "64 mm",
            "active_coils": "10",
            "shear_modulus": "79 GPa",
        },
        optional={"load": "600 N"},
        gives={
            "index": PLAIN,
            "rate": "N/mm",
            "wahl": PLAIN,
            "stress": "MPa",
            "deflection": "mm",
        },
    ),
    "gas-charge": Promise(
        given={
            "pressure": "58 bar",
            "pressure_kind": "gauge",
            "temperature": "15 degC",
            "new_temperature": "45 degC",
        },
        gives={"ideal": "bar", "real": "bar", "ideal_error": "%"},
    ),
    "gas-compression": Promise(
        given={
            "pressure": "58 bar",
            "pressure_kind": "absolute",
            "temperature": "15 degC",
            "volume_ratio": "0.5",
            "process": "slow",
        },
        gives={"ideal": "bar", "real": "bar", "ideal_error": "%"},
    ),
    "ride-lean": Promise(
        given={"left": "610 mm", "right": "540 mm", "track": "1900 mm"},
        gives={"difference": "mm", "angle": "deg"},
    ),
    "track-sag": Promise(
        given={"span": "2.4 m", "sag": "0.065 m", "weight_per_length": "600 N/m"},
        gives={"horizontal_tension": "N", "greatest_tension": "N", "length": "m"},
    ),
    "ground-pressure": Promise(
        given={"weight": "118 kN", "track_width": "450 mm", "contact_length": "2600 mm"},
        optional={
            "wheels_per_side": "5",
            "wheel_diameter": "500 mm",
            "pitch": "150 mm",
            "link_area_ratio": "0.8",
        },
        gives={"nominal": "kPa", "mean_maximum": "kPa"},
    ),
    "tow-pull": Promise(
        given={"mass": "22000 kg", "gradient": "4 %", "rolling": "0.025"},
        optional={
            "driven_mass": "5500 kg",
            "friction": "0.45",
            "falls": "2",
            "sheave_efficiency": "0.95",
        },
        gives={
            "grade_pull": "kN",
            "rolling_pull": "kN",
            "pull": "kN",
            "traction_limit": "kN",
            "line_pull": "kN",
        },
    ),
    "sling-legs": Promise(
        given={"load": "118 kN", "legs": "4", "angle": "60 deg", "angle_from": "horizontal"},
        optional={"loaded_legs": "2"},
        gives={"factor": PLAIN, "leg_tension": "kN"},
    ),
    "manual-lift": Promise(
        given={
            "system": "metric",
            "load": "20 kg",
            "horizontal": "40 cm",
            "vertical": "60 cm",
            "travel": "50 cm",
            "asymmetry": "30 deg",
            "frequency": "0.2 1/min",
            "duration": "short",
            "coupling": "fair",
        },
        optional={"rounding": "full"},
        gives={
            "hm": PLAIN,
            "vm": PLAIN,
            "dm": PLAIN,
            "am": PLAIN,
            "fm": PLAIN,
            "cm": PLAIN,
            "limit": "kg",
            "lifting_index": PLAIN,
        },
    ),
    "hand-arm-vibration": Promise(
        given={"exposure": ("4 m/s2 for 2.5 h", "6 m/s2 for 20 min")},
        gives={"a8": "m/s2", "points": PLAIN, "band": WORD},
    ),
    "noise-dose": Promise(
        given={"exposure": ("92 dB for 30 min", "80 dB for 4 h")},
        gives={"daily_level": "dB", "points": PLAIN, "band": WORD},
    ),
    "oxygen-depletion": Promise(
        given={"room": "200 m3"},
        optional={
            "gas": "1 m3",
            "cylinder": "50 litre",
            "cylinder_pressure": "200 bar",
            "temperature": "15 degC",
        },
        gives={"gas_released": "m3", "oxygen": "%"},
    ),
    "stored-gas-energy": Promise(
        given={"volume": "3 litre", "pressure": "58 bar", "pressure_kind": "gauge"},
        optional={"k": "1.4"},
        gives={"brode": "kJ", "isentropic": "kJ", "isothermal": "kJ", "free_gas": "m3"},
    ),
    "oil-viscosity": Promise(
        given={"at_40": "100 cSt", "at_100": "11.2 cSt"},
        optional={"temperature": "60 degC"},
        gives={"viscosity": "cSt", "index": PLAIN, "grade": WORD},
    ),
    "old-viscosity": Promise(
        given={"scale": "redwood-1", "seconds": "200 s"},
        gives={"viscosity": "cSt"},
    ),
    "galvanic-pair": Promise(
        given={"metal": "brass", "other": "zinc", "place": "store"},
        optional={"sacrificial": "false"},
        gives={"difference": "V", "allowed": "V"},
    ),
}
SHEETS = sorted(CONTRACT)
WORDS = [
    ("interference-fit", "interference_kind", ("diametral", "radial")),
    ("rolling-bearing-life", "kind", ("ball", "roller")),
    ("rolling-bearing-life", "edition", ("2007", "1990")),
    ("gas-charge", "pressure_kind", ("absolute", "gauge")),
    ("gas-compression", "pressure_kind", ("absolute", "gauge")),
    ("gas-compression", "process", ("slow", "fast")),
    ("stored-gas-energy", "pressure_kind", ("absolute", "gauge")),
    ("sling-legs", "angle_from", ("horizontal", "vertical", "included")),
    ("manual-lift", "duration", ("short", "moderate", "long")),
    ("manual-lift", "coupling", ("good", "fair", "poor")),
    ("manual-lift", "rounding", ("stepwise", "full")),
    ("old-viscosity", "scale", ("ssu", "redwood-1", "redwood-2")),
    ("galvanic-pair", "place", ("outdoor", "store", "controlled")),
    ("galvanic-pair", "sacrificial", ("true", "false")),
]
ONE_WORD = [
    pytest.param(sheet, name, word, id=f"{sheet} {name} {word}")
    for sheet, name, words in WORDS
    for word in words
]
THREADS = [
    ("bolt-preload", "M12"),
    ("bolt-preload", "M16x1.5"),
    ("bolt-preload", "3/4-10 UNC"),
    ("bolt-preload", "5/8 BSW"),
    ("bolt-preload", "1/2 BSF"),
    ("thread-engagement", "M10x1.5"),
    ("thread-engagement", "5/8 BSW"),
    ("wasted-fastener", "M10x1.5"),
    ("wasted-fastener", "5/8 BSW"),
]


def with_everything(name: str) -> Run:
    promise = CONTRACT[name]
    return run(find_sheet(name), {**promise.given, **promise.optional})


def test_the_sheets_that_can_be_run_are_the_27_that_were_promised() -> None:
    assert SHEETS == sorted(built_names())
    assert 27 == len(SHEETS)


@pytest.mark.parametrize("name", SHEETS)
def test_a_sheet_asks_for_what_was_promised_and_nothing_else_must_be_given(name: str) -> None:
    taken = inputs_of(find_sheet(name).equation)
    assert CONTRACT[name].given.keys() == {entry.name for entry in taken if not entry.optional}
    assert CONTRACT[name].optional.keys() <= {entry.name for entry in taken if entry.optional}


@pytest.mark.parametrize("name", SHEETS)
def test_a_sheet_gives_every_result_that_was_promised_in_its_unit(name: str) -> None:
    results = with_everything(name).results
    promised = CONTRACT[name].gives
    assert promised == {result: results[result].unit for result in promised}


@pytest.mark.parametrize("name", SHEETS)
def test_a_sheet_runs_on_what_must_be_given_alone(name: str) -> None:
    given = dict(CONTRACT[name].given)
    if name == "oxygen-depletion":  # the gas comes from one of two optional inputs
        given["gas"] = "1 m3"
    assert run(find_sheet(name), given).results.keys() & CONTRACT[name].gives.keys()


@pytest.mark.parametrize(("sheet", "name", "word"), ONE_WORD)
def test_a_word_used_in_two_senses_is_typed_as_promised(sheet: str, name: str, word: str) -> None:
    promise = CONTRACT[sheet]
    given = {**promise.given, **promise.optional, name: word}
    assert run(find_sheet(sheet), given).results


@pytest.mark.parametrize(("sheet", "thread"), THREADS)
def test_a_thread_is_written_as_promised(sheet: str, thread: str) -> None:
    assert run(find_sheet(sheet), {**CONTRACT[sheet].given, "thread": thread}).results


def test_a_proof_stress_is_typed_or_taken_from_its_class() -> None:
    typed = {**CONTRACT["bolt-preload"].given, "proof_stress": "600 MPa"}
    assert "N m" == run(find_sheet("bolt-preload"), typed).results["torque"].unit


def test_a_lift_in_inches_and_pounds_has_its_limit_in_pounds() -> None:
    given = {
        **CONTRACT["manual-lift"].given,
        "system": "us",
        "load": "44 lb",
        "horizontal": "16 in",
        "vertical": "24 in",
        "travel": "20 in",
    }
    assert "lb" == run(find_sheet("manual-lift"), given).results["limit"].unit


def test_a_press_fit_is_told_on_the_command_line_as_promised() -> None:
    # ISO 286-2:2010, 50 H7/p6 (from memory; a second opinion stands in test_limits_and_fits).
    words = ("limits-and-fits", "size=50 mm", "hole=H7", "shaft=p6")
    told = call("worksheet", "run", *words, "--format", "json").json
    expected = {
        "hole_upper": 25,
        "hole_lower": 0,
        "shaft_upper": 42,
        "shaft_lower": 26,
        "clearance_min": -42,
        "clearance_max": -1,
    }
    values = {name: told["results"][name]["value"] for name in (*expected, "fit")}
    assert {**expected, "fit": "interference"} == values
    assert {"um"} == {told["results"][name]["unit"] for name in expected}


def test_a_run_is_told_on_the_command_line_in_the_shape_that_was_promised() -> None:
    words = ("limits-and-fits", "size=50 mm", "hole=H7", "shaft=p6")
    told = call("worksheet", "run", *words, "--format", "json").json
    assert {"sheet", "results", "verdict", "cautions", "source"} <= told.keys()
    assert ("limits-and-fits", None) == (told["sheet"], told["verdict"])
    assert {"value", "unit", "plus_minus"} == told["results"]["hole_upper"].keys()


def test_a_repeated_input_is_repeated_on_the_command_line() -> None:
    words = ("noise-dose", "exposure=92 dB for 30 min", "exposure=92 dB for 30 min")
    told = call("worksheet", "run", *words, "--format", "json").json
    # Twice the time is 3 dB more: 92 dB for an hour is 83 dB over eight (HSE, equal exposures).
    assert told["results"]["daily_level"]["value"] == pytest.approx(83, abs=0.05)
