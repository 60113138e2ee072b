"""The rate of a helical spring and the stress in its wire: Wahl.

Round wire, close coils, within the elastic range. A sagged spring keeps its rate and loses height,
so the rate of an old one can be reckoned from its wire as it stands.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Annotated

from witnessmark.worksheets.declare import (
    CannotCompute,
    Caution,
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

# Usual index of coil springs: under 4 they can hardly be coiled, over 12 they tangle and buckle.
# Common practice, from memory of several texts.
_LEAST_INDEX, _MOST_INDEX = 4, 12


@dataclass(frozen=True, kw_only=True)  # a named tuple has an index of its own
class Spring:
    """Index, rate and Wahl's factor; under a load, the stress and how far it goes."""

    index: Annotated[Number, Gives(unit="1", meaning="mean coil diameter over wire diameter, C")]
    rate: Annotated[Number, Gives(unit="N/mm", meaning="load for each millimetre")]
    wahl: Annotated[
        Number,
        Gives(unit="1", meaning="Wahl's factor for the inside of the coil, direct shear too"),
    ]
    stress: Annotated[Number | None, Gives(unit="MPa", meaning="greatest shear stress in the wire")]
    deflection: Annotated[Number | None, Gives(unit="mm", meaning="how far the load moves it")]


def coil_spring(
    *,
    wire: Annotated[Number, Input(unit="mm", meaning="diameter of the wire", above="0", low="0.2")],
    mean_diameter: Annotated[
        Number,
        Input(
            unit="mm",
            meaning="mean diameter of the coil: outside diameter less one wire",
            above="0",
        ),
    ],
    active_coils: Annotated[
        Number,
        Input(
            unit="1",
            meaning="coils free to twist; two fewer than all if both ends are closed and ground",
            above="0",
            low="2",
        ),
    ],
    shear_modulus: Annotated[
        Number,
        Input(unit="GPa", meaning="shear modulus of the wire", above="0", low="35", high="85"),
    ],
    load: Annotated[Number | None, Input(unit="N", meaning="axial load", refuse_low="0")] = None,
    allowed_stress: Annotated[  # noqa: ARG001 - the limit below reads it
        Number | None, Input(unit="MPa", meaning="greatest shear stress allowed", above="0")
    ] = None,
    travel: Annotated[  # noqa: ARG001 - the limit below reads it
        Number | None,
        Input(unit="mm", meaning="how far it may go before its coils touch", above="0"),
    ] = None,
) -> Spring:
    """Give the rate of a coil spring, and its stress and deflection under a load."""
    d, dm = wire, mean_diameter
    c = dm / d
    if c <= 1:
        raise CannotCompute(
            "mean_diameter",
            message="The coil is no larger than its wire.",
            fix="Give the mean diameter: the outside diameter less one wire.",
        )
    rate = shear_modulus * d**4 / (8 * dm**3 * active_coils)
    wahl = (4 * c - 1) / (4 * c - 4) + 0.615 / c
    stress = None if load is None else wahl * 8 * load * dm / (math.pi * d**3)
    return Spring(
        index=c,
        rate=rate,
        wahl=wahl,
        stress=stress,
        deflection=None if load is None else load / rate,
    )


def _is_odd_index(figures: Figures) -> bool:
    return not _LEAST_INDEX <= figures.number("index") <= _MOST_INDEX


def _lacks_a_load(figures: Figures) -> bool:
    has_limit = figures.has("allowed_stress") or figures.has("travel")
    return has_limit and not figures.has("load")


_WAHL = Source(
    author="Wahl",
    title="Mechanical Springs",
    year="1963",
    clause="rate and stress factor of round-wire helical springs",
    standing=Standing.FROM_MEMORY,
    note="Two public worked examples below are recomputed.",
)
_SINGH = Source(
    author="Sadhu Singh",
    title="Machine Design-I",
    year="edition not seen",
    clause="example 8.3",
    standing=Standing.SEEN,
    note="Read as a public worked copy with its output, not in the book.",
)
_WENTZELL = Source(
    author="Wentzell",
    title="Machine Design",
    year="edition not seen",
    clause="example 8.2",
    standing=Standing.SEEN,
    note="Read as a public worked copy with its output, not in the book.",
)
_JINDAL = Source(
    author="Jindal",
    title="Machine Design",
    year="edition not seen",
    clause="example 8-1",
    standing=Standing.SEEN,
    note="Read as a public worked copy with its output, not in the book.",
)


