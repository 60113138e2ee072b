"""A day's vibration at the hands, from every tool that was held and for how long.

Only the time the hand is on a running tool counts, not the time the job takes.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Annotated, NamedTuple, TypeAlias

from witnessmark.worksheets.declare import (
    CannotCompute,
    Caution,
    Choice,
    Each,
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

_DAY, _WORKING_DAY = 24 * 3600, 8 * 3600
# Directive 2002/44/EC, article 3; Control of Vibration at Work Regulations 2005 (Great Britain),
# regulation 4: action value 2.5, limit value 5 m/s2, as A(8).
_ACTION, _LIMIT = Fraction("2.5"), Fraction(5)
# HSE points: 100 at the action value, so 2 a^2 an hour (HSE ready reckoner, seen).
_POINTS = 100
# Needle guns and breakers of old design reach 10 to 20 m/s2 (from memory); over 50 is a slip.
_MOST_BELIEVED = "50"

Exposure: TypeAlias = tuple[tuple[Number, Number], ...]


class Vibration(NamedTuple):
    """The day's vibration, in the two ways it is reckoned, and where it stands."""

    a8: Annotated[Number, Gives(unit="m/s2", meaning="daily exposure over eight hours, A(8)")]
    points: Annotated[Number, Gives(unit="1", meaning="exposure points; 100 at the action value")]
    band: Annotated[
        str, Gives(unit="", meaning="below action (2.5), above action, or above limit (5 m/s2)")
    ]


def hand_arm_vibration(
    *,
    exposure: Annotated[
        Exposure,
        Each(
            meaning="vibration of a tool at the hand, and how long it was held running",
            parts=(
                Input(
                    unit="m/s2",
                    meaning="weighted vibration at the hand, three axes together",
                    refuse_low="0",
                    high=_MOST_BELIEVED,
                ),
                Input(unit="h", meaning="trigger time in the day", above="0", refuse_high="24"),
            ),
        ),
    ],
    measured: Annotated[
        str,
        Choice(
            meaning="what the vibration figures are; vector-sum where nothing is said",
            words={
                "vector-sum": "of three axes, as ISO 5349-1:2001 asks",
                "single-axis": "of the strongest axis alone, as in older papers",
            },
        ),
    ] = "vector-sum",
    keep_to: Annotated[
        str,
        Choice(
            meaning="which value the day is judged against; the limit where nothing is said",
            words={"limit": "the exposure limit value", "action": "the exposure action value"},
        ),
    ] = "limit",
) -> Vibration:
    """Give A(8) = sqrt(sum of a^2 t / 8 h)."""
    del measured, keep_to  # met by the limit and the cautions of the sheet, not by the equation
    if sum(t for _, t in exposure) > _DAY:
        raise CannotCompute(
            "exposure",
            message="The times add up to more than a day.",
            fix="Check for minutes written as hours; give one day at a time.",
        )
    square = sum((a**2 * t for a, t in exposure), start=Fraction(0)) / _WORKING_DAY
    return Vibration(
        a8=math.sqrt(square), points=_POINTS * square / _ACTION**2, band=_band_of(square)
    )


def _band_of(square: Number) -> str:
    """Give the word; at the action value its duties begin, at the limit value it is not passed."""
    if square > _LIMIT**2:
        return "above limit"
    return "below action" if square < _ACTION**2 else "above action"


def _is_one_axis(figures: Figures) -> bool:
    return figures.value("measured") == "single-axis"


def _value_kept_to(figures: Figures) -> Fraction:
    return _ACTION if figures.value("keep_to") == "action" else _LIMIT


def _proves_nothing(figures: Figures) -> bool:
    return _is_one_axis(figures) and figures.number("a8") <= _value_kept_to(figures)


