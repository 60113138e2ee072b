"""How much oxygen is left in a room once a cylinder or strut has emptied into it.

The worst case: all the gas at once, air driven out before it, then mixed through the room. Near the
leak and in a pit it is worse than any mean figure tells.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Annotated, NamedTuple

from witnessmark.worksheets import nitrogen
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
from witnessmark.worksheets.gas_pressure import ATMOSPHERE, NITROGEN, absolute

# Share of oxygen in air as the guides below take it; dry air holds 20.95 in 100.
_IN_AIR = Fraction("0.21")
_ENTRY = Fraction("0.195")
_EVACUATE = Fraction("0.18")
_COLLAPSE = Fraction("0.10")
_ROOM_HEAT = Fraction("293.15")


class Air(NamedTuple):
    """The gas let out, and the air it leaves."""

    gas_released: Annotated[
        Number, Gives(unit="m3", meaning="gas let out, at the heat and pressure of the room")
    ]
    oxygen: Annotated[
        Number, Gives(unit="%", meaning="oxygen left where the gas drives air out, then mixes")
    ]
    oxygen_mixed: Annotated[
        Number, Gives(unit="%", meaning="oxygen left where gas and air mix as it comes out")
    ]
    oxygen_lost: Annotated[
        Number, Gives(unit="%", meaning="how far oxygen falls from the 21 % of air")
    ]


def oxygen_depletion(
    *,
    room: Annotated[
        Number,
        Input(unit="m3", meaning="room of air: the walls less all that stands inside", above="0"),
    ],
    gas: Annotated[
        Number | None,
        Input(unit="m3", meaning="gas let out, as it is at room conditions", refuse_low="0"),
    ] = None,
    cylinder: Annotated[
        Number | None,
        Input(unit="litre", meaning="water capacity of the cylinder or strut", above="0"),
    ] = None,
    cylinder_pressure: Annotated[
        Number | None,
        Input(
            unit="bar",
            meaning="pressure in the cylinder, on its gauge unless said otherwise",
            above="0",
            high="400",
            refuse_high="2000",
        ),
    ] = None,
    cylinder_pressure_kind: Annotated[
        str,
        Choice(
            meaning="what the cylinder pressure is counted from; gauge where nothing is said",
            words={"gauge": "from the air outside", "absolute": "from vacuum"},
        ),
    ] = "gauge",
    temperature: Annotated[
        Number,
        Input(
            unit="degC",
            meaning="temperature of cylinder and room",
            low="-20",
            high="60",
            refuse_low="-80",
            refuse_high="150",
        ),
    ] = _ROOM_HEAT,
) -> Air:
    """Give the oxygen left: 21 % x (room - gas) / room."""
    released = gas or Fraction(0)
    if cylinder is not None and cylinder_pressure is not None:
        inside = absolute(cylinder_pressure, kind=cylinder_pressure_kind)
        released += _let_out(cylinder, pressure=inside, temperature=temperature)
    elif cylinder is not None or cylinder_pressure is not None or gas is None:
        raise CannotCompute(
            "cylinder",
            message="It takes the gas let out, or a cylinder and its pressure.",
            fix="Give gas, or both cylinder and cylinder_pressure.",
        )
    if released >= room:
        raise CannotCompute(
            "room",
            message="The gas would fill the room: there would be nothing in it to breathe.",
            fix="Treat the room as deadly, and let the gas off outdoors.",
        )
    return Air(
        gas_released=released,
        oxygen=_IN_AIR * (room - released) / room,
        oxygen_mixed=float(_IN_AIR) * math.exp(-released / room),
        oxygen_lost=_IN_AIR * released / room,
    )


def _let_out(cylinder: Number, *, pressure: Number, temperature: Number) -> float:
    """Give what leaves the cylinder: its content, less the one filling that stays behind."""
    if pressure <= ATMOSPHERE:
        raise CannotCompute(
            "cylinder_pressure",
            message="There is no more pressure in the cylinder than outside: nothing comes out.",
            fix="Check whether the pressure is gauge or absolute.",
        )
    content = nitrogen.let_out(
        float(cylinder), pressure_=float(pressure), temperature=float(temperature)
    )
    return content - float(cylinder)


def _under(share: Fraction, *, figures: Figures) -> bool:
    return figures.number("oxygen") < share


_GUIDE = Source(
    author="A university safety office",
    title="Calculator for gas from charged pressure vessels, public web page",
    year="not stated; United Kingdom",
    clause="part 3: 100 x 0.21 (Vr - Vg) / Vr",
    standing=Standing.SEEN,
)
_ENTRY_LIMIT = Source(
    author="European Industrial Gases Association",
    title="Doc 44/18, Hazards of Oxygen-Deficient Atmospheres",
    year="2018; Europe, harmonised with the United States and Asia",
    clause="summary: 19.5 % is the least safe oxygen content for entry",
    standing=Standing.SEEN,
)
_LIQUID = Source(
    author="A national laboratory's safety group",
    title="Guide to the use of liquid nitrogen, public copy",
    year="not stated; United Kingdom",
    clause="worked example: 100 litre, a room of 10 m by 10 m by 2 m less a tenth",
    standing=Standing.SEEN,
)
_CYLINDERS = Source(
    author="A university school's safety office",
    title="SOM036a, Calculation of oxygen content of a room",
    year="not stated; United Kingdom",
    clause="nitrogen cylinder of size W: 10.78 m3",
    standing=Standing.SEEN,
)

SHEET = Sheet(
    id="oxygen-depletion",
    title="Oxygen left after a gas escape",
    tells="Whether a room could still be breathed in if a cylinder or strut emptied into it.",
    equation=oxygen_depletion,
    formula=(
        "gas_released = gas + cylinder x (density(p, T) / density(1 atm, T) - 1), real nitrogen",
        "oxygen = 21 % x (room - gas_released) / room = 21 % - oxygen_lost",
        "oxygen_mixed = 21 % x exp(-gas_released / room)",
    ),
    sources=(_GUIDE, _ENTRY_LIMIT, NITROGEN),
    limits=(
        # On what is lost: a tenth of 19.5 % to spare is more than fresh air has.
        Limit(
            result="oxygen_lost",
            side=Side.AT_MOST,
            against=lambda _: _IN_AIR - _ENTRY,
            meaning="1.5 of the 21 %, which leaves 19.5 % to enter a space: EIGA Doc 44/18, "
            "Europe; OSHA 1910.146, US",
        ),
    ),
    cautions=(
        Caution(
            text=(
                "Under 10 % oxygen: whoever walks in falls within a breath or two, without "
                "warning, and so does whoever follows to help."
            ),
            when=lambda figures: _under(_COLLAPSE, figures=figures),
        ),
        Caution(
            text="Under 18 % oxygen: British guides have the room evacuated at this.",
            when=lambda figures: _under(_EVACUATE, figures=figures),
        ),
        Caution(
            text=(
                "The figure is a mean over the room. At the leak, in a pit, a tank or a cab it is "
                "far worse; cold gas lies along the floor."
            )
        ),
        Caution(
            text=(
                "A figure within the limit is no leave to enter. A pit, a tank or a boiler is a "
                "confined space: who enters, and how, is for local law and a competent person. "
                "Test the air with a meter at the place, two people, and never enter a pit after a "
                "release."
            )
        ),
        Caution(
            text=(
                "For gases that do not burn, poison or feed fire. Carbon dioxide harms long "
                "before the oxygen falls; oxygen and fuel gas need other sums."
            )
        ),
        Caution(text="Take machines and stores off the room. Fans and draughts are not counted."),
    ),
    examples=(
        Example(
            title="A nitrogen cylinder of size W",
            given={
                "room": "200 m3",
                "cylinder": "50 litre",
                "cylinder_pressure": "230 bar",
                "temperature": "15 degC",
            },
            printed={
                "gas_released": Printed(value="10.78 m3", ours="10.58 m3", tolerance="0.3 m3")
            },
            source=_CYLINDERS,
            note=(
                "Only the content is printed; capacity, filling pressure and temperature are the "
                "usual ones (from memory), hence the wide tolerance. The ideal law gives 11.35 m3."
            ),
        ),
        Example(
            title="100 litre of liquid nitrogen in a room of 180 m3",
            given={"room": "180 m3", "gas": "69.6 m3"},
            printed={"oxygen": Printed(value="12.9 %", ours="12.88 %", tolerance="0.05 %")},
            source=_LIQUID,
            note="The gas is 100 litre x 696, as the guide takes it.",
        ),
    ),
)
