"""How far a screw must reach into its hole, so that the bolt breaks before either thread strips.

Basic sizes of both threads; real ones are looser, which costs up to a quarter of the shear area,
and the sheet gives the length with that taken off too.
"""

from __future__ import annotations

import math
from fractions import Fraction
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
from witnessmark.worksheets.screw_threads import Screw, screw
from witnessmark.worksheets.screw_threads import sources as thread_sources

_MM, _MM2 = 1e-3, 1e-6
# Shear strength over tensile strength of steel and iron. From memory; texts print 0.5 to 0.65.
_SHEAR_SHARE = Fraction(6, 10)
# What tolerances leave of the basic shear area: they take 15 to 25 % (from memory; a public table
# of M10 nuts, 6H, gives 78 %).
_LEFT_BY_TOLERANCE = 0.75


class Engagement(NamedTuple):
    """The length needed, with and without the play of real threads, and which asks for it."""

    engagement: Annotated[
        Number, Gives(unit="mm", meaning="least full thread in engagement, on basic sizes")
    ]
    engagement_as_made: Annotated[
        Number, Gives(unit="mm", meaning="the same for threads as loose as tolerances let them be")
    ]
    of_diameter: Annotated[
        Number, Gives(unit="1", meaning="engagement as made over the nominal diameter")
    ]
    governed_by: Annotated[
        str, Gives(unit="", meaning="which thread would strip first: of the host or of the bolt")
    ]
    host_area: Annotated[
        Number, Gives(unit="mm", meaning="shear area of the host thread, mm2 for each mm, as made")
    ]
    bolt_area: Annotated[
        Number, Gives(unit="mm", meaning="shear area of the bolt thread, mm2 for each mm, as made")
    ]


def thread_engagement(
    *,
    thread: Annotated[Thread, ThreadName(meaning="thread of both")],
    bolt_strength: Annotated[
        Number,
        Input(
            unit="MPa", meaning="tensile strength of the bolt", above="0", low="100", high="1500"
        ),
    ],
    host_strength: Annotated[
        Number,
        Input(
            unit="MPa",
            meaning="tensile strength of what it is screwed into",
            above="0",
            low="50",
            high="1500",
        ),
    ],
    shear_share: Annotated[
        Number,
        Input(
            unit="1",
            meaning="shear strength over tensile strength, 0.6 if left out",
            above="0",
            low="0.4",
            high="0.8",
            refuse_high="1",
        ),
    ] = _SHEAR_SHARE,
    available: Annotated[  # noqa: ARG001 - the limit below reads it
        Number | None, Input(unit="mm", meaning="full thread that there is", above="0")
    ] = None,
) -> Engagement:
    """Give the thread engagement at which a bolt breaks rather than strips."""
    size = screw(thread)
    host, bolt = _host_area(size), _bolt_area(size)
    force = size.stress_area * bolt_strength
    by_host = force / (host * shear_share * host_strength)
    by_bolt = force / (bolt * shear_share * bolt_strength)
    needed = max(by_host, by_bolt)
    return Engagement(
        engagement=needed * _MM,
        engagement_as_made=needed / _LEFT_BY_TOLERANCE * _MM,
        of_diameter=needed / _LEFT_BY_TOLERANCE / size.diameter,
        governed_by="host" if by_host >= by_bolt else "bolt",
        host_area=host * _LEFT_BY_TOLERANCE * _MM,
        bolt_area=bolt * _LEFT_BY_TOLERANCE * _MM,
    )


def _host_area(size: Screw) -> float:
    """Give the shear area of the internal thread at the outside of the bolt, mm2 for each mm."""
    reach = (size.diameter - size.effective) * math.tan(size.flank) / size.pitch
    return math.pi * size.diameter * (0.5 + reach)


