"""The torque that breaks the tacks on a bolt head, so that a tacked bolt can come out whole.

A tack is a short fillet weld that nobody inspected. Its size and depth may be half or half as much
again of what shows, so the figure is given with that spread.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Annotated, NamedTuple

from witnessmark.worksheets.declare import (
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

# Size and penetration of a tack are not known closer than half either way (judgement, no source).
_SPREAD = Fraction(1, 2)


class TackTorque(NamedTuple):
    """The throat of a tack and the torque that breaks them all, with its spread."""

    throat: Annotated[Number, Gives(unit="mm", meaning="throat of an equal-legged tack")]
    torque: Annotated[Number, Gives(unit="N m", meaning="torque that breaks all tacks at once")]
    torque_low: Annotated[
        Number, Gives(unit="N m", meaning="half of it: what poor tacks may let go at")
    ]
    torque_high: Annotated[
        Number, Gives(unit="N m", meaning="half as much again: what deep tacks may need")
    ]


def tack_weld_break(
    *,
    tacks: Annotated[
        Number, Input(unit="1", meaning="number of tacks", refuse_low="1", whole=True)
    ],
    leg: Annotated[
        Number, Input(unit="mm", meaning="leg of each tack", above="0", low="1", high="15")
    ],
    length: Annotated[Number, Input(unit="mm", meaning="length of each tack", above="0")],
    shear_strength: Annotated[
        Number,
        Input(
            unit="MPa",
            meaning="shear strength of the weld metal, 0.6 to 0.75 of its tensile strength",
            above="0",
            low="100",
            high="500",
        ),
    ],
    radius: Annotated[
        Number, Input(unit="mm", meaning="from the bolt's centre to the weld line", above="0")
    ],
    torque_limit: Annotated[  # noqa: ARG001 - the limit below reads it
        Number | None,
        Input(unit="N m", meaning="greatest torque the bolt or its head will stand", above="0"),
    ] = None,
) -> TackTorque:
    """Give the torque that breaks the tack welds on a bolt head."""
    throat = leg / math.sqrt(2)
    torque = tacks * throat * length * shear_strength * radius
    return TackTorque(
        throat=throat,
        torque=torque,
        torque_low=(1 - _SPREAD) * torque,
        torque_high=(1 + _SPREAD) * torque,
    )


def _is_longer_than_the_ring(figures: Figures) -> bool:
    welded = float(figures.number("tacks") * figures.number("length"))
    return welded > 2 * math.pi * float(figures.number("radius"))


_THROAT = Source(
    author="welding texts",
    title="throat of an equal-legged fillet: 0.707 of its leg",
    year="no year",
    clause="no clause",
    standing=Standing.FROM_MEMORY,
)
_BY_HAND = Source(
    author="the project",
    title="three tacks on a bolt head, worked by hand",
    year="2026",
    clause="3 * 0.707 * 4 * 8 * 250 * 14 / 1000",
    standing=Standing.COMMON_PRACTICE,
    note="Constructed: no published example was found.",
)

SHEET = Sheet(
    id="tack-weld-break",
    title="Torque that breaks tack welds on a bolt head",
    tells="Whether a tacked bolt can be turned out by torque alone, or must be ground or drilled.",
    equation=tack_weld_break,
    formula=(
        "throat = leg / sqrt(2)",
        "torque = tacks * throat * length * shear_strength * radius",
        "torque_low and torque_high: half under and half over",
    ),
    sources=(_THROAT,),
    limits=(
        Limit(
            result="torque_high",
            side=Side.AT_MOST,
            against="torque_limit",
            meaning="the greatest torque the bolt will stand, so that the tacks go first",
        ),
    ),
    cautions=(
        Caution(
            text=(
                "The tacks together are longer than the ring they lie on: check the radius and the "
                "length of each."
            ),
            when=_is_longer_than_the_ring,
        ),
        Caution(
            text=(
                "To break out, plan for torque_high; to hold, trust no more than torque_low. A "
                "tack was never made to hold a load: do not rely on it for safety."
            )
        ),
        Caution(
            text=(
                "radius is from the centre to the weld line, not across the head. All tacks are "
                "taken at one radius, in shear, with nothing from rust and thread friction."
            )
        ),
        Caution(
            text=(
                "A tack that lets go does so at once: guard hands and face, and use no hammered "
                "spanner. Grinding makes sparks, may shatter a disc and frees lead from paint; "
                "zinc and cadmium plating give poison fume when heated: test paint and plating, "
                "and work under local rules for hot work, lead and cadmium. Tacked heads may be "
                "evidence of how the machine was kept: record them first."
            )
        ),
    ),
    examples=(
        Example(
            title="Three tacks of 4 mm leg and 8 mm length at 14 mm",
            given={
                "tacks": "3",
                "leg": "4 mm",
                "length": "8 mm",
                "shear_strength": "250 MPa",
                "radius": "14 mm",
            },
            printed={"torque": Printed(value="238 N m", ours="237.59 N m", tolerance="0.5 N m")},
            source=_BY_HAND,
        ),
    ),
    none_found=(
        "No published example was found. The one here was reckoned by hand and is no outside check."
    ),
)
