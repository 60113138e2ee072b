"""How heavy a load two hands may lift there and then, by the NIOSH revised lifting equation.

One run judges one end of the lift. Where the load must be set down with care, run it for the
destination too, with the height of the hands at the start in `origin_vertical`: the lower limit
holds.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, NamedTuple

from witnessmark.worksheets import lifting_multipliers as lifting
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

_BY_SYSTEM = ("system", {"us": "lb", "metric": "kg"})
_HOURS = {"short": 1, "moderate": 2, "long": 8}
_HOUR = 3600
_MOST_INDEX = 3


class Lift(NamedTuple):
    """The multipliers, the limit they make, and how the load stands to it."""

    hm: Annotated[Number, Gives(unit="1", meaning="horizontal multiplier: reach")]
    vm: Annotated[Number, Gives(unit="1", meaning="vertical multiplier: height of the hands")]
    dm: Annotated[Number, Gives(unit="1", meaning="distance multiplier: travel up or down")]
    am: Annotated[Number, Gives(unit="1", meaning="asymmetry multiplier: twist")]
    fm: Annotated[Number, Gives(unit="1", meaning="frequency multiplier: how often, how long")]
    cm: Annotated[Number, Gives(unit="1", meaning="coupling multiplier: grip")]
    limit: Annotated[
        Number, Gives(unit="kg", meaning="recommended weight limit", unit_by=_BY_SYSTEM)
    ]
    lifting_index: Annotated[
        Number | None, Gives(unit="1", meaning="load over limit; none where the limit is 0")
    ]


def manual_lift(
    *,
    system: Annotated[
        str,
        Choice(
            meaning="which of the method's two sets of constants holds",
            words={"us": "inches and pounds", "metric": "centimetres and kilograms"},
        ),
    ],
    load: Annotated[Number, Input(unit="kg", meaning="what is lifted", above="0")],
    horizontal: Annotated[
        Number,
        Input(unit="cm", meaning="from between the ankles out to the hands", refuse_low="0"),
    ],
    vertical: Annotated[
        Number,
        Input(unit="cm", meaning="height of the hands over the floor, at this end", refuse_low="0"),
    ],
    travel: Annotated[
        Number, Input(unit="cm", meaning="how far up or down the hands move", refuse_low="0")
    ],
    asymmetry: Annotated[
        Number,
        Input(
            unit="deg",
            meaning="how far the load stands off the front of the body",
            refuse_low="0",
            refuse_high="180",
        ),
    ],
    frequency: Annotated[
        Number, Input(unit="1/min", meaning="lifts a minute over a quarter hour", refuse_low="0")
    ],
    duration: Annotated[
        str,
        Choice(
            meaning="how long the lifting goes on",
            words={
                "short": "1 h or less, then light work for at least as long",
                "moderate": "2 h or less, then light work for at least 0.3 of that",
                "long": "8 h or less, with the usual breaks",
            },
        ),
    ],
    coupling: Annotated[
        str,
        Choice(
            meaning="how good the grip is",
            words={
                "good": "handles or cut-outs that fit the hand",
                "fair": "poor handles, or fingers bent square under a box",
                "poor": "bulky, sagging, sharp or slippery",
            },
        ),
    ],
    rounding: Annotated[
        str,
        Choice(
            meaning="how the multipliers are rounded; stepwise where nothing is said",
            words={
                "stepwise": "to two places each, as the manual's tables and examples do",
                "full": "not at all",
            },
        ),
    ] = "stepwise",
    origin_vertical: Annotated[
        Number | None,
        Input(
            unit="cm",
            meaning="height of the hands at the start, where this end is the destination",
            refuse_low="0",
        ),
    ] = None,
    working_time: Annotated[
        Number | None,
        Input(unit="h", meaning="how long is lifted in the day", above="0", refuse_high="8"),
    ] = None,
) -> Lift:
    """Give the recommended weight limit: LC x HM x VM x DM x AM x FM x CM."""
    _refuse_longer_than_said(duration, working_time=working_time)
    of = lifting.SYSTEMS[system]
    h, v, d = (Fraction(x) / of.length for x in (horizontal, vertical, travel))
    start = v if origin_vertical is None else Fraction(origin_vertical) / of.length
    a, f = Fraction(asymmetry) * 360, Fraction(frequency) * 60
    reached = {
        "hm": (lifting.horizontal(h, constants=of), h),
        "vm": (lifting.vertical(v, constants=of), v),
        "dm": (lifting.distance(d, constants=of), d),
        "am": (lifting.asymmetry(a), a),
        "fm": (lifting.frequency(f, duration=duration, is_high=start >= of.knuckle), f),
        "cm": (lifting.coupling(coupling, is_high=v >= of.knuckle), v),
    }
    multipliers = {
        name: lifting.as_printed(value, multiplier=name, at=at, system=system)
        if rounding == "stepwise"
        else value
        for name, (value, at) in reached.items()
    }
    limit = of.load * of.mass
    for multiplier in multipliers.values():
        limit *= multiplier
    return Lift(**multipliers, limit=limit, lifting_index=load / limit if limit else None)


def _refuse_longer_than_said(duration: str, *, working_time: Number | None) -> None:
    if working_time is not None and working_time > _HOURS[duration] * _HOUR:
        raise CannotCompute(
            "duration",
            message=f"A {duration} duration is {_HOURS[duration]} h at most.",
            fix="Name the duration that the working time calls for. The method ends at 8 h.",
        )


def _is_out_of_reach(figures: Figures) -> bool:
    return figures.number("limit") == 0


def _is_nearer_than_counted(figures: Figures) -> bool:
    of = lifting.SYSTEMS[str(figures.value("system"))]
    return (
        figures.number("horizontal") < of.near * of.length
        or figures.number("travel") < of.least_travel * of.length
    )


def _is_past_three(figures: Figures) -> bool:
    return figures.has("lifting_index") and figures.number("lifting_index") > _MOST_INDEX


def _is_stepwise(figures: Figures) -> bool:
    return figures.value("rounding") != "full"


_MANUAL = Source(
    author="Waters, Putz-Anderson and Garg, NIOSH",
    title="Applications Manual for the Revised NIOSH Lifting Equation, publication 94-110",
    year="1994, revised September 2021; United States",
    clause="sections 1.3 and 1.4, tables 1 to 7",
    standing=Standing.SEEN,
    note="Read in a public transcription with page numbers; the manual's pages were not opened.",
)
_PRESS = Source(
    author="Waters, Putz-Anderson and Garg, NIOSH",
    title="Applications Manual, example 1: loading punch press stock",
    year="1994, revised September 2021",
    clause="section 3.3",
    standing=Standing.FROM_MEMORY,
)
_PACKAGE = Source(
    author="Waters, Putz-Anderson and Garg, NIOSH",
    title="Applications Manual, example 4: package inspection",
    year="1994, revised September 2021",
    clause="figure 14, page 46",
    standing=Standing.SEEN,
    note="Multipliers, heights and limits read in a public transcription; the rest from memory.",
)
_PRESS_GIVEN: dict[str, str | tuple[str, ...]] = {
    "system": "us",
    "load": "44 lb",
    "horizontal": "23 in",
    "vertical": "15 in",
    "travel": "49 in",
    "asymmetry": "0 deg",
    "frequency": "0.2 1/min",
    "duration": "short",
    "coupling": "fair",
}
_PACKAGE_GIVEN: dict[str, str | tuple[str, ...]] = {
    "system": "us",
    "load": "26 lb",
    "horizontal": "10 in",
    "vertical": "22 in",
    "travel": "37 in",
    "asymmetry": "0 deg",
    "frequency": "3 1/min",
    "duration": "short",
    "coupling": "fair",
}

SHEET = Sheet(
    id="manual-lift",
    title="Lift by hand",
    tells="How much the method would have two hands lift here, and how the load stands to it.",
    equation=manual_lift,
    formula=(
        "limit = LC x hm x vm x dm x am x fm x cm, LC = 51 lb or 23 kg",
        "hm = 10 in / H or 25 cm / H; 1 when nearer; 0 over 25 in or 63 cm",
        "vm = 1 - 0.0075 |V - 30 in| or 1 - 0.003 |V - 75 cm|; 0 over 70 in or 175 cm",
        "dm = 0.82 + 1.8 in / D or 0.82 + 4.5 cm / D; 1 when shorter; 0 over 70 in or 175 cm",
        "am = 1 - 0.0032 A; 0 over 135 deg",
        "fm: table 5, by the hands at the start; straight between rows; 0 if the next row is 0",
        "cm: table 7, by the height of the hands at this end",
        "lifting_index = load / limit",
    ),
    sources=(_MANUAL,),
    limits=(
        Limit(
            result="limit",
            side=Side.AT_LEAST,
            against="load",
            meaning="the load: a lifting index of 1 is the goal of NIOSH (United States, 2021), "
            "no law",
        ),
    ),
    cautions=(
        Caution(
            text="The method lets nothing be lifted so: out of reach, too far, too twisted or too "
            "often. Bring the load closer, or use a hoist.",
            when=_is_out_of_reach,
        ),
        Caution(
            text="A lifting index over 3: some experts the manual cites hold that nearly all "
            "workers are at risk. Use a hoist.",
            when=_is_past_three,
        ),
        Caution(
            text="By the method's own rule a reach or a travel under 10 in (25 cm) counts as that "
            "much, with a multiplier of 1.",
            when=_is_nearer_than_counted,
        ),
        Caution(
            text="Multipliers rounded stepwise hide small changes. Where a ± is stated, ask for "
            "rounding: full.",
            when=_is_stepwise,
        ),
        Caution(
            text="It does not hold for one hand, sitting or kneeling, cramped places, loads that "
            "shift, carrying, pushing or pulling, shovels, fast lifts, slippery floors, or outside "
            "19 to 26 degC and 35 to 50 % humidity."
        ),
        Caution(
            text="Where the load must be set down with care, run the destination too: the lower "
            "limit holds. Most trouble on the bench is at that end."
        ),
        Caution(
            text="It speaks of healthy workers. Volunteers with conditions, the young and those "
            "with child need an assessment of their own; in Great Britain the Manual Handling "
            "Operations Regulations 1992 ask for one."
        ),
    ),
    examples=(
        Example(
            title="Punch press stock, at the start",
            given=_PRESS_GIVEN,
            printed={
                "hm": Printed(value="0.44", ours="0.44", tolerance="0.005"),
                "vm": Printed(value="0.89", ours="0.89", tolerance="0.005"),
                "dm": Printed(value="0.86", ours="0.86", tolerance="0.005"),
                "limit": Printed(value="16.3 lb", ours="16.32 lb", tolerance="0.05 lb"),
                "lifting_index": Printed(value="2.7", ours="2.70", tolerance="0.05"),
            },
            source=_PRESS,
            note=(
                "10 in / 23 in is 0.4348, but table 1 prints 0.44 and the example uses it. "
                "Without rounding the limit is 16.0 lb."
            ),
        ),
        Example(
            title="Punch press stock, at the destination",
            given=_PRESS_GIVEN | {"vertical": "64 in", "origin_vertical": "15 in"},
            printed={
                "vm": Printed(value="0.75", ours="0.75", tolerance="0.005"),
                "cm": Printed(value="1.0", ours="1.0", tolerance="0.05"),
                "limit": Printed(value="14.5 lb", ours="14.47 lb", tolerance="0.05 lb"),
                "lifting_index": Printed(value="3.0", ours="3.04", tolerance="0.05"),
            },
            source=_PRESS,
        ),
        Example(
            title="Package inspection, at the start",
            given=_PACKAGE_GIVEN,
            printed={
                "vm": Printed(value="0.94", ours="0.94", tolerance="0.005"),
                "dm": Printed(value="0.87", ours="0.87", tolerance="0.005"),
                "fm": Printed(value="0.88", ours="0.88", tolerance="0.005"),
                "limit": Printed(value="34.9 lb", ours="34.87 lb", tolerance="0.05 lb"),
                "lifting_index": Printed(value="0.7", ours="0.75", tolerance="0.05"),
            },
            source=_PACKAGE,
            note="Without rounding 34.81 lb, which a print to one place would show as 34.8.",
        ),
        Example(
            title="Package inspection, at the destination",
            given=_PACKAGE_GIVEN
            | {"horizontal": "20 in", "vertical": "59 in", "origin_vertical": "22 in"},
            printed={
                "limit": Printed(value="15.2 lb", ours="15.23 lb", tolerance="0.05 lb"),
                "lifting_index": Printed(value="1.7", ours="1.71", tolerance="0.05"),
            },
            source=_PACKAGE,
            note="Without rounding it is 15.25 lb.",
        ),
    ),
)
