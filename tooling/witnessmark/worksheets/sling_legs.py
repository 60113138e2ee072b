"""The pull in each leg of a sling, which grows as the legs spread.

What an angle is measured from is typed, never guessed: 60 degrees from the level and 60 degrees
from the plumb line differ by a factor of 1.7. Of three or four legs only two are counted as loaded,
because a stiff load rocks on two of them.
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

# Angles reach the equation in turns. A leg under 30 degrees from the level is refused: ASME B30.9,
# horizontal sling angle (from memory); the same as 120 degrees between two legs.
_FLATTEST, _UPRIGHT = Fraction(30, 360), Fraction(90, 360)
_COUNTED_AT_MOST = 2


class LegPull(NamedTuple):
    """What the spread of the legs does to the pull in each."""

    factor: Annotated[
        Number, Gives(unit="1", meaning="pull in a leg as a multiple of its share hung straight")
    ]
    leg_tension: Annotated[Number, Gives(unit="kN", meaning="pull in each loaded leg")]


def sling_legs(
    *,
    load: Annotated[
        Number,
        Input(unit="kN", meaning="weight lifted, with hook block, beam and tackle", above="0"),
    ],
    legs: Annotated[
        Number,
        Input(
            unit="1",
            meaning="number of legs of the sling",
            refuse_low="1",
            refuse_high="4",
            whole=True,
        ),
    ],
    angle: Annotated[
        Number,
        Input(
            unit="deg",
            meaning="angle of the legs, measured as angle_from says",
            refuse_low="0",
            refuse_high="120",
        ),
    ],
    angle_from: Annotated[
        str,
        Choice(
            meaning="what the angle is measured from",
            words={
                "horizontal": "from the level to a leg",
                "vertical": "from the plumb line to a leg",
                "included": "between two opposite legs",
            },
        ),
    ],
    loaded_legs: Annotated[
        Number | None,
        Input(
            unit="1",
            meaning="legs that are known to share the load alike",
            refuse_low="1",
            refuse_high="4",
            whole=True,
        ),
    ] = None,
    leg_rating: Annotated[
        Number | None,
        Input(unit="kN", meaning="working load limit of one leg, straight pull", above="0"),
    ] = None,
) -> LegPull:
    """Give the pull in each leg: T = W / (n sin a), with a from the level."""
    del leg_rating  # met by the limit of the sheet, not by the equation
    a = _from_horizontal(angle, angle_from=angle_from, legs=legs)
    n = min(legs, _COUNTED_AT_MOST) if loaded_legs is None else loaded_legs
    if n > legs:
        raise CannotCompute(
            "loaded_legs",
            message=f"{n} legs cannot be loaded where there are {legs}.",
            fix="Count the loaded legs again.",
        )
    factor = 1 / math.sin(math.tau * a)
    return LegPull(factor=factor, leg_tension=float(load) * factor / float(n))


def _from_horizontal(angle: Number, *, angle_from: str, legs: Number) -> Number:
    in_level = {
        "horizontal": angle,
        "vertical": _UPRIGHT - angle,
        "included": _UPRIGHT - angle / 2,
    }[angle_from]
    if not _FLATTEST <= in_level <= _UPRIGHT:
        raise CannotCompute(
            "angle",
            message="The legs would lie under 30 or over 90 degrees from the level.",
            fix="Use longer slings or a spreader beam, and check what the angle is measured from.",
        )
    if legs == 1 and in_level != _UPRIGHT:
        raise CannotCompute(
            "angle",
            message="A single leg hangs straight down; at an angle it drags the load.",
            fix="Give 90 deg from the horizontal, or the number of legs that are used.",
        )
    return in_level


def _counts_more_than_two(figures: Figures) -> bool:
    return figures.has("loaded_legs") and figures.number("loaded_legs") > _COUNTED_AT_MOST


def _leaves_legs_out(figures: Figures) -> bool:
    return not figures.has("loaded_legs") and figures.number("legs") > _COUNTED_AT_MOST


def _is_wide(figures: Figures) -> bool:
    # Over 90 degrees between the legs: a factor over the square root of 2, with room for noise.
    return figures.number("factor") > math.sqrt(2) * (1 + 1e-12)


_SUPPLIER = Source(
    author="A wire rope supplier",
    title="Determining lifting load capacity of a sling, public web page",
    year="not stated",
    clause="drawings 3 and 4",
    standing=Standing.SEEN,
)
_CHART = Source(
    author="A sling maker",
    title="Sling catalogue, effects of sling angles",
    year="not stated",
    clause="page 99, tension factor chart",
    standing=Standing.SEEN,
)

SHEET = Sheet(
    id="sling-legs",
    title="Pull in the legs of a sling",
    tells="How hard each leg is pulled at the spread it will have, and whether it may be.",
    equation=sling_legs,
    formula=(
        "a = angle from the horizontal = 90 deg - angle from the vertical = 90 deg - included / 2",
        "factor = 1 / sin(a)",
        "leg_tension = load x factor / loaded_legs",
    ),
    sources=(
        _CHART,
        Source(
            author="ASME",
            title="B30.9, Slings",
            year="edition not seen; United States",
            clause="effect of angle; no sling under 30 degrees from the level",
            standing=Standing.FROM_MEMORY,
        ),
    ),
    limits=(
        Limit(
            result="leg_tension",
            side=Side.AT_MOST,
            against="leg_rating",
            meaning="the working load limit of one leg in a straight pull, from its tag",
        ),
    ),
    cautions=(
        Caution(
            text="Of three or four legs only two are counted: a stiff load rocks on two.",
            when=_leaves_legs_out,
        ),
        Caution(
            text=(
                "More than two legs are counted as loaded. That holds only with an equaliser, or "
                "where a competent person has proved that they share. British practice counts "
                "three at most, rated at 2.1 times a leg up to 45 degrees from the vertical "
                "(from memory)."
            ),
            when=_counts_more_than_two,
        ),
        Caution(
            text=(
                "The legs spread more than 90 degrees: the pull rises steeply with any further "
                "spread. Use longer slings."
            ),
            when=_is_wide,
        ),
        Caution(
            text=(
                "All legs are taken as equally long and the load as centred. Where the centre of "
                "gravity lies off the middle, the steeper leg takes more: check it by itself."
            )
        ),
        Caution(
            text=(
                "An estimated weight is commonly 10 to 20 in 100 off, and at 30 degrees an angle "
                "5 degrees off changes the pull by 17 in 100. State both with a ±."
            )
        ),
        Caution(
            text=(
                "A choked hitch, a sharp edge, a snatch or a worn sling lowers what a leg may "
                "carry. Slings must be in date of examination; in Great Britain the Lifting "
                "Operations and Lifting Equipment Regulations 1998 apply, elsewhere others."
            )
        ),
    ),
    examples=(
        Example(
            title="1000 lb on two legs at 60 degrees",
            given={
                "load": "1000 lbf",
                "legs": "2",
                "angle": "60 deg",
                "angle_from": "horizontal",
                "leg_rating": "1000 lbf",
            },
            printed={
                "factor": Printed(value="1.154", ours="1.1547", tolerance="0.001"),
                "leg_tension": Printed(value="577 lbf", ours="577.35 lbf", tolerance="0.5 lbf"),
            },
            source=_SUPPLIER,
            note=(
                "The text calls this drawing '30 degrees' (from the vertical) and '60 degree "
                "included' as well. The rating is ours, to show the verdict."
            ),
        ),
        Example(
            title="1000 lb on two legs at 45 degrees",
            given={
                "load": "1000 lbf",
                "legs": "2",
                "angle": "45 deg",
                "angle_from": "horizontal",
            },
            printed={
                "factor": Printed(value="1.414", ours="1.4142", tolerance="0.0005"),
                "leg_tension": Printed(value="707 lbf", ours="707.11 lbf", tolerance="0.5 lbf"),
            },
            source=_SUPPLIER,
        ),
        Example(
            title="10 000 lb on two legs with 60 degrees between them",
            given={
                "load": "10000 lbf",
                "legs": "2",
                "angle": "60 deg",
                "angle_from": "included",
            },
            printed={
                "leg_tension": Printed(value="5775 lbf", ours="5773.5 lbf", tolerance="2.5 lbf")
            },
            source=_CHART,
            note="Printed from the rounded factor 1.155.",
        ),
        Example(
            title="Factor at 40 degrees",
            given={
                "load": "10 kN",
                "legs": "2",
                "angle": "40 deg",
                "angle_from": "horizontal",
            },
            printed={
                "factor": Printed(value="1.555", ours="1.5557", tolerance="0.0005", is_wrong=True)
            },
            source=_CHART,
            note="Cut off, not rounded: 1 / sin 40 deg is 1.5557. Several catalogues print 1.555.",
        ),
    ),
)
