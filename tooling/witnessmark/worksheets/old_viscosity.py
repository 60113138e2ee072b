"""Seconds of the old cup viscometers as a kinematic viscosity, and how far that may be off.

Seconds mean nothing without the cup and the temperature: a Redwood second is worth more than a
Saybolt one, and each holds only at the heat it was run at.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import Annotated, NamedTuple

from witnessmark.model.fields import Exact, Text, Written
from witnessmark.worksheets.declare import (
    CannotCompute,
    Caution,
    Choice,
    Example,
    Figures,
    Gives,
    Input,
    Number,
    Printed,
    Sheet,
    Source,
    Standing,
)
from witnessmark.worksheets.table_reading import WrittenTable, read_table

# mm2/s to m2/s.
_CENTISTOKE = Fraction(1, 10**6)
_MUCH_DOUBT = Fraction("0.1")


class _Rule(Written):
    scale: Text
    over: Exact
    up_to: Exact | None = None
    factor: Exact
    drag: Exact
    doubt: Exact


class _Rules(WrittenTable):
    rules: tuple[_Rule, ...]


@cache  # a part of the program; read where it is first needed
def _table() -> _Rules:
    return read_table("old-viscosity", kind=_Rules)


class Modern(NamedTuple):
    """The viscosity, and the range it may lie in."""

    viscosity: Annotated[Number, Gives(unit="cSt", meaning="kinematic viscosity, same temperature")]
    least: Annotated[Number, Gives(unit="cSt", meaning="what the published tables leave, lower")]
    most: Annotated[Number, Gives(unit="cSt", meaning="what the published tables leave, upper")]


def old_viscosity(
    *,
    scale: Annotated[
        str,
        Choice(
            meaning="the cup the seconds were run in",
            words={
                "ssu": "Saybolt Universal (SSU, SUS)",
                "redwood-1": "Redwood No. 1, commercial",
                "redwood-2": "Redwood No. 2, Admiralty",
            },
        ),
    ],
    seconds: Annotated[Number, Input(unit="s", meaning="time to run out", above="0")],
) -> Modern:
    """Give the viscosity: factor x t - drag / t, by scale and range."""
    rule = _rule_for(scale, seconds=seconds)
    viscosity = (rule.factor * seconds - rule.drag / seconds) * _CENTISTOKE
    return Modern(
        viscosity=viscosity,
        least=viscosity * (1 - rule.doubt),
        most=viscosity * (1 + rule.doubt),
    )


def _rule_for(scale: str, *, seconds: Number) -> _Rule:
    rules = [rule for rule in _table().rules if rule.scale == scale]
    for rule in rules:
        if seconds > rule.over and (rule.up_to is None or seconds <= rule.up_to):
            return rule
    raise CannotCompute(
        "seconds",
        message=f"Under {rules[0].over} s the {scale} rule no longer holds.",
        fix="Check the scale: so thin an oil was run in another cup.",
    )


def _is_loose(figures: Figures) -> bool:
    return figures.number("most") > (1 + _MUCH_DOUBT) * figures.number("viscosity")


def _is_redwood(figures: Figures) -> bool:
    return figures.value("scale") != "ssu"


_PUMPS = Source(
    author="A pump supplier",
    title="Viscosity conversion, public web page",
    year="not stated",
    clause="500 SSU",
    standing=Standing.SEEN,
)
_FLUID_POWER = Source(
    author="Esposito",
    title="Fluid Power with Applications",
    year="edition not seen",
    clause="example 2.12",
    standing=Standing.SEEN,
    note="Read as a public worked copy of the example, not in the book.",
)
_REDWOOD = Source(
    author="A supplier of industrial controls",
    title="Redwood viscometer conversion, public web page",
    year="not stated",
    clause="75 s Redwood No. 1",
    standing=Standing.SEEN,
)

SHEET = Sheet(
    id="old-viscosity",
    title="Saybolt and Redwood seconds",
    tells="What oil an old lubrication chart asks for, in the unit that is sold today.",
    equation=old_viscosity,
    formula=(
        "ssu: 0.226 t - 195 / t to 100 s, 0.220 t - 135 / t over 100 s",
        "redwood-1: 0.260 t - 179 / t to 100 s, 0.247 t - 50 / t over 100 s",
        "redwood-2: 2.458 t - 100 / t to 90 s, 2.447 t over 90 s",
        "least, most = viscosity less and more the doubt of the rule",
    ),
    sources=_table().cited(),
    cautions=(
        Caution(
            text="Near the start of the scale the rule is loose: take the range, not the figure.",
            when=_is_loose,
        ),
        Caution(
            text="Redwood rules lie up to 5 in 100 off the published tables. Never turn a Redwood "
            "record into one exact ISO grade: look at every grade the range touches.",
            when=_is_redwood,
        ),
        Caution(
            text="Seconds without their temperature mean nothing. Old charts used 70, 100, 140 or "
            "210 degF (Saybolt 100, 130 or 210): the result holds at that heat, not at 40 degC. "
            "Use oil-viscosity to carry it over."
        ),
        Caution(
            text="Two published tables of Saybolt seconds differ by 2 in 100. State the method "
            "with the figure."
        ),
        Caution(
            text="Like viscosity is not like oil: steam cylinder oil, compounded and straight oils "
            "differ in what a gauge does not tell."
        ),
    ),
    examples=(
        Example(
            title="75 seconds Redwood No. 1",
            given={"scale": "redwood-1", "seconds": "75 s"},
            printed={
                "viscosity": Printed(value="17.11 cSt", ours="17.11 cSt", tolerance="0.01 cSt")
            },
            source=_REDWOOD,
        ),
        Example(
            title="230 seconds Saybolt Universal",
            given={"scale": "ssu", "seconds": "230 s"},
            printed={"viscosity": Printed(value="50 cSt", ours="50.01 cSt", tolerance="0.5 cSt")},
            source=_FLUID_POWER,
            note="Printed cut off to a whole number.",
        ),
        Example(
            title="500 seconds Saybolt Universal",
            given={"scale": "ssu", "seconds": "500 s"},
            printed={
                "viscosity": Printed(
                    value="109.64 cSt", ours="109.73 cSt", tolerance="0.01 cSt", is_wrong=True
                )
            },
            source=_PUMPS,
            note=(
                "The page takes 0.220 t - 180 / t, and prints it without the / t; two other texts "
                "give 135. A full table gives 110.0, the exact standard route 107.9."
            ),
        ),
    ),
)
