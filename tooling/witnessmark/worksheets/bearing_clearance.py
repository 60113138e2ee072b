"""How far a journal and its bush have opened: the running clearance, against the wear limit.

Everything is on diameter. A plain subtraction, so what matters is what was measured, where and
how well: the sheet asks for that and carries the measuring uncertainty into the verdict.
"""

from __future__ import annotations

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

# Range of sizes: the nominal sizes of ISO 286-1:2010, up to 3150 mm, from memory. The lower end,
# under which clock-making and not machine fitting begins, is common practice, no source.
_SMALLEST, _LARGEST = "3", "3150"


class Clearance(NamedTuple):
    """The running clearance, and how it stands to the shaft, to the limit and to new."""

    clearance: Annotated[
        Number, Gives(unit="mm", meaning="running clearance on diameter: bore less journal")
    ]
    of_diameter: Annotated[
        Number, Gives(unit="1", meaning="clearance as a share of the journal diameter")
    ]
    share_of_limit: Annotated[
        Number, Gives(unit="1", meaning="clearance as a share of the limit; 1 is at the limit")
    ]
    wear: Annotated[
        Number | None,
        Gives(unit="mm", meaning="growth of the clearance since new, on diameter"),
    ]
    share_of_wear: Annotated[
        Number | None,
        Gives(unit="1", meaning="wear as a share of that allowed between new and the limit"),
    ]


def bearing_clearance(
    *,
    bore: Annotated[
        Number,
        Input(
            unit="mm",
            meaning="greatest measured bore of the bush",
            above="0",
            low=_SMALLEST,
            high=_LARGEST,
        ),
    ],
    journal: Annotated[
        Number,
        Input(
            unit="mm",
            meaning="least measured diameter of the journal",
            above="0",
            low=_SMALLEST,
            high=_LARGEST,
        ),
    ],
    limit: Annotated[
        Number,
        Input(
            unit="mm",
            meaning="greatest clearance allowed, on diameter, from the drawing or the manual",
            above="0",
        ),
    ],
    new_clearance: Annotated[
        Number | None,
        Input(
            unit="mm",
            meaning="clearance as made, on diameter, from the drawing",
            refuse_low="0",
        ),
    ] = None,
) -> Clearance:
    """Give the running clearance of a plain bearing and how it stands to its wear limit."""
    clearance = bore - journal
    wear = None if new_clearance is None else clearance - new_clearance
    may_wear = None if new_clearance is None else limit - new_clearance
    return Clearance(
        clearance=clearance,
        of_diameter=clearance / journal,
        share_of_limit=clearance / limit,
        wear=wear,
        share_of_wear=wear / may_wear if wear is not None and may_wear else None,
    )


def _has_no_clearance(figures: Figures) -> bool:
    return figures.number("clearance") <= 0


def _has_shrunk(figures: Figures) -> bool:
    return figures.has("wear") and figures.number("wear") < 0


def _has_no_wear_allowed(figures: Figures) -> bool:
    return figures.has("new_clearance") and figures.number("new_clearance") >= figures.number(
        "limit"
    )


# Mean relative clearances for which the standard sets out fits of new metallic plain bearings.
_LEAST_NEW, _MOST_NEW = Fraction("0.00056"), Fraction("0.00315")


def _is_unusual_when_new(figures: Figures) -> bool:
    if not figures.has("new_clearance"):
        return False
    share = figures.number("new_clearance") / figures.number("journal")
    return not _LEAST_NEW <= share <= _MOST_NEW


_FITS = Source(
    author="ISO",
    title="ISO 12129-1, Plain bearings: Tolerances, Part 1: Fits",
    year="edition not seen",
    clause="scope",
    standing=Standing.SEEN,
    note="Only the publisher's abstract was read.",
)
_PUMP_MANUAL = Source(
    author="US Department of the Army",
    title="TM 5-4320-302-14, a pumping set (title not seen)",
    year="year not seen",
    clause="paragraph 6-20, step 35, page 6-181",
    standing=Standing.SEEN,
    note=(
        "Subtracts journal diameter from bearing bore. It calls the difference the radial "
        "clearance; it is the clearance on diameter."
    ),
)
_FUEL_PUMP_MANUAL = Source(
    author="US Department of the Army",
    title="TM 10-4320-343-14, a pumping set (title not seen)",
    year="year not seen",
    clause="table 6-1, page 6-6",
    standing=Standing.SEEN,
    note="Read as machine-read text in which names and figures stand apart; the pairing is ours.",
)
_BHANDARI = Source(
    author="Bhandari",
    title="Design of Machine Elements",
    year="edition not seen",
    clause="example 3.1",
    standing=Standing.SEEN,
    note="Read as a public worked copy of the example, not in the book.",
)
_LIMITS_AND_FITS = Source(
    author="ISO",
    title="ISO 286-2, Tables of standard tolerance classes and limit deviations",
    year="2010",
    clause="25 mm, H8 and f7",
    standing=Standing.FROM_MEMORY,
    note="A public table of fits, read as a second opinion, prints the same 20 and 74 micrometres.",
)

_LIMIT_NOT_PRINTED = "The source prints no wear limit; the one here is ours and proves nothing."

