"""How hard a pressed or shrunk hub grips its shaft, what that does to both, and what frees it.

Lame's thick cylinders: elastic, of one length, even along the joint, not turning. The word
interference means half as much on radius as on diameter, so the sheet asks which is meant.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Annotated, NamedTuple

from witnessmark.worksheets.declare import (
    CannotCompute,
    Caution,
    Choice,
    Example,
    Figures,
    Gives,
    Input,
    Limit,
    Number,
    Printed,
    Sheet,
    Side,
    Source,
    Standing,
)

# Metals from lead to tool steel; outside it a slip of unit is likelier. From memory.
_SOFTEST, _STIFFEST = "10", "250"
# Poisson's ratio of an elastic solid lies from 0 to 1/2 (theory of elasticity).
_POISSON_MOST = "0.5"
# Interference over this share of the diameter strains steel past yield. Common practice, no source.
_MOST_SHARE = Fraction(2, 1000)
# A wall under a tenth of the bore radius is a shell, and bends at its ends. Common practice.
_THIN_WALL = Fraction(1, 10)


class Grip(NamedTuple):
    """Pressure at the joint, the stresses it makes, and what it takes to press, turn or free it."""

    pressure: Annotated[Number, Gives(unit="MPa", meaning="pressure between hub and shaft")]
    hub_hoop_stress: Annotated[
        Number, Gives(unit="MPa", meaning="hoop stress at the bore of the hub, tension")
    ]
    shaft_stress: Annotated[
        Number,
        Gives(
            unit="MPa",
            meaning="hoop stress in the shaft, under 0 for compression; at its bore if hollow",
        ),
    ]
    press_force: Annotated[
        Number | None, Gives(unit="kN", meaning="force to press home or off, cold")
    ]
    torque: Annotated[Number | None, Gives(unit="N m", meaning="torque at which the joint slips")]
    heating: Annotated[
        Number | None, Gives(unit="K", meaning="how much warmer the hub must be than the shaft")
    ]


def interference_fit(
    *,
    diameter: Annotated[Number, Input(unit="mm", meaning="diameter of the joint", above="0")],
    interference: Annotated[
        Number,
        Input(unit="mm", meaning="by how much the shaft is larger than the bore", above="0"),
    ],
    interference_kind: Annotated[
        str,
        Choice(
            meaning="how the interference is measured",
            words={"diametral": "on diameter", "radial": "on radius, half of it"},
        ),
    ],
    hub_outside: Annotated[
        Number, Input(unit="mm", meaning="outside diameter of the hub", above="0")
    ],
    hub_modulus: Annotated[
        Number,
        Input(
            unit="GPa",
            meaning="Young's modulus of the hub",
            above="0",
            low=_SOFTEST,
            high=_STIFFEST,
        ),
    ],
    hub_poisson: Annotated[
        Number,
        Input(
            unit="1",
            meaning="Poisson's ratio of the hub",
            refuse_low="0",
            refuse_high=_POISSON_MOST,
        ),
    ],
    shaft_modulus: Annotated[
        Number,
        Input(
            unit="GPa",
            meaning="Young's modulus of the shaft",
            above="0",
            low=_SOFTEST,
            high=_STIFFEST,
        ),
    ],
    shaft_poisson: Annotated[
        Number,
        Input(
            unit="1",
            meaning="Poisson's ratio of the shaft",
            refuse_low="0",
            refuse_high=_POISSON_MOST,
        ),
    ],
    shaft_bore: Annotated[
        Number, Input(unit="mm", meaning="bore of the shaft, 0 where solid", refuse_low="0")
    ] = Fraction(0),
    length: Annotated[Number | None, Input(unit="mm", meaning="length in contact", above="0")] = (
        None
    ),
    friction: Annotated[
        Number | None,
        Input(unit="1", meaning="friction of the joint", above="0", low="0.03", high="0.3"),
    ] = None,
    hub_expansion: Annotated[
        Number | None,
        Input(unit="1/K", meaning="how much the hub grows for each kelvin", above="0"),
    ] = None,
    assembly_clearance: Annotated[
        Number,
        Input(unit="mm", meaning="clearance wanted to slip it on, on diameter", refuse_low="0"),
    ] = Fraction(0),
    hub_stress_limit: Annotated[  # noqa: ARG001 - the limit below reads it
        Number | None,
        Input(unit="MPa", meaning="greatest hoop stress allowed in the hub", above="0"),
    ] = None,
) -> Grip:
    """Give the pressure, stresses, pressing force, torque and heating of an interference fit."""
    d, do, di = diameter, hub_outside, shaft_bore
    _refuse_what_cannot_be(d=d, do=do, di=di)
    delta = interference if interference_kind == "diametral" else 2 * interference
    hub_ratio = (do**2 + d**2) / (do**2 - d**2)
    shaft_ratio = (d**2 + di**2) / (d**2 - di**2)
    give = (hub_ratio + hub_poisson) / hub_modulus + (shaft_ratio - shaft_poisson) / shaft_modulus
    p = delta / (d * give)
    force = math.pi * d * length * friction * p if length is not None and friction else None
    return Grip(
        pressure=p,
        hub_hoop_stress=p * hub_ratio,
        shaft_stress=-2 * p * d**2 / (d**2 - di**2) if di else -p,
        press_force=force,
        torque=None if force is None else force * d / 2,
        heating=(delta + assembly_clearance) / (hub_expansion * d) if hub_expansion else None,
    )


def _refuse_what_cannot_be(*, d: Number, do: Number, di: Number) -> None:
    if do <= d:
        raise CannotCompute(
            "hub_outside",
            message="The hub is no larger outside than the joint.",
            fix="Give both on diameter: check for a radius among them.",
        )
    if di >= d:
        raise CannotCompute(
            "shaft_bore",
            message="The bore of the shaft is no smaller than the joint.",
            fix="Give both on diameter, and 0 for a solid shaft.",
        )


def _delta(figures: Figures) -> Number:
    given = figures.number("interference")
    return given if figures.value("interference_kind") == "diametral" else 2 * given


def _is_too_much(figures: Figures) -> bool:
    return _delta(figures) > _MOST_SHARE * Fraction(figures.number("diameter"))


def _is_thin(figures: Figures) -> bool:
    bore = Fraction(figures.number("diameter"))
    return figures.number("hub_outside") - bore < _THIN_WALL * bore


def _is_cold_only(figures: Figures) -> bool:
    return figures.has("friction") and not figures.has("length")


_LAME = Source(
    author="Lame",
    title="Leçons sur la théorie mathématique de l'élasticité",
    year="1852",
    clause="thick cylinders; the fit of two as in any machine design text",
    standing=Standing.FROM_MEMORY,
    note="Four public examples below are recomputed.",
)
_PAGE = Source(
    author="a public calculator page",
    title="shrink fit stress",
    year="year not seen",
    clause="worked example",
    standing=Standing.SEEN,
)
_BHAVIKATTI = Source(
    author="Bhavikatti",
    title="Strength of Materials",
    year="edition not seen",
    clause="example 8.8.16",
    standing=Standing.SEEN,
    note="Read as a public worked copy with its output, not in the book.",
)
_GROOVER = Source(
    author="Groover",
    title="Fundamentals of Modern Manufacturing",
    year="edition not seen",
    clause="a press fit problem: gear bore 30 mm, root 55 mm",
    standing=Standing.FROM_MEMORY,
    note="The problem was read on a public page; the printed answer is from memory.",
)
_STEEL = {"hub_poisson": "0.3", "shaft_poisson": "0.3"}

SHEET = Sheet(
    id="interference-fit",
    title="Pressed and shrunk fits",
    tells="How hard a hub grips its shaft, whether it may burst, and how it can come off again.",
    equation=interference_fit,
    formula=(
        "delta = interference on diameter (twice that on radius)",
        "hub_ratio = (Do^2 + d^2) / (Do^2 - d^2); shaft_ratio = (d^2 + di^2) / (d^2 - di^2)",
        "pressure = delta / (d * ((hub_ratio + nu_h) / E_h + (shaft_ratio - nu_s) / E_s))",
        "hub_hoop_stress = pressure * hub_ratio",
        "shaft_stress = -pressure where solid, else -2 * pressure * d^2 / (d^2 - di^2)",
        "press_force = pi * d * length * friction * pressure; torque = press_force * d / 2",
        "heating = (delta + assembly_clearance) / (hub_expansion * d)",
    ),
    sources=(_LAME,),
    limits=(
        Limit(
            result="hub_hoop_stress",
            side=Side.AT_MOST,
            against="hub_stress_limit",
            meaning="the greatest hoop stress allowed in the hub",
        ),
    ),
    cautions=(
        Caution(
            text=(
                "The interference is over 0.2 % of the diameter: most metals have yielded by then, "
                "and the true pressure is lower. Check for a radius or a slip in a unit."
            ),
            when=_is_too_much,
        ),
        Caution(
            text=(
                "The hub wall is thinner than a tenth of the bore radius: it is a shell, and these "
                "figures do not hold at its ends."
            ),
            when=_is_thin,
        ),
        Caution(
            text="Friction is given without a length, so no force or torque is reckoned.",
            when=_is_cold_only,
        ),
        Caution(
            text=(
                "Rough faces flatten: the interference that grips is less than measured, commonly "
                "by 0.8 times the sum of both roughness heights Rz (from memory)."
            )
        ),
        Caution(
            text=(
                "Use the least interference and the lowest friction for what it holds, the "
                "greatest of both for the press and for bursting. Friction is the weakest number."
            )
        ),
        Caution(
            text=(
                "A hub of cast iron is brittle: hold it to a third of its tensile strength or "
                "less, not to a yield stress (common practice). It may burst as it is pressed."
            )
        ),
        Caution(
            text=(
                "Pulling a hub frees stored energy. Heating alters temper and ruins original paint "
                "and solder; never heat a part that holds gas or oil."
            )
        ),
    ),
    examples=(
        Example(
            title="Steel hub of 150 mm on a solid shaft of 100 mm, 0.1 mm on diameter",
            given={
                **_STEEL,
                "diameter": "100 mm",
                "interference": "0.1 mm",
                "interference_kind": "diametral",
                "hub_outside": "150 mm",
                "hub_modulus": "210 GPa",
                "shaft_modulus": "210 GPa",
                "length": "50 mm",
                "friction": "0.15",
            },
            printed={
                "pressure": Printed(value="58.3 MPa", ours="58.33 MPa", tolerance="0.05 MPa"),
                "hub_hoop_stress": Printed(
                    value="151.7 MPa", ours="151.67 MPa", tolerance="0.05 MPa"
                ),
                "shaft_stress": Printed(value="-58.3 MPa", ours="-58.33 MPa", tolerance="0.05 MPa"),
                "torque": Printed(value="6.87 kN m", ours="6.872 kN m", tolerance="0.005 kN m"),
            },
            source=_PAGE,
        ),
        Example(
            title="Compound cylinder of radii 100, 125 and 150 mm, 0.189 mm on radius",
            given={
                **_STEEL,
                "diameter": "250 mm",
                "interference": "0.189 mm",
                "interference_kind": "radial",
                "hub_outside": "300 mm",
                "hub_modulus": "200 GPa",
                "shaft_modulus": "200 GPa",
                "shaft_bore": "200 mm",
            },
            printed={
                "pressure": Printed(value="30 MPa", ours="29.938 MPa", tolerance="0.1 MPa"),
            },
            source=_BHAVIKATTI,
            note=(
                "The book starts from 30 MPa and prints a shrinkage allowance of 0.189 mm without "
                "saying on what. It is on radius; on diameter it would be 0.379 mm."
            ),
        ),
        Example(
            title="Gear pressed on its shaft, 0.10 mm, as the text's own formula has it",
            given={
                **_STEEL,
                "diameter": "30 mm",
                "interference": "0.10 mm",
                "interference_kind": "diametral",
                "hub_outside": "55 mm",
                "hub_modulus": "69 GPa",
                "shaft_modulus": "69 GPa",
            },
            printed={
                "pressure": Printed(
                    value="161.5 MPa", ours="80.785 MPa", tolerance="0.5 MPa", is_wrong=True
                ),
            },
            source=_GROOVER,
            note=(
                "The text's formula takes the interference as on radius without saying so; read as "
                "on diameter, the pressure is half of what it prints."
            ),
        ),
        Example(
            title="The same gear, 0.10 mm on radius",
            given={
                **_STEEL,
                "diameter": "30 mm",
                "interference": "0.10 mm",
                "interference_kind": "radial",
                "hub_outside": "55 mm",
                "hub_modulus": "69 GPa",
                "shaft_modulus": "69 GPa",
            },
            printed={
                "pressure": Printed(value="161.5 MPa", ours="161.57 MPa", tolerance="0.5 MPa"),
            },
            source=_GROOVER,
        ),
    ),
)
