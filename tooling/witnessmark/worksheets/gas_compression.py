"""What a nitrogen strut or accumulator reads when its gas is squeezed or let out.

The ideal gas law side by side with nitrogen as it is. Above 100 bar the ideal law is unsafe: it
tells 400 bar where halving the room of gas at 200 bar gives 538, and 528 where a fast stroke gives
over 1000.
"""

from __future__ import annotations

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
from witnessmark.worksheets.gas_pressure import (
    GAS_CAUTION,
    NITROGEN,
    VESSEL_CAUTION,
    PressureKind,
    absolute,
    allowed_from_vacuum,
)

# Heat ratio of a two-atom gas by the ideal law: 7/5, exact in that model.
_HEAT_RATIO = 1.4
# Over this the ideal figure is too far off to judge a vessel by. Our judgement, no source.
_WORTH_SAYING = 0.01
# No strut or accumulator we know of is made for more. Common practice, no source.
_HIGHEST_KNOWN = 700e5


class Squeezed(NamedTuple):
    """The gas after the stroke, told both ways."""

    ideal: Annotated[Number, Gives(unit="bar", meaning="by the ideal gas law, absolute")]
    real: Annotated[Number, Gives(unit="bar", meaning="by real nitrogen, absolute")]
    ideal_error: Annotated[
        Number, Gives(unit="%", meaning="how far the ideal figure is over the real one")
    ]
    temperature_after: Annotated[
        Number, Gives(unit="degC", meaning="temperature of the real gas right after the stroke")
    ]


