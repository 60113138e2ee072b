"""How far a machine leans sideways, from the ride height at its two sides."""

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


class Lean(NamedTuple):
    """How the two sides stand to each other."""

    difference: Annotated[
        Number, Gives(unit="mm", meaning="left less right; under 0 leans to the left")
    ]
    angle: Annotated[Number, Gives(unit="deg", meaning="lean of the frame, signed as difference")]
    unevenness: Annotated[Number, Gives(unit="mm", meaning="size of the difference")]


def ride_lean(
    *,
    left: Annotated[
        Number,
        Input(
            unit="mm",
            meaning="height over level ground at the left, facing the way it drives",
            refuse_low="0",
        ),
    ],
    right: Annotated[
        Number,
        Input(
            unit="mm",
            meaning="height over level ground at the right, at the same place on the frame",
            refuse_low="0",
        ),
    ],
    track: Annotated[
        Number,
        Input(
            unit="mm",
            meaning="distance across the machine between the two places measured",
            above="0",
            low="300",
            high="6000",
        ),
    ],
    allowed: Annotated[
        Number | None,
        Input(
            unit="mm",
            meaning="greatest difference allowed between the sides, from the manual",
            above="0",
        ),
    ] = None,
) -> Lean:
    """Give the lean: tan(angle) = (left - right) / track."""
    del allowed  # met by the limit of the sheet, not by the equation
    difference = left - right
    return Lean(
        difference=difference,
        angle=math.atan(difference / track) / math.tau,
        unevenness=max(difference, -difference),
    )


# Over this slope the heights no longer tell the lean of a machine but of a slip in reading.
_STEEP = Fraction(1, 4)


def _is_steep(figures: Figures) -> bool:
    return figures.number("unevenness") > _STEEP * figures.number("track")


_RAMP = Source(
    author="US Department of Justice",
    title="ADA Standards for Accessible Design, running slope of ramps",
    year="2010",
    clause="405.2, slope 1:12, commonly converted to 4.76 degrees",
    standing=Standing.FROM_MEMORY,
)
_SINES = Source(
    author="CRC",
    title="Standard Mathematical Tables, natural tangents",
    year="edition not seen",
    clause="tan 1 deg = 0.01746, tan 5 deg = 0.08749",
    standing=Standing.FROM_MEMORY,
)
_TABLE_NOTE = "A row of a table of tangents read as a machine; no worked lean was found in print."

SHEET = Sheet(
    id="ride-lean",
    title="Lean of a machine on its springs or struts",
    tells="How many degrees a machine leans, and to which side.",
    equation=ride_lean,
    formula=(
        "difference = left - right",
        "angle = arctan(difference / track)",
        "unevenness = |difference|",
    ),
    sources=(
        Source(
            author="no author",
            title="Plane trigonometry: the slope of a line through two measured heights",
            year="none",
            clause="none",
            standing=Standing.COMMON_PRACTICE,
        ),
    ),
    limits=(
        Limit(
            result="unevenness",
            side=Side.AT_MOST,
            against="allowed",
            meaning="the greatest difference the manual allows between the sides",
        ),
    ),
    cautions=(
        Caution(
            text="The frame would lean more than 1 in 4: check the heights and the track.",
            when=_is_steep,
        ),
        Caution(
            text=(
                "Measure on a floor proved level, tyres at one pressure, fuel and water as in "
                "use, nobody aboard, after rolling a length forward and back. A floor out by "
                "1 in 200 looks like a lean."
            )
        ),
        Caution(
            text=(
                "A lean does not say which strut has leaked or which spring has set: measure each "
                "corner against the manual, and gas against gas-charge."
            )
        ),
        Caution(
            text=(
                "Never reach under a machine that stands on gas or springs alone: chock it and "
                "set it on stands first."
            )
        ),
    ),
    examples=(
        Example(
            title="A slope of one in twelve",
            given={
                "left": "550 mm",
                "right": "400 mm",
                "track": "1800 mm",
                "allowed": "25 mm",
            },
            printed={"angle": Printed(value="4.76 deg", ours="4.7636 deg", tolerance="0.005 deg")},
            source=_RAMP,
            note="The heights and the limit are ours; only the slope and its angle are printed.",
        ),
        Example(
            title="A slope of one degree, to the left",
            given={"left": "482.54 mm", "right": "500.00 mm", "track": "1000 mm"},
            printed={"angle": Printed(value="-1 deg", ours="-1.00028 deg", tolerance="0.0005 deg")},
            source=_SINES,
            note=_TABLE_NOTE,
        ),
        Example(
            title="A slope of five degrees",
            given={"left": "587.49 mm", "right": "500.00 mm", "track": "1000 mm"},
            printed={"angle": Printed(value="5 deg", ours="5.00008 deg", tolerance="0.0005 deg")},
            source=_SINES,
            note=_TABLE_NOTE,
        ),
    ),
)
