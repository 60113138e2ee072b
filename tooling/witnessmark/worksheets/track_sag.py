"""The pull in a hanging track, chain or rope from its sag.

The parabola of a flat span; the true curve, the catenary, is worked out beside it so that the
reader sees what the parabola leaves out. Ends at one height, hanging free between them.
"""

from __future__ import annotations

import math
from typing import Annotated, NamedTuple

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

# Sag over span up to which the parabola serves (from memory; the catenary result shows the error).
_FLAT = 0.1
# Sag over span beyond which a hanging run is no longer a run; the curve is then nearly two plumb
# lines, and the search below would need larger numbers than a float holds.
_DEEPEST = 50


class Sag(NamedTuple):
    """The pull at the middle and at the ends, the length, and the same by the true curve."""

    horizontal_tension: Annotated[Number, Gives(unit="N", meaning="pull at the lowest point")]
    greatest_tension: Annotated[Number, Gives(unit="N", meaning="pull at the ends")]
    length: Annotated[Number, Gives(unit="m", meaning="length of the hanging run")]
    sag_share: Annotated[Number, Gives(unit="1", meaning="sag over span")]
    catenary_tension: Annotated[
        Number, Gives(unit="N", meaning="pull at the ends by the catenary, the true curve")
    ]
    catenary_length: Annotated[Number, Gives(unit="m", meaning="length by the catenary")]


def track_sag(
    *,
    span: Annotated[
        Number, Input(unit="m", meaning="distance between the points it hangs from", above="0")
    ],
    sag: Annotated[
        Number, Input(unit="m", meaning="drop of the middle under the line of the ends", above="0")
    ],
    weight_per_length: Annotated[
        Number, Input(unit="N/m", meaning="weight of one metre of it", above="0")
    ],
    tension_limit: Annotated[  # noqa: ARG001 - the limit below reads it
        Number | None, Input(unit="N", meaning="greatest pull allowed", above="0")
    ] = None,
) -> Sag:
    """Give the pull in a hanging run and its length, from span, sag and weight."""
    w, ll, s = weight_per_length, span, sag
    c = _catenary(span=float(ll), sag=float(s))
    horizontal = w * ll**2 / (8 * s)
    return Sag(
        horizontal_tension=horizontal,
        greatest_tension=math.hypot(horizontal, w * ll / 2),
        length=ll * (1 + (s / ll) ** 2 * 8 / 3),
        sag_share=s / ll,
        catenary_tension=w * (c + float(s)),
        catenary_length=2 * c * math.sinh(float(ll) / (2 * c)),
    )


def _catenary(*, span: float, sag: float) -> float:
    """Give the parameter c of the catenary with sag = c (cosh(span / 2c) - 1), by halving."""
    if sag > _DEEPEST * span:
        raise CannotCompute(
            "sag", message="The sag is over fifty spans.", fix="Check both for a slip in a unit."
        )
    # x = span / 2c; sag / span = (cosh x - 1) / 2x grows with x.
    low, high = 0.0, 10.0
    for _ in range(200):
        x = (low + high) / 2
        # cosh x - 1 = 2 sinh(x/2)^2, which keeps its digits where x is small.
        low, high = (x, high) if math.sinh(x / 2) ** 2 / x < sag / span else (low, x)
    return span / (low + high)


def _is_deep(figures: Figures) -> bool:
    return figures.number("sag_share") > _FLAT


_MECHANICS = Source(
    author="mechanics texts",
    title="parabola and catenary of a hanging cable, ends at one height",
    year="no year",
    clause="no clause",
    standing=Standing.SEEN,
    note="The formulas were read on several public pages.",
)
_TAYAL = Source(
    author="Tayal",
    title="Engineering Mechanics",
    year="edition not seen",
    clause="examples 10.3, 10.5 and 10.6",
    standing=Standing.SEEN,
    note="Read as a public worked copy with its output, not in the book.",
)

SHEET = Sheet(
    id="track-sag",
    title="Pull in a hanging track, chain or rope",
    tells="How hard a track or chain pulls at the sag it hangs at.",
    equation=track_sag,
    formula=(
        "horizontal_tension = weight_per_length * span^2 / (8 * sag)",
        "greatest_tension = sqrt(horizontal_tension^2 + (weight_per_length * span / 2)^2)",
        "length = span * (1 + 8/3 * (sag / span)^2)",
        "catenary: sag = c * (cosh(span / (2 c)) - 1)",
        "catenary_tension = weight_per_length * (c + sag); length 2 c * sinh(span / (2 c))",
    ),
    sources=(_MECHANICS,),
    limits=(
        Limit(
            result="greatest_tension",
            side=Side.AT_MOST,
            against="tension_limit",
            meaning="the greatest pull allowed",
        ),
    ),
    cautions=(
        Caution(
            text=(
                "The sag is over a tenth of the span: the parabola is out of its range. Use the "
                "catenary results."
            ),
            when=_is_deep,
        ),
        Caution(
            text=(
                "Measure with the run hanging free: not resting on rollers, and every pin loose. A "
                "seized pin carries the track like a beam, and the pull is then not known."
            )
        ),
        Caution(
            text=(
                "The pull goes with one over the sag: a sag known to 5 % gives the pull to 5 %. A "
                "maker's sag is for clean track; packed mud adds weight and pull."
            )
        ),
        Caution(
            text=(
                "A track under tension crushes and cuts: block it before a pin is drawn, release "
                "the adjuster first, and keep hands out of the run."
            )
        ),
    ),
    examples=(
        Example(
            title="Cable of 3 N/m over 30 m, sag for a pull of 400 N",
            given={"span": "30 m", "sag": "0.849 m", "weight_per_length": "3 N/m"},
            printed={
                "greatest_tension": Printed(value="400 N", ours="400.07 N", tolerance="0.3 N"),
            },
            source=_TAYAL,
            note="The book asks for the sag: 0.849 m.",
        ),
        Example(
            title="Rope of 75 kg/m, the half beyond its lowest point taken twice",
            given={"span": "24 m", "sag": "4.5 m", "weight_per_length": "735.75 N/m"},
            printed={
                "horizontal_tension": Printed(
                    value="11.772 kN", ours="11.772 kN", tolerance="0.0005 kN"
                ),
                "greatest_tension": Printed(
                    value="14.715 kN", ours="14.715 kN", tolerance="0.0005 kN"
                ),
            },
            source=_TAYAL,
            note=(
                "The book hangs it over 20 m with ends at two heights, lowest 8 m from one and 12 "
                "m from the other; a level span of 24 m has the same half."
            ),
        ),
        Example(
            title="Chain of 200 m and 1000 kg with a sag of 50 m",
            given={"span": "164.79 m", "sag": "50 m", "weight_per_length": "49.05 N/m"},
            printed={
                "catenary_length": Printed(value="200 m", ours="200.00 m", tolerance="0.01 m"),
            },
            source=_TAYAL,
            note="The book asks for the span: 164.79 m. Its pull at the ends is 6131 N, ours.",
        ),
    ),
)
