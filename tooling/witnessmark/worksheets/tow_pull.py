"""What it takes to move a machine up a slope, by its own wheels or by a line.

Rolling resistance is taken on the whole weight, as haulage handbooks state their coefficients; on a
slope that is a little more than the pressing force, so on the safe side.
"""

from __future__ import annotations

import math
from fractions import Fraction
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

# Standard acceleration of gravity, 3rd CGPM (1901): exact.
_G = Fraction("9.80665")


class Pull(NamedTuple):
    """The pull, its two parts, and what wheels or line must do for it."""

    grade_pull: Annotated[Number, Gives(unit="kN", meaning="pull against the slope")]
    rolling_pull: Annotated[Number, Gives(unit="kN", meaning="pull against rolling resistance")]
    pull: Annotated[Number, Gives(unit="kN", meaning="both together, at a steady walk")]
    traction_limit: Annotated[
        Number | None, Gives(unit="kN", meaning="most the driven wheels or tracks can push")
    ]
    line_pull: Annotated[
        Number | None, Gives(unit="kN", meaning="pull in the line at the winch, over the tackle")
    ]


def tow_pull(
    *,
    mass: Annotated[
        Number,
        Input(
            unit="kg",
            meaning="all that goes up the slope: machine, load, crew, and the puller if it climbs",
            above="0",
        ),
    ],
    gradient: Annotated[
        Number,
        Input(
            unit="%",
            meaning="rise for the way along the level, uphill",
            refuse_low="0",
            high="25",
            refuse_high="100",
        ),
    ],
    rolling: Annotated[
        Number,
        Input(
            unit="1",
            meaning="rolling resistance as a share of the weight",
            refuse_low="0",
            low="0.001",
            high="0.3",
            refuse_high="1",
        ),
    ],
    driven_mass: Annotated[
        Number | None,
        Input(unit="kg", meaning="what stands on the driven wheels or tracks", above="0"),
    ] = None,
    friction: Annotated[
        Number | None,
        Input(
            unit="1",
            meaning="grip of driven wheels or tracks on this ground, today",
            above="0",
            high="1.0",
        ),
    ] = None,
    falls: Annotated[
        Number | None,
        Input(
            unit="1",
            meaning="parts of line that pull at the machine; 1 is a straight pull",
            refuse_low="1",
            refuse_high="12",
            whole=True,
        ),
    ] = None,
    sheave_efficiency: Annotated[
        Number | None,
        Input(
            unit="1",
            meaning="share of the pull that gets over one sheave; one sheave a fall is counted",
            above="0.5",
            refuse_high="1",
        ),
    ] = None,
    line_rating: Annotated[
        Number | None, Input(unit="kN", meaning="safe working load of line or winch", above="0")
    ] = None,
) -> Pull:
    """Give the pull: m g sin(theta) + c m g, with tan(theta) = gradient."""
    del line_rating  # met by the limit of the sheet, not by the equation
    _refuse_halves(driven_mass, friction=friction, falls=falls, efficiency=sheave_efficiency)
    along = math.hypot(1, gradient)
    weight = float(mass * _G)
    grade, roll = weight * float(gradient) / along, weight * float(rolling)
    grip = None
    if driven_mass is not None and friction is not None:
        grip = float(friction * driven_mass * _G) / along
    line = None if falls is None else (grade + roll) / _gain(falls, efficiency=sheave_efficiency)
    return Pull(
        grade_pull=grade,
        rolling_pull=roll,
        pull=grade + roll,
        traction_limit=grip,
        line_pull=line,
    )


def _gain(falls: Number, *, efficiency: Number | None) -> float:
    return float(falls) * float(1 if efficiency is None else efficiency) ** int(falls)


def _refuse_halves(
    driven_mass: Number | None,
    *,
    friction: Number | None,
    falls: Number | None,
    efficiency: Number | None,
) -> None:
    if (driven_mass is None) is not (friction is None):
        raise CannotCompute(
            "friction" if friction is None else "driven_mass",
            message="Grip needs both the driven mass and the friction.",
            fix="Give both, or neither.",
        )
    if efficiency is not None and falls is None:
        raise CannotCompute(
            "falls",
            message="A sheave efficiency says nothing without the number of falls.",
            fix="Give falls as well.",
        )


def _grip(figures: Figures) -> Number | None:
    return figures.number("traction_limit") if figures.has("traction_limit") else None


def _slides_back(figures: Figures) -> bool:
    return figures.has("friction") and figures.number("friction") < figures.number("gradient")


def _has_bare_tackle(figures: Figures) -> bool:
    if not figures.has("falls") or figures.has("sheave_efficiency"):
        return False
    return figures.number("falls") > 1


