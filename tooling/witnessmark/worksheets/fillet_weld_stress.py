"""The stress on the throat of a fillet weld under a load shared by its whole length.

The simple throat formula: the load over 0.707 of the leg times the length, the same for welds
along and across the load. Old welds are not what a drawing says they are.
"""

from __future__ import annotations

import math
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


class WeldStress(NamedTuple):
    """The stress on the throat, and the throat itself."""

    stress: Annotated[Number, Gives(unit="MPa", meaning="load over the area of the throat")]
    throat: Annotated[Number, Gives(unit="mm", meaning="throat of an equal-legged fillet")]
    throat_area: Annotated[Number, Gives(unit="mm2", meaning="throat times total length")]


def fillet_weld_stress(
    *,
    leg: Annotated[
        Number, Input(unit="mm", meaning="leg of the fillet", above="0", low="3", high="25")
    ],
    total_length: Annotated[
        Number,
        Input(
            unit="mm",
            meaning="sound length of all the welds together, without starts and stops",
            above="0",
        ),
    ],
    load: Annotated[
        Number, Input(unit="kN", meaning="load carried through the welds", refuse_low="0")
    ],
    allowed: Annotated[  # noqa: ARG001 - the limit below reads it
        Number | None, Input(unit="MPa", meaning="stress allowed on the throat", above="0")
    ] = None,
) -> WeldStress:
    """Give the stress on the throat of fillet welds that share a load evenly."""
    throat = leg / math.sqrt(2)
    area = throat * total_length
    return WeldStress(stress=load / area, throat=throat, throat_area=area)


def _is_short(figures: Figures) -> bool:
    # Runs under four legs are all start and stop (common practice).
    return figures.number("total_length") < 4 * figures.number("leg")


_TEXTS = Source(
    author="welding texts",
    title="stress on the throat of a fillet, 0.707 of its leg",
    year="no year",
    clause="no clause",
    standing=Standing.FROM_MEMORY,
)
_JINDAL = Source(
    author="Jindal",
    title="Machine Design",
    year="edition not seen",
    clause="examples 12-1 and 12-3",
    standing=Standing.SEEN,
    note="Read as a public worked copy with its output, not in the book.",
)
_BHANDARI = Source(
    author="Bhandari",
    title="Design of Machine Elements",
    year="edition not seen",
    clause="example 8.3",
    standing=Standing.SEEN,
    note="Read as a public worked copy with its output, not in the book.",
)

SHEET = Sheet(
    id="fillet-weld-stress",
    title="Stress in fillet welds",
    tells="How hard the throat of a fillet weld works under the load it shares.",
    equation=fillet_weld_stress,
    formula=("throat = leg / sqrt(2)", "stress = load / (throat * total_length)"),
    sources=(_TEXTS,),
    limits=(
        Limit(
            result="stress",
            side=Side.AT_MOST,
            against="allowed",
            meaning="the stress allowed on the throat",
        ),
    ),
    cautions=(
        Caution(
            text=(
                "The welds together are shorter than four legs: most of them is start and stop, "
                "and the mean says little."
            ),
            when=_is_short,
        ),
        Caution(
            text=(
                "Leave out about 15 mm a run for starting and stopping (one text adds that much), "
                "and count only sound weld of full leg."
            )
        ),
        Caution(
            text=(
                "The load is taken as straight through the middle of the weld group. A load beside "
                "it twists the group and may double the stress at one end: have that reckoned."
            )
        ),
        Caution(
            text=(
                "Old welds, cast iron and wrought iron hide cracks and slag. Which stress is "
                "allowed is for a welding code and a competent person; so is every weld on what "
                "lifts, holds pressure or carries people. Never weld near a gas strut or a tank, "
                "nor over lead paint or cadmium plating: local rules for those go first."
            )
        ),
    ),
    examples=(
        Example(
            title="Four runs of 60 mm, leg 8 mm, under 100 kN",
            given={"leg": "8 mm", "total_length": "240 mm", "load": "100 kN"},
            printed={"stress": Printed(value="73.7 MPa", ours="73.66 MPa", tolerance="0.05 MPa")},
            source=_JINDAL,
        ),
        Example(
            title="Two runs of 60 mm, leg 12 mm, at the load for 80 MPa",
            given={"leg": "12 mm", "total_length": "120 mm", "load": "81.446 kN"},
            printed={"stress": Printed(value="80 MPa", ours="79.988 MPa", tolerance="0.02 MPa")},
            source=_JINDAL,
            note="The book asks for the load and takes the throat as 0.707 of the leg exactly.",
        ),
        Example(
            title="Two welds across a plate of 120 by 12.5 mm at 110 MPa",
            given={"leg": "12.5 mm", "total_length": "169.732 mm", "load": "165 kN"},
            printed={"stress": Printed(value="110 MPa", ours="109.983 MPa", tolerance="0.05 MPa")},
            source=_BHANDARI,
            note=(
                "The book asks for the length: 84.866 mm each, and adds 15 mm for starting and "
                "stopping: 99.866 mm, taken as 100."
            ),
        ),
    ),
)