def _wrong(value: str, *, ours: str, tolerance: str) -> Printed:
    return Printed(value=value, ours=ours, tolerance=tolerance, is_wrong=True)


SHEET = Sheet(
    id="coil-spring",
    title="Rate and stress of a coil spring",
    tells="How stiff a spring is, how far a load moves it, and how hard its wire works.",
    equation=coil_spring,
    formula=(
        "index C = mean_diameter / wire",
        "rate = shear_modulus * wire^4 / (8 * mean_diameter^3 * active_coils)",
        "wahl = (4 C - 1) / (4 C - 4) + 0.615 / C",
        "stress = wahl * 8 * load * mean_diameter / (pi * wire^3)",
        "deflection = load / rate",
    ),
    sources=(_WAHL,),
    limits=(
        Limit(
            result="stress",
            side=Side.AT_MOST,
            against="allowed_stress",
            meaning="the greatest shear stress allowed",
        ),
        Limit(
            result="deflection",
            side=Side.AT_MOST,
            against="travel",
            meaning="how far it may go before its coils touch",
        ),
    ),
    cautions=(
        Caution(
            text=(
                "The index lies outside 4 to 12, where coil springs are usual: check that the mean "
                "diameter, not the outside, was given, and the unit."
            ),
            when=_is_odd_index,
        ),
        Caution(
            text="A limit is given without a load, so nothing is judged against it.",
            when=_lacks_a_load,
        ),
        Caution(
            text=(
                "The rate goes with the fourth power of the wire and the third of the coil: "
                "measure the wire on bright metal in several places. Rust pits start cracks that "
                "this stress does not know of."
            )
        ),
        Caution(
            text=(
                "Count free coils only. A spring that has sagged keeps its rate; a spacer under it "
                "can be undone, resetting and a new spring cannot."
            )
        ),
        Caution(
            text=(
                "A compressed spring holds energy enough to kill: use a cage or the maker's clamp, "
                "and stand clear of its line."
            )
        ),
    ),
    examples=(
        Example(
            title="Wire of 3 mm, index 6, 15 coils, 40 N",
            given={
                "wire": "3 mm",
                "mean_diameter": "18 mm",
                "active_coils": "15",
                "shear_modulus": "84 GPa",
                "load": "40 N",
            },
            printed={
                "wahl": Printed(value="1.2525", ours="1.2525", tolerance="0.00005"),
                "stress": Printed(value="85.05 MPa", ours="85.05 MPa", tolerance="0.05 MPa"),
                "rate": Printed(value="9.72 N/mm", ours="9.722 N/mm", tolerance="0.005 N/mm"),
            },
            source=_SINGH,
        ),
        Example(
            title="Wire of 0.105 in, coil of 0.620 in, 35 lbf at half an inch",
            given={
                "wire": "0.105 in",
                "mean_diameter": "0.620 in",
                "active_coils": "10.79",
                "shear_modulus": "81.703 GPa",
                "load": "35 lbf",
            },
            printed={
                "rate": Printed(value="70.0 lbf/in", ours="70.01 lbf/in", tolerance="0.05 lbf/in"),
                "deflection": Printed(value="0.5 in", ours="0.4999 in", tolerance="0.001 in"),
            },
            source=_WENTZELL,
            note="The book asks for the coils: 12.79 in all, 10.79 active, from 11.85e6 psi.",
        ),
        Example(
            title="Wire of 5 mm, coil of 30 mm, 15 coils, 300 N, as misprinted",
            given={
                "wire": "5 mm",
                "mean_diameter": "30 mm",
                "active_coils": "15",
                "shear_modulus": "84 GPa",
                "load": "300 N",
            },
            printed={
                "wahl": _wrong("1.1025", ours="1.2525", tolerance="0.0005"),
                "rate": _wrong("16.0 N/mm", ours="16.20 N/mm", tolerance="0.05 N/mm"),
                "deflection": _wrong("18.000 mm", ours="18.514 mm", tolerance="0.005 mm"),
            },
            source=_JINDAL,
            note=(
                "The worked copy divides whole numbers: it prints 1.0000 for the direct shear "
                "factor 1.0833, and carries the slip into all three."
            ),
        ),
    ),
)