_NOTES = Source(
    author="A university's notes on construction equipment",
    title="CE 417, chapter 4, grade resistance",
    year="not stated",
    clause="equations 4-4A and 4-4B: 20 lb/ton or 10 kg/t for each 1 %",
    standing=Standing.SEEN,
    note="Says that the sine is exact and the rule near enough for the usual grades.",
)
_TRUCK = Source(
    author="A mine planner's handbook page",
    title="Effective grade (static force)",
    year="not stated",
    clause="376 t up 8 % with 2 % rolling resistance",
    standing=Standing.SEEN,
)
_TRACTOR = Source(
    author="unnamed",
    title="Public examination question on a towed tractor",
    year="not stated",
    clause="12 000 kg up 2 %, tow cable 720 kg, answer 40 kg/tonne",
    standing=Standing.SEEN,
)
_WINCH = Source(
    author="A winch manual",
    title="Winching guide, grade resistance chart",
    year="not stated",
    clause="6000 lb on a 60 % grade",
    standing=Standing.SEEN,
)

SHEET = Sheet(
    id="tow-pull",
    title="Pull to tow, drive or winch up a slope",
    tells="How hard the pull is, whether the ground holds it, and what the line must bear.",
    equation=tow_pull,
    formula=(
        "theta = arctan(gradient)",
        "grade_pull = mass x g x sin(theta), rolling_pull = rolling x mass x g",
        "pull = grade_pull + rolling_pull",
        "traction_limit = friction x driven_mass x g x cos(theta)",
        "line_pull = pull / (falls x sheave_efficiency^falls)",
    ),
    sources=(_NOTES,),
    limits=(
        Limit(
            result="pull",
            side=Side.AT_MOST,
            against=_grip,
            meaning="what the driven wheels or tracks can push: traction_limit",
        ),
        Limit(
            result="line_pull",
            side=Side.AT_MOST,
            against="line_rating",
            meaning="the safe working load of the line or the winch, whichever is less",
        ),
    ),
    cautions=(
        Caution(
            text="The grip is less than the slope: even with locked wheels it would slide back.",
            when=_slides_back,
        ),
        Caution(
            text="No sheave losses are counted. Plain sheaves commonly take 4 to 10 in 100 each.",
            when=_has_bare_tackle,
        ),
        Caution(
            text="A rolling coefficient is a factor of 2 uncertain: steel tracks on firm ground "
            "0.03 to 0.05, soft 0.08 to 0.15; solid tyres on concrete 0.015 to 0.02; iron wheels "
            "on a road 0.02 to 0.04 (from memory). Mire is no rolling: it can pass the weight."
        ),
        Caution(
            text="A steady walk only. Starting, a kerb, a seized wheel or a jerk takes far more."
        ),
        Caution(
            text="Chock before and after each move. Never rely on a dead engine's gearbox to hold, "
            "nor on brakes not tested on this slope. Keep everyone out of reach of a parting line."
        ),
        Caution(
            text="Percent is not degrees: 10 % is 5.7 degrees. Anchors, shackles and hooks must "
            "bear the pull of all falls together."
        ),
    ),
    examples=(
        Example(
            title="A towed tractor of 12 000 kg up 2 %",
            given={
                "mass": "12000 kg",
                "gradient": "2 %",
                "rolling": "0.04",
                "driven_mass": "12000 kg",
                "friction": "0.5",
                "falls": "2",
            },
            printed={"pull": Printed(value="720 kgf", ours="719.95 kgf", tolerance="0.5 kgf")},
            source=_TRACTOR,
            note="The grip and the tackle are ours, to show the verdict.",
        ),
        Example(
            title="A loaded truck of 376 t up 8 %",
            given={"mass": "376 tonne", "gradient": "8 %", "rolling": "0.02"},
            printed={"pull": Printed(value="37600 kgf", ours="37504 kgf", tolerance="400 kgf")},
            source=_TRUCK,
            note="Printed as 10 % of the weight; the page says the true force is 1 in 100 less.",
        ),
        Example(
            title="One short ton up 1 %",
            given={"mass": "1 short-ton", "gradient": "1 %", "rolling": "0.02"},
            printed={
                "grade_pull": Printed(value="20 lbf", ours="19.999 lbf", tolerance="0.01 lbf"),
            },
            source=_NOTES,
        ),
        Example(
            title="6000 lb up a 60 % ramp",
            given={"mass": "6000 lb", "gradient": "60 %", "rolling": "0.02"},
            printed={
                "grade_pull": Printed(value="3060 lbf", ours="3087.0 lbf", tolerance="30 lbf"),
            },
            source=_WINCH,
            note="Printed from the rounded 51 % of its chart; the sine is 0.5145.",
        ),
    ),
)