def _bolt_area(size: Screw) -> float:
    """Give the shear area of the external thread at the bore of the nut, mm2 for each mm."""
    reach = (size.effective - size.nut_minor) * math.tan(size.flank) / size.pitch
    return math.pi * size.nut_minor * (0.5 + reach)


def _is_very_long(figures: Figures) -> bool:
    return figures.number("of_diameter") > 2  # noqa: PLR2004 - said in the caution


_HANDBOOK = Source(
    author="a handbook of machinery",
    title="lengths of engagement of screw threads, after FED-STD-H28/2",
    year="24th edition",
    clause="shear areas of external and internal threads",
    standing=Standing.SEEN,
    note=(
        "Read as paraphrased on a public forum. It takes the shear strength as half the tensile "
        "strength; the share is an input here."
    ),
)
_NUT_TABLE = Source(
    author="a public engineering table",
    title="shear areas of metric nuts, M10, 6H",
    year="year not seen",
    clause="214.8 mm2 for 10 mm of engagement",
    standing=Standing.SEEN,
)

SHEET = Sheet(
    id="thread-engagement",
    title="Thread engagement that will not strip",
    tells="How deep a bolt or stud must be screwed in, and whether a tapped hole is deep enough.",
    equation=thread_engagement,
    formula=(
        "host_area = pi * d * (1/2 + (d - d2) * tan(flank) / p), mm2 for each mm",
        "bolt_area = pi * D1 * (1/2 + (d2 - D1) * tan(flank) / p)",
        "flank = 30 deg for metric and unified threads, 27.5 deg for Whitworth form",
        "by_host = stress_area * bolt_strength / (host_area * shear_share * host_strength)",
        "by_bolt = stress_area / (bolt_area * shear_share)",
        "engagement = the longer of the two; engagement_as_made = engagement / 0.75",
    ),
    sources=(_HANDBOOK, *thread_sources()),
    limits=(
        Limit(
            result="engagement_as_made",
            side=Side.AT_MOST,
            against="available",
            meaning="the full thread that there is",
        ),
    ),
    cautions=(
        Caution(
            text=(
                "Over two diameters: the load is not shared that far down a thread. Take a weaker "
                "bolt, an insert or a larger thread."
            ),
            when=_is_very_long,
        ),
        Caution(
            text=(
                "Count full threads in contact only: not chamfers, run-out, rust or torn crests. "
                "A worn or once stripped hole has less than its drawing."
            )
        ),
        Caution(
            text=(
                "Cast iron, white metal and old wrought iron vary from part to part: use the "
                "least strength you can defend. Tapping deeper, or an insert, cuts the original "
                "part for good."
            )
        ),
        Caution(
            text=(
                "A joint that lifts, holds pressure or keeps people safe needs a competent person; "
                "this figure is a screen."
            )
        ),
    ),
    examples=(
        Example(
            title="Shear area of the thread of an M10 nut",
            given={"thread": "M10x1.5", "bolt_strength": "800 MPa", "host_strength": "800 MPa"},
            printed={"host_area": Printed(value="21.48 mm", ours="20.62 mm", tolerance="1 mm")},
            source=_NUT_TABLE,
            note=(
                "The table gives 214.8 mm2 for 10 mm, least by tolerance 6H. Ours is three "
                "quarters of the basic 274.9 mm2, 4 % lower, for threads of any tolerance."
            ),
        ),
        Example(
            title="M10 of class 8.8 in an aluminium alloy of 310 MPa",
            given={
                "thread": "M10x1.5",
                "bolt_strength": "830 MPa",
                "host_strength": "310 MPa",
                "shear_share": "0.6",
            },
            printed={"engagement": Printed(value="9.4 mm", ours="9.415 mm", tolerance="0.05 mm")},
            source=Source(
                author="a public calculator page",
                title="Thread engagement calculator",
                year="not stated",
                clause="worked example: M10, 830 MPa in 310 MPa, safety factor 1",
                standing=Standing.SEEN,
            ),
        ),
    ),
)