def gas_compression(
    *,
    pressure: Annotated[
        Number,
        Input(
            unit="bar",
            meaning="pressure before the stroke",
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
            meaning="temperature of the gas before the stroke",
            low="-20",
            high="60",
            refuse_low="-80",
            refuse_high="150",
        ),
    ],
    volume_ratio: Annotated[
        Number,
        Input(
            unit="1",
            meaning="room of the gas after the stroke, as a share of that before",
            low="0.3",
            high="3",
            refuse_low="0.05",
            refuse_high="20",
        ),
    ],
    process: Annotated[
        str,
        Choice(
            meaning="how quickly the gas is squeezed",
            words={
                "slow": "so slowly that it keeps its temperature",
                "fast": "so fast that no heat gets out or in",
            },
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
) -> Squeezed:
    """Give the pressure after a stroke: p2 = p1 / ratio^n, n = 1 slow and 1.4 fast; and real."""
    del allowed  # met by the limit of the sheet, not by the equation
    p1, t1, ratio = absolute(pressure, kind=pressure_kind), float(temperature), float(volume_ratio)
    ideal = p1 / volume_ratio if process == "slow" else float(p1) / ratio**_HEAT_RATIO
    before = nitrogen.density(float(p1), temperature=t1)
    after = before / ratio
    t2 = t1 if process == "slow" else _after_fast(after, start=before, temperature=t1)
    real = nitrogen.pressure(after, temperature=t2)
    _refuse_beyond_the_equation(real, temperature=t2)
    return Squeezed(
        ideal=ideal, real=real, ideal_error=float(ideal) / real - 1, temperature_after=t2
    )


def _after_fast(density: float, *, start: float, temperature: float) -> float:
    entropy = nitrogen.entropy(start, temperature=temperature)
    return nitrogen.temperature_after(density, entropy_=entropy)


def _refuse_beyond_the_equation(pressure: float, *, temperature: float) -> None:
    if temperature <= nitrogen.CRITICAL_TEMPERATURE:
        raise CannotCompute(
            "volume_ratio",
            message="The gas would grow so cold that part of it turns liquid.",
            fix="Give a smaller volume_ratio, or take the stroke as slow.",
        )
    if pressure > nitrogen.MOST_PRESSURE:
        raise CannotCompute(
            "volume_ratio",
            message="The pressure would pass 22 000 bar, where the equation ends.",
            fix="Check the volume_ratio: it is the room after over the room before.",
        )


def _is_far_from_ideal(figures: Figures) -> bool:
    return not -_WORTH_SAYING <= figures.number("ideal_error") <= _WORTH_SAYING


def _is_over_any_strut(figures: Figures) -> bool:
    return figures.number("real") > _HIGHEST_KNOWN


_ENGINE = Source(
    author="Young and Freedman",
    title="University Physics",
    year="edition not seen",
    clause="adiabatic compression in a diesel engine, chapter 19",
    standing=Standing.FROM_MEMORY,
)
_FLUID_POWER = Source(
    author="Sullivan",
    title="Fluid Power: Theory and Applications",
    year="edition not seen",
    clause="example 12.4",
    standing=Standing.SEEN,
    note="Read as a public worked copy of the example, not in the book.",
)
_STROKE_NOTE = (
    "The room is ours: 5 gallon of oil between 3000 and 2000 psi gauge, a precharge of 1500 psi "
    "gauge in the printed 20.049 gallon, and 14.7 psi for the air outside, leave this share."
)

SHEET = Sheet(
    id="gas-compression",
    title="Nitrogen squeezed in a strut or accumulator",
    tells="How high the gas pressure goes at the end of a stroke, and whether it may.",
    equation=gas_compression,
    formula=(
        "absolute = gauge + 1.01325 bar",
        "ideal = p1 / volume_ratio^n, n = 1 slow, n = 1.4 fast",
        "real, slow = p(density1 / volume_ratio, T1), by the reference equation of state",
        "real, fast = p(density1 / volume_ratio, T2), with T2 where the entropy is unchanged",
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
                "The ideal gas law is more than 1 in 100 off here: judge the vessel by the real "
                "figure."
            ),
            when=_is_far_from_ideal,
        ),
        Caution(
            text="Over 700 bar: no strut or accumulator we know of is made for this.",
            when=_is_over_any_strut,
        ),
        Caution(
            text=(
                "A real stroke lies between slow and fast. For the strength of a vessel take it "
                "as fast; for the height a strut stands at, as slow."
            )
        ),
        Caution(
            text=(
                "The share left of the room is the doubtful figure: oil that leaked past the "
                "piston makes it smaller, and the pressure rises steeply. State it with a ±."
            )
        ),
        Caution(text=GAS_CAUTION),
        Caution(text=VESSEL_CAUTION),
    ),
    examples=(
        Example(
            title="Accumulator squeezed slowly to 3000 psi gauge",
            given={
                "pressure": "1514.7 psi",
                "pressure_kind": "absolute",
                "temperature": "20 degC",
                "volume_ratio": "0.50244",
                "process": "slow",
                "allowed": "3500 psi",
            },
            printed={"ideal": Printed(value="3014.7 psi", ours="3014.69 psi", tolerance="0.5 psi")},
            source=_FLUID_POWER,
            note=f"{_STROKE_NOTE} The limit is ours too.",
        ),
        Example(
            title="Accumulator let out slowly to 2000 psi gauge",
            given={
                "pressure": "1514.7 psi",
                "pressure_kind": "absolute",
                "temperature": "20 degC",
                "volume_ratio": "0.75182",
                "process": "slow",
            },
            printed={"ideal": Printed(value="2014.7 psi", ours="2014.71 psi", tolerance="0.5 psi")},
            source=_FLUID_POWER,
            note=_STROKE_NOTE,
        ),
        Example(
            title="A charge squeezed fast to a fifteenth",
            given={
                "pressure": "1.01 bar",
                "pressure_kind": "absolute",
                "temperature": "27 degC",
                "volume_ratio": "0.0666667",
                "process": "fast",
            },
            printed={"ideal": Printed(value="44.8 bar", ours="44.756 bar", tolerance="0.05 bar")},
            source=_ENGINE,
            note="Printed for air, with the same heat ratio of 1.40; only the ideal law is met.",
        ),
    ),
)
