"""How thick an oil is at another temperature, how much it thins with heat, and its ISO grade.

All from the two viscosities that every oil's sheet prints, at 40 and at 100 degC.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Annotated

from witnessmark.model.fields import Count, Exact, Written
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
from witnessmark.worksheets.table_reading import WrittenTable, read_table

# mm2/s to m2/s.
_CENTISTOKE = Fraction(1, 10**6)
_AT_40, _AT_100 = 313.15, 373.15
# ASTM D341: the constant of the simple equation, good from 2 mm2/s up.
_SHIFT = 0.7
_THINNEST = 2
# ISO 3448: a grade reaches a tenth to either side of its middle.
_TENTH = Fraction(1, 10)
# ASTM D2270, procedure B.
_STEP = 0.00715

_Curve = tuple[Exact, Exact, Exact]


class _Fit(Written):
    beginning: Exact
    low_index: _Curve
    high_index: _Curve


class _Grade(Written):
    grade: Count
    middle: Exact


class _Oils(WrittenTable):
    fits: tuple[_Fit, ...]
    grades: tuple[_Grade, ...]


@cache  # a part of the program; read where it is first needed
def _table() -> _Oils:
    return read_table("oil-viscosity", kind=_Oils)


# Not a named tuple, as the other sheets' results are: every tuple has an `index` of its own.
@dataclass(frozen=True, kw_only=True)
class Oil:
    """The oil at the temperature asked for, its index and its grade."""

    viscosity: Annotated[
        Number | None, Gives(unit="cSt", meaning="kinematic viscosity at the temperature")
    ]
    index: Annotated[
        Number | None, Gives(unit="1", meaning="viscosity index; report it as a whole number")
    ]
    grade: Annotated[str, Gives(unit="", meaning="ISO viscosity grade, or none")]


def oil_viscosity(
    *,
    at_40: Annotated[
        Number, Input(unit="cSt", meaning="kinematic viscosity at 40 degC", above="0.3")
    ],
    at_100: Annotated[
        Number,
        Input(
            unit="cSt",
            meaning="kinematic viscosity at 100 degC",
            above="0.3",
            low="2",
        ),
    ],
    temperature: Annotated[
        Number | None,
        Input(
            unit="degC",
            meaning="temperature to tell the viscosity for",
            low="0",
            high="150",
            refuse_low="-60",
            refuse_high="350",
        ),
    ] = None,
    least: Annotated[
        Number | None,
        Input(
            unit="cSt",
            meaning="least viscosity that bearing or pump needs at that temperature",
            above="0",
        ),
    ] = None,
) -> Oil:
    """Give the viscosity by D341, the index by D2270 and the grade by ISO 3448."""
    if at_100 >= at_40:
        raise CannotCompute(
            "at_100",
            message="An oil is thinner at 100 degC than at 40 degC.",
            fix="Check which figure is which.",
        )
    if least is not None and temperature is None:
        raise CannotCompute(
            "temperature",
            message="A least viscosity says nothing without a temperature.",
            fix="Give the temperature it is needed at.",
        )
    u, y = (float(v / _CENTISTOKE) for v in (at_40, at_100))
    return Oil(
        viscosity=None if temperature is None else _walther(u, y=y, temperature=float(temperature)),
        index=None if y < _THINNEST else _index(u, y=y),
        grade=_grade(at_40),
    )


def _walther(u: float, *, y: float, temperature: float) -> float:
    """Give the viscosity in m2/s: log log (v + 0.7) falls straight with log T."""
    warm, hot = (math.log10(math.log10(v + _SHIFT)) for v in (u, y))
    b = (warm - hot) / math.log10(_AT_100 / _AT_40)
    reached = warm - b * math.log10(temperature / _AT_40)
    return float(math.pow(10, math.pow(10, reached)) - _SHIFT) * float(_CENTISTOKE)


def _index(u: float, *, y: float) -> float:
    """Give the viscosity index: procedure A up to 100, procedure B from there on."""
    fit = [fit for fit in _table().fits if y >= fit.beginning][-1]
    low, high = (_on(curve, y=y) for curve in (fit.low_index, fit.high_index))
    if u >= high:
        return 100 * (low - u) / (low - high)
    n = math.log10(high / u) / math.log10(y)
    return (math.pow(10, n) - 1) / _STEP + 100


def _on(curve: _Curve, *, y: float) -> float:
    a, b, c = (float(figure) for figure in curve)
    return a * y**2 + b * y + c


def _grade(at_40: Number) -> str:
    for row in _table().grades:
        middle = row.middle * _CENTISTOKE
        if middle * (1 - _TENTH) <= at_40 <= middle * (1 + _TENTH):
            return f"ISO VG {row.grade}"
    return "none"


def _is_thin(figures: Figures) -> bool:
    return figures.number("at_100") < _THINNEST * _CENTISTOKE


def _grows_thin(figures: Figures) -> bool:
    return figures.has("viscosity") and figures.number("viscosity") < _THINNEST * _CENTISTOKE


def _is_between_grades(figures: Figures) -> bool:
    return figures.value("grade") == "none"


_INDEX = Source(
    author="ASTM",
    title="D2270, Calculating Viscosity Index from Kinematic Viscosity at 40 and 100 degC",
    year="edition not seen",
    clause="5.1.4 and 6.1.4, calculation examples",
    standing=Standing.SEEN,
    note="Read in a public copy.",
)
_WALTHER = Source(
    author="ASTM",
    title="D341, Viscosity-Temperature Charts for Liquid Petroleum Products",
    year="edition not seen",
    clause="equation of the simple form, worked in a public document",
    standing=Standing.SEEN,
)

SHEET = Sheet(
    id="oil-viscosity",
    title="Viscosity, index and grade of an oil",
    tells="How thick an oil is in the running machine, and which grade of today stands nearest.",
    equation=oil_viscosity,
    formula=(
        "log10(log10(v + 0.7)) = A - B log10(T), v in mm2/s, T in kelvin, through both points",
        "index, up to 100: 100 (L - U) / (L - H), U = at_40, L and H by at_100",
        "index, from 100: (10^N - 1) / 0.00715 + 100, N = (log H - log U) / log at_100",
        "grade: at_40 within a tenth of the middle of an ISO viscosity grade",
    ),
    sources=(_WALTHER, *_table().cited()),
    limits=(
        Limit(
            result="viscosity",
            side=Side.AT_LEAST,
            against="least",
            meaning="the least viscosity that bearing or pump needs at that temperature",
        ),
    ),
    cautions=(
        Caution(
            text="Under 2 mm2/s at 100 degC the viscosity index is not defined: none is given.",
            when=_is_thin,
        ),
        Caution(
            text="Under 2 mm2/s the simple equation no longer holds: the figure is a rough one.",
            when=_grows_thin,
        ),
        Caution(
            text="The oil falls between the ISO grades: it may be an engine or gear oil, whose SAE "
            "numbers are not ISO grades, or two oils mixed.",
            when=_is_between_grades,
        ),
        Caution(
            text="Under its cloud or pour point an oil is no liquid of this kind, and thickened "
            "multigrade oils thin further in a tight gap. Outside the two measured points the "
            "line is carried on."
        ),
        Caution(
            text="Like viscosity is not like oil. Grease blocks oil ways, wicks and rings; soaps "
            "may bleed when mixed; yellow metals dislike some additives; steam cylinder oil is a "
            "family of its own. Common practice, no source."
        ),
        Caution(
            text="Kinematic, not dynamic: cP divided by the density in g/cm3 gives cSt. A "
            "viscosity is commonly 1 in 100 off, one read from a chart 2 to 3."
        ),
    ),
    examples=(
        Example(
            title="Procedure A of the standard",
            given={"at_40": "73.30 cSt", "at_100": "8.86 cSt", "temperature": "60 degC"},
            printed={"index": Printed(value="92.43", ours="92.426", tolerance="0.02")},
            source=_INDEX,
            note="To be reported as 92. The temperature is ours.",
        ),
        Example(
            title="Procedure B of the standard",
            given={"at_40": "22.83 cSt", "at_100": "5.05 cSt"},
            printed={"index": Printed(value="156.37", ours="156.46", tolerance="0.15")},
            source=_INDEX,
            note=(
                "To be reported as 156. The standard reads H = 28.97 in its table, the fit gives "
                "28.98."
            ),
        ),
        Example(
            title="32 mm2/s at 40 degC, told for 80 degC",
            given={"at_40": "32 cSt", "at_100": "5.4 cSt", "temperature": "80 degC"},
            printed={"viscosity": Printed(value="8.5 cSt", ours="8.53 cSt", tolerance="0.05 cSt")},
            source=_WALTHER,
            note="Printed with 273 for 273.15; the difference does not show.",
        ),
    ),
)
