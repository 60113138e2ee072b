"""How much energy lies in a charged strut, cylinder or receiver, by three published ways.

The three are kept apart because they bound each other: Brode what went in, isentropic what a burst
gives in an instant, isothermal the most that could ever be had. Explosive equivalents are left out:
four constants are in print and they lie a tenth apart.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Annotated, NamedTuple

from witnessmark.worksheets import nitrogen
from witnessmark.worksheets.declare import (
    CannotCompute,
    Caution,
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
from witnessmark.worksheets.gas_pressure import (
    ATMOSPHERE,
    NITROGEN,
    VESSEL_CAUTION,
    PressureKind,
    absolute,
)

# Heat ratio of a two-atom gas by the ideal law: 7/5, exact in that model.
_TWO_ATOMS = Fraction(7, 5)
_ROOM = Fraction("293.15")
# Pressure Systems Safety Regulations 2000 (Great Britain), 250 bar litre = 25 kJ; quoted by a
# public page from the regulations of 1989 (seen there).
_SCHEME_FROM = 25_000
# A university's pressure safety rules call more than 100 kJ highly hazardous (seen).
_HIGHLY_HAZARDOUS = 100_000


class Stored(NamedTuple):
    """The energy let go by a burst, and the gas let out."""

    brode: Annotated[Number, Gives(unit="kJ", meaning="energy that filling at fixed room took")]
    isentropic: Annotated[Number, Gives(unit="kJ", meaning="work of letting go without heat")]
    isothermal: Annotated[
        Number, Gives(unit="kJ", meaning="work of letting go at one temperature: the most")
    ]
    free_gas: Annotated[
        Number, Gives(unit="m3", meaning="the whole content as real nitrogen at one atmosphere")
    ]
    free_gas_ideal: Annotated[
        Number, Gives(unit="m3", meaning="the whole content by the ideal gas law")
    ]


def stored_gas_energy(
    *,
    volume: Annotated[
        Number, Input(unit="litre", meaning="room of the gas inside", above="0", high="10000")
    ],
    pressure: Annotated[
        Number,
        Input(
            unit="bar",
            meaning="pressure inside",
            above="0",
            high="400",
            refuse_high="2000",
        ),
    ],
    pressure_kind: PressureKind,
    k: Annotated[
        Number,
        Input(unit="1", meaning="heat ratio of the gas", above="1", low="1.1", high="1.67"),
    ] = _TWO_ATOMS,
    temperature: Annotated[
        Number,
        Input(
            unit="degC",
            meaning="temperature of the gas",
            low="-20",
            high="60",
            refuse_low="-80",
            refuse_high="150",
        ),
    ] = _ROOM,
) -> Stored:
    """Give the energy of gas of volume V at p1 against p0 outside, and the gas let out."""
    p0, p1 = ATMOSPHERE, absolute(pressure, kind=pressure_kind)
    if p1 <= p0:
        raise CannotCompute(
            "pressure",
            message="There is no more pressure inside than outside, so nothing is stored.",
            fix="Check whether the pressure is gauge or absolute.",
        )
    room, heat = float(volume), float(temperature)
    shrink = (float(p0) / float(p1)) ** ((float(k) - 1) / float(k))
    return Stored(
        brode=(p1 - p0) * volume / (k - 1),
        isentropic=float(p1 * volume) / (float(k) - 1) * (1 - shrink),
        isothermal=float(p1 * volume) * math.log(p1 / p0),
        free_gas=nitrogen.let_out(room, pressure_=float(p1), temperature=heat),
        free_gas_ideal=volume * p1 / p0,
    )


def _over_pressure_times_room(figures: Figures) -> Number:
    p1 = absolute(figures.number("pressure"), kind=str(figures.value("pressure_kind")))
    return (p1 - ATMOSPHERE) * figures.number("volume")


def _wants_a_scheme(figures: Figures) -> bool:
    return _over_pressure_times_room(figures) > _SCHEME_FROM


def _is_highly_hazardous(figures: Figures) -> bool:
    return figures.number("isothermal") > _HIGHLY_HAZARDOUS


_HANDBOOK = Source(
    author="Crowl",
    title="Understanding Explosions",
    year="2003",
    clause="appendix B: Brode, isentropic and isothermal expansion",
    standing=Standing.SEEN,
)
_REPAIR = Source(
    author="ASME",
    title="PCC-2, Repair of Pressure Equipment and Piping",
    year="2008; United States",
    clause="article 5.1, appendix II: isentropic form",
    standing=Standing.SEEN,
)
_CYLINDER = Source(
    author="unnamed",
    title="Public worked sheet on a gas cylinder of 50 litre at 200 bar",
    year="not stated",
    clause="isothermal expansion to 1 bar",
    standing=Standing.SEEN,
)
_BOTTLE = Source(
    author="unnamed",
    title="Public physics discussion of a 490 cm3 bottle at 200 bar",
    year="not stated",
    clause="energy against pressure times volume",
    standing=Standing.SEEN,
)
_VESSEL = Source(
    author="unnamed",
    title="Public web page on the energy of a 400 gallon air receiver",
    year="not stated",
    clause="worked example, isentropic, k = 1.41",
    standing=Standing.SEEN,
)

SHEET = Sheet(
    id="stored-gas-energy",
    title="Energy stored in a charged vessel",
    tells="How much would be let go if a strut or cylinder burst, and how much gas with it.",
    equation=stored_gas_energy,
    formula=(
        "brode = (p1 - p0) V / (k - 1)",
        "isentropic = p1 V / (k - 1) x (1 - (p0 / p1)^((k - 1) / k))",
        "isothermal = p1 V ln(p1 / p0)",
        "free_gas = V x density(p1, T) / density(p0, T), real nitrogen",
        "p0 = 1.01325 bar, p1 from vacuum",
    ),
    sources=(_HANDBOOK, _REPAIR, NITROGEN),
    cautions=(
        Caution(
            text=(
                "Pressure times room is over 250 bar litre: in Great Britain a written scheme of "
                "examination is called for (Pressure Systems Safety Regulations 2000). Other "
                "countries draw the line elsewhere."
            ),
            when=_wants_a_scheme,
        ),
        Caution(
            text=(
                "Over 100 kJ: one university's rules call this highly hazardous. Shield, distance "
                "and a competent person before any work on it."
            ),
            when=_is_highly_hazardous,
        ),
        Caution(
            text=(
                "A small figure is no leave to open a vessel: 1 litre at 150 bar holds tens of "
                "kilojoules, let go in a blink with whatever was bolted to it."
            )
        ),
        Caution(
            text=(
                "Energies are by the ideal gas law, which errs on the high side: 50 litre of real "
                "nitrogen at 200 bar gives 1.56 MJ where the isentropic figure is 1.95. Energy "
                "held in springs, oil or metal is not counted."
            )
        ),
        Caution(
            text="free_gas is nitrogen. For what it does to the air of a room: oxygen-depletion."
        ),
        Caution(text=VESSEL_CAUTION),
    ),
    examples=(
        Example(
            title="A cylinder of 50 litre at 200 bar",
            given={"volume": "50 litre", "pressure": "200 bar", "pressure_kind": "absolute"},
            printed={"isothermal": Printed(value="5.30 MJ", ours="5.2852 MJ", tolerance="0.02 MJ")},
            source=_CYLINDER,
            note="Printed against 1 bar outside; ours is against 1.01325 bar.",
        ),
        Example(
            title="A bottle of 490 cm3 at 200 bar",
            given={"volume": "490 cm3", "pressure": "200 bar", "pressure_kind": "absolute"},
            printed={"brode": Printed(value="24 kJ", ours="24.376 kJ", tolerance="0.5 kJ")},
            source=_BOTTLE,
            note=(
                "Printed as '24 kJ and more'. Pressure times volume alone, 9.8 kJ, is far too low."
            ),
        ),
        Example(
            title="An air receiver of 400 gallon at 404.7 psi absolute",
            given={
                "volume": "400 us-gallon",
                "pressure": "404.7 psi",
                "pressure_kind": "absolute",
                "k": "1.41",
            },
            printed={
                "isentropic": Printed(
                    value="27570000 ft lbf",
                    ours="4.70e6 ft lbf",
                    tolerance="100000 ft lbf",
                    is_wrong=True,
                )
            },
            source=_VESSEL,
            note=(
                "(14.696 / 404.7)^0.2908 is 0.381; the page takes 0.6375, and its last product "
                "is a power of ten off."
            ),
        ),
    ),
)
