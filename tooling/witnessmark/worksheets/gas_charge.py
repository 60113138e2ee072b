"""What a nitrogen charge reads at another temperature, the gas shut in and its room unchanged.

Two answers stand side by side: the ideal gas law, which workshops use, and nitrogen as it is. Their
difference grows with pressure, to a tenth at 400 bar in frost.
"""

from __future__ import annotations

from typing import Annotated, NamedTuple

from witnessmark.worksheets import nitrogen
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
from witnessmark.worksheets.gas_pressure import (
    ATMOSPHERE,
    GAS_CAUTION,
    NITROGEN,
    VESSEL_CAUTION,
    PressureKind,
    absolute,
    allowed_from_vacuum,
)

# Over this the ideal figure is too far off to charge by. Our judgement, no source.
_WORTH_SAYING = 0.01


class Charge(NamedTuple):
    """The pressure at the new temperature, told both ways."""

    ideal: Annotated[Number, Gives(unit="bar", meaning="by the ideal gas law, absolute")]
    real: Annotated[Number, Gives(unit="bar", meaning="by real nitrogen, absolute")]
    ideal_error: Annotated[
        Number, Gives(unit="%", meaning="how far the ideal figure is over the real one")
    ]
    real_gauge: Annotated[
        Number, Gives(unit="bar", meaning="by real nitrogen, as a gauge reads at sea level")
    ]


def gas_charge(
    *,
    pressure: Annotated[
        Number,
        Input(
            unit="bar",
            meaning="pressure of the charge as read",
            above="0",
            high="400",
            refuse_high="2000",
        ),
    ],
    pressure_kind: PressureKind,
    temperature: Annotated[
        Number,
        Input(
            unit="degC",
            meaning="temperature of the gas when it was read",
            low="-20",
            high="60",
            refuse_low="-80",
            refuse_high="150",
        ),
    ],
    new_temperature: Annotated[
        Number,
        Input(
            unit="degC",
            meaning="temperature of the gas to be told for",
            low="-20",
            high="60",
            refuse_low="-80",
            refuse_high="150",
        ),
    ],
    allowed: Annotated[
        Number | None,
        Input(
            unit="bar",
            meaning="greatest pressure allowed, of the same kind as the pressure",
            above="0",
        ),
    ] = None,
) -> Charge:
    """Give the pressure of a shut-in charge at another temperature: p2 = p1 T2 / T1, and real."""
    del allowed  # met by the limit of the sheet, not by the equation
    p1 = absolute(pressure, kind=pressure_kind)
    ideal = p1 * new_temperature / temperature
    density = nitrogen.density(float(p1), temperature=float(temperature))
    real = nitrogen.pressure(density, temperature=float(new_temperature))
    return Charge(
        ideal=ideal,
        real=real,
        ideal_error=float(ideal) / real - 1,
        real_gauge=real - float(ATMOSPHERE),
    )


def _is_far_from_ideal(figures: Figures) -> bool:
    return not -_WORTH_SAYING <= figures.number("ideal_error") <= _WORTH_SAYING


SHEET = Sheet(
    id="gas-charge",
    title="Nitrogen charge at another temperature",
    tells="What a gauge must read on the day so that a strut is rightly charged at another heat.",
    equation=gas_charge,
    formula=(
        "absolute = gauge + 1.01325 bar",
        "ideal = p1 x T2 / T1, in kelvin, absolute",
        "real = p(density(p1, T1), T2), by the reference equation of state of nitrogen",
        "ideal_error = ideal / real - 1",
    ),
    sources=(NITROGEN,),
    limits=(
        Limit(
            result="real",
            side=Side.AT_MOST,
            against=allowed_from_vacuum,
            meaning="the greatest pressure the maker's plate or the manual allows",
        ),
    ),
    cautions=(
        Caution(
            text=(
                "The ideal gas law is more than 1 in 100 off here. Charge by the real figure, and "
                "never round a charge up."
            ),
            when=_is_far_from_ideal,
        ),
        Caution(
            text=(
                "It is the gas's own temperature that counts: let strut and gas stand until both "
                "are as warm as the room. 3 degrees are 1 in 100, and a gauge is commonly another "
                "1 to 1.6 in 100 of its full scale."
            )
        ),
        Caution(
            text=(
                "The room of the gas is taken as unchanged: set the strut at the same length both "
                "times. Oil that has leaked past the piston changes it."
            )
        ),
        Caution(text=GAS_CAUTION),
        Caution(text=VESSEL_CAUTION),
    ),
    examples=(
        Example(
            title="A precharge of 90 bar wanted at 40 degC, set at 20 degC",
            given={
                "pressure": "90 bar",
                "pressure_kind": "absolute",
                "temperature": "40 degC",
                "new_temperature": "20 degC",
                "allowed": "100 bar",
            },
            printed={"ideal": Printed(value="84 bar", ours="84.25 bar", tolerance="0.5 bar")},
            source=Source(
                author="A maker of accumulators",
                title="Precharge instructions, public web page",
                year="not stated",
                clause="worked precharge",
                standing=Standing.SEEN,
            ),
            note=(
                "Printed to the whole bar, without saying gauge or absolute; its ratio takes the "
                "figures as absolute. The limit is ours. Real nitrogen gives 83.1 bar."
            ),
        ),
        Example(
            title="Gas at 360 kPa and 24 degC, warmed to 50 degC",
            given={
                "pressure": "360 kPa",
                "pressure_kind": "absolute",
                "temperature": "24 degC",
                "new_temperature": "50 degC",
            },
            printed={"ideal": Printed(value="390 kPa", ours="391.5 kPa", tolerance="5 kPa")},
            source=Source(
                author="OpenStax",
                title="Chemistry 2e",
                year="2019",
                clause="example 9.5",
                standing=Standing.FROM_MEMORY,
            ),
            note="Printed to two figures, for another gas; only the ideal law is met.",
        ),
    ),
)