_REGULATIONS = Source(
    author="Great Britain",
    title="Control of Vibration at Work Regulations 2005 (after Directive 2002/44/EC)",
    year="2005",
    clause="regulation 4: action value 2.5, limit value 5 m/s2 A(8)",
    standing=Standing.SEEN,
    note="Values read in the regulator's ready reckoner, not in the regulations.",
)
_RECKONER = Source(
    author="Health and Safety Executive",
    title="Hand-arm vibration exposure ready reckoner",
    year="not stated; Great Britain",
    clause="points: 5 m/s2 for 3 h",
    standing=Standing.SEEN,
)
_STANDARD = Source(
    author="ISO",
    title="ISO 5349-1 and -2, Measurement and evaluation of human exposure to hand-transmitted "
    "vibration",
    year="2001",
    clause="part 1, A(8); part 2, annex E",
    standing=Standing.SEEN,
    note="Examples of annex E read as quoted in the tests of a public program.",
)

SHEET = Sheet(
    id="hand-arm-vibration",
    title="Vibration at the hands in a day",
    tells="Whether a day with these tools passes the action or the limit value.",
    equation=hand_arm_vibration,
    formula=(
        "a8 = sqrt(sum of a^2 x t / 8 h)",
        "points = 100 x (a8 / 2.5 m/s2)^2, that is 2 a^2 an hour",
    ),
    sources=(_STANDARD, _REGULATIONS, _RECKONER),
    limits=(
        Limit(
            result="a8",
            side=Side.AT_MOST,
            against=_value_kept_to,
            meaning="the exposure limit value of 5 m/s2 A(8), or the action value of 2.5 where "
            "keep_to says so: Directive 2002/44/EC and Control of Vibration at Work Regulations "
            "2005 (Great Britain)",
            cannot_tell_when=_proves_nothing,
            cannot_tell_because="the vector sum may be up to 1.7 times the figure of one axis",
        ),
    ),
    cautions=(
        Caution(
            text="The action value is reached: from here the law of Great Britain and the European "
            "Union asks for a programme of measures and health surveillance.",
            when=lambda figures: figures.value("band") != "below action",
        ),
        Caution(
            text="Figures of one axis: the vector sum is 1 to 1.7 times as much. The 2.8 m/s2 of "
            "old British papers was of the strongest axis, about 4 m/s2 as a vector sum.",
            when=_is_one_axis,
        ),
        Caution(
            text="A maker's declared figure is often half of what is met in use. Measure, or take "
            "the upper figure of a published range; A(8) is commonly 20 to 40 in 100 off."
        ),
        Caution(
            text="Count the time the hand is on the running tool. Cold hands, a tight grip and "
            "worn or blunt tools make it worse than any figure tells."
        ),
        Caution(
            text="A reckoning is no health surveillance: tingling or white fingers end the job."
        ),
    ),
    examples=(
        Example(
            title="5 m/s2 for three hours",
            given={"exposure": ("5 m/s2 for 3 h",)},
            printed={"points": Printed(value="150", ours="150", tolerance="0.5")},
            source=_RECKONER,
        ),
        Example(
            title="A single tool, 7.4 m/s2 for 2.5 hours",
            given={"exposure": ("7.4 m/s2 for 2.5 h",)},
            printed={"a8": Printed(value="4.1 m/s2", ours="4.137 m/s2", tolerance="0.05 m/s2")},
            source=_STANDARD,
            note="Part 2, E.2.1.",
        ),
        Example(
            title="A forestry worker with three tools",
            given={
                "exposure": (
                    "4.6 m/s2 for 2 h",
                    "6.0 m/s2 for 1 h",
                    "3.6 m/s2 for 2 h",
                )
            },
            printed={"a8": Printed(value="3.6 m/s2", ours="3.610 m/s2", tolerance="0.05 m/s2")},
            source=_STANDARD,
            note="Part 2, E.3; the three alone are printed as 2.3, 2.1 and 1.8.",
        ),
        Example(
            title="Brush saw and chain saw",
            given={"exposure": ("4 m/s2 for 4.5 h", "6 m/s2 for 1 h")},
            printed={"a8": Printed(value="3.7 m/s2", ours="3.674 m/s2", tolerance="0.05 m/s2")},
            source=Source(
                author="European Commission",
                title="Guide to good practice on hand-arm vibration",
                year="2006",
                clause="worked day of a forestry worker",
                standing=Standing.FROM_MEMORY,
            ),
        ),
    ),
)
