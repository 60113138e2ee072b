"""How much of a bolt is left where rust or wear has thinned its shank.

The bolt is as strong as its least section: the thread's stress area, or the shank where that has
become thinner. No published worked example was found; the rule is common practice.
"""

from __future__ import annotations

import math
from typing import Annotated, NamedTuple

from witnessmark.model.thread import Thread
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
    ThreadName,
)
from witnessmark.worksheets.screw_threads import screw
from witnessmark.worksheets.screw_threads import sources as thread_sources

_MM2 = 1e-6


class Wasted(NamedTuple):
    """The section that governs, and what share of the bolt's strength it leaves."""

    governing_area: Annotated[Number, Gives(unit="mm2", meaning="the least section")]
    share_left: Annotated[
        Number, Gives(unit="1", meaning="that section over the stress area of the thread")
    ]
    governed_by: Annotated[
        str, Gives(unit="", meaning="where the least section is: thread or shank")
    ]
    stress_area: Annotated[Number, Gives(unit="mm2", meaning="tensile stress area of the thread")]
    shank_area: Annotated[Number, Gives(unit="mm2", meaning="section of the shank as measured")]
    share_of_new_shank: Annotated[
        Number, Gives(unit="1", meaning="section of the shank over that of a shank of full size")
    ]


def wasted_fastener(
    *,
    thread: Annotated[Thread, ThreadName(meaning="thread of the bolt")],
    shank: Annotated[
        Number, Input(unit="mm", meaning="least diameter of the shank, as measured", above="0")
    ],
    shank_uncertainty: Annotated[  # noqa: ARG001 - read as the band of the shank
        Number | None,
        Input(
            unit="mm",
            meaning="half-width of the band of that reading, where it has no ±",
            refuse_low="0",
            band_of="shank",
        ),
    ] = None,
    least_share: Annotated[  # noqa: ARG001 - the limit below reads it
        Number | None,
        Input(unit="1", meaning="least share of strength allowed", above="0", refuse_high="1"),
    ] = None,
) -> Wasted:
    """Give the section that governs a thinned bolt and the share of its strength left."""
    size = screw(thread)
    shank_area = math.pi / 4 * float(shank) ** 2
    full = math.pi / 4 * (size.diameter * 1e-3) ** 2
    stress_area = size.stress_area * _MM2
    governing = min(stress_area, shank_area)
    return Wasted(
        governing_area=governing,
        share_left=governing / stress_area,
        governed_by="shank" if shank_area < stress_area else "thread",
        stress_area=stress_area,
        shank_area=shank_area,
        share_of_new_shank=shank_area / full,
    )


def _is_thicker_than_new(figures: Figures) -> bool:
    return figures.number("share_of_new_shank") > 1


def _is_wasted_but_thread_governs(figures: Figures) -> bool:
    return figures.value("governed_by") == "thread" and figures.number("share_of_new_shank") < 1


_RULE = Source(
    author="workshops",
    title="the least section governs a thinned bolt",
    year="no year",
    clause="no clause",
    standing=Standing.COMMON_PRACTICE,
)
_BY_HAND = Source(
    author="the project",
    title="M20 with its shank wasted to 17 mm, worked by hand",
    year="2026",
    clause="pi / 4 * 17^2 = 227.0 mm2 against the printed stress area of 245 mm2",
    standing=Standing.COMMON_PRACTICE,
    note="Constructed: no published worked example of a reduced bolt was found.",
)

SHEET = Sheet(
    id="wasted-fastener",
    title="Strength left in a wasted bolt",
    tells="Whether rust has thinned a bolt below its own thread, and what strength is left.",
    equation=wasted_fastener,
    formula=(
        "shank_area = pi / 4 * shank^2",
        "governing_area = the lesser of stress_area and shank_area",
        "share_left = governing_area / stress_area",
    ),
    sources=(_RULE, *thread_sources()),
    limits=(
        Limit(
            result="share_left",
            side=Side.AT_LEAST,
            against="least_share",
            meaning="the least share of strength allowed",
        ),
    ),
    cautions=(
        Caution(
            text=(
                "The shank measures more than the nominal size: check the size, the unit and "
                "whether rust was measured with the metal."
            ),
            when=_is_thicker_than_new,
        ),
        Caution(
            text=(
                "The shank is thinner than new, yet the thread is still the least section: the "
                "thread under the nut may have wasted as much, and was not measured."
            ),
            when=_is_wasted_but_thread_governs,
        ),
        Caution(
            text=(
                "Clean to bright metal and measure at the thinnest place on two axes. Pits and "
                "cracks count for more than their depth: this share is an upper bound. Old plating "
                "may be cadmium and old paint lead: test before brushing, and follow local rules."
            )
        ),
        Caution(
            text=(
                "A shared load moves from a thin bolt to its neighbours. Bolts that lift, hold "
                "pressure or keep people safe are renewed by a competent person's judgement."
            )
        ),
    ),
    examples=(
        Example(
            title="M20 with its shank wasted to 17 mm",
            given={"thread": "M20", "shank": "17 mm"},
            printed={
                "governing_area": Printed(value="227 mm2", ours="226.98 mm2", tolerance="0.5 mm2"),
                "share_left": Printed(value="92.7 %", ours="92.64 %", tolerance="0.1 %"),
            },
            source=_BY_HAND,
        ),
    ),
    none_found=(
        "No published example was found. "
        "The one here was reckoned by hand from the stress area of M20."
    ),
)