SHEET = Sheet(
    id="bearing-clearance",
    title="Running clearance of a plain bearing",
    tells="Whether a worn journal and bush have opened past the clearance they may run at.",
    equation=bearing_clearance,
    formula=(
        "clearance = bore - journal",
        "of_diameter = clearance / journal",
        "share_of_limit = clearance / limit",
        "wear = clearance - new_clearance",
        "share_of_wear = wear / (limit - new_clearance)",
    ),
    sources=(_PUMP_MANUAL, _FITS),
    limits=(
        Limit(
            result="clearance",
            side=Side.AT_MOST,
            against="limit",
            meaning="the greatest clearance the drawing or the manual allows, on diameter",
            cannot_tell_when=_has_no_clearance,
            cannot_tell_because="no running clearance was found, so a wear limit proves nothing",
        ),
    ),
    cautions=(
        Caution(
            text=(
                "The bore is no larger than the journal: an interference fit, a tight bearing or "
                "a slip in measuring. Measure again before relying on any figure here."
            ),
            when=_has_no_clearance,
        ),
        Caution(
            text="The clearance is less than when new: check both sizes and the drawing.",
            when=_has_shrunk,
        ),
        Caution(
            text=(
                "The clearance when new is no less than the limit: check which is which, and that "
                "both are on diameter."
            ),
            when=_has_no_wear_allowed,
        ),
        Caution(
            text=(
                "The clearance when new lies outside 0.56 to 3.15 thousandths of the diameter, for "
                "which ISO 12129-1 sets out fits of new metallic plain bearings. Cranes and track "
                "pins may be made wider; a clearance on radius or a slip in a unit looks the same."
            ),
            when=_is_unusual_when_new,
        ),
        Caution(
            text=(
                "Limit and clearances are on diameter. A limit stated on radius must be doubled "
                "first."
            )
        ),
        Caution(
            text=(
                "Measure at both ends and the middle, on two axes at right angles. Ovality and "
                "taper hide in a mean: give the greatest bore and the least journal."
            )
        ),
        Caution(
            text=(
                "Measure bore and journal at one temperature, near 20 degC. Bronze grows about "
                "18 parts in a million for each kelvin (from memory), steel about 12."
            )
        ),
        Caution(
            text=(
                "A clearance within its limit says nothing of scoring, cracks, loose lining or "
                "whether oil reaches the bearing."
            )
        ),
    ),
    examples=(
        Example(
            title="Engine main bearing of 70 mm, at its widest when new",
            given={"bore": "70.083 mm", "journal": "69.971 mm", "limit": "0.30 mm"},
            printed={"clearance": Printed(value="0.11 mm", ours="0.112 mm", tolerance="0.005 mm")},
            source=_FUEL_PUMP_MANUAL,
            note=(
                "The limit is printed as 0.0018 in (0.30 mm). 0.0018 in is 0.046 mm, less than the "
                "least new clearance; a sister manual prints 0.0118 in (0.3 mm), and we read "
                "it so."
            ),
        ),
        Example(
            title="Engine main bearing of 70 mm, at its closest when new",
            given={"bore": "70.04 mm", "journal": "69.99 mm", "limit": "0.30 mm"},
            printed={"clearance": Printed(value="0.05 mm", ours="0.05 mm", tolerance="0.005 mm")},
            source=_FUEL_PUMP_MANUAL,
        ),
        Example(
            title="The same bearing, in inches, at its widest",
            given={"bore": "2.7591 in", "journal": "2.7548 in", "limit": "0.0118 in"},
            printed={
                "clearance": Printed(value="0.0043 in", ours="0.0043 in", tolerance="0.00005 in")
            },
            source=_FUEL_PUMP_MANUAL,
            note="The limit is printed as 0.0018 in; 0.0118 in is the sister manual's.",
        ),
        Example(
            title="Crankpin bush of 20 mm, H6/e7, at its widest",
            given={"bore": "20.013 mm", "journal": "19.939 mm", "limit": "0.15 mm"},
            printed={
                "clearance": Printed(value="0.074 mm", ours="0.074 mm", tolerance="0.0005 mm")
            },
            source=_BHANDARI,
            note=_LIMIT_NOT_PRINTED,
        ),
        Example(
            title="Crankpin bush of 20 mm, H6/e7, at its closest",
            given={"bore": "20.000 mm", "journal": "19.960 mm", "limit": "0.15 mm"},
            printed={
                "clearance": Printed(value="0.040 mm", ours="0.040 mm", tolerance="0.0005 mm")
            },
            source=_BHANDARI,
            note=_LIMIT_NOT_PRINTED,
        ),
        Example(
            title="Running fit 25 H8/f7, at its widest",
            given={"bore": "25.033 mm", "journal": "24.959 mm", "limit": "0.15 mm"},
            printed={"clearance": Printed(value="74 um", ours="74 um", tolerance="0.5 um")},
            source=_LIMITS_AND_FITS,
            note=_LIMIT_NOT_PRINTED,
        ),
        Example(
            title="Running fit 25 H8/f7, at its closest",
            given={"bore": "25.000 mm", "journal": "24.980 mm", "limit": "0.15 mm"},
            printed={"clearance": Printed(value="20 um", ours="20 um", tolerance="0.5 um")},
            source=_LIMITS_AND_FITS,
            note=_LIMIT_NOT_PRINTED,
        ),
    ),
)
