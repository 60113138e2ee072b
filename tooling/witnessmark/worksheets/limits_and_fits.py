"""What a hole class and a shaft class allow, and how the two sit together: ISO 286.

Looked up in the standard's tables. The formula behind them rounds otherwise in about half of the
cells, so it is not used.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, NamedTuple

from witnessmark.worksheets import iso_286
from witnessmark.worksheets.declare import (
    Caution,
    Designation,
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

_MM, _UM = Fraction(1, 1000), Fraction(1, 1_000_000)


class Fit(NamedTuple):
    """The limits of both parts, and the most and least clearance between them."""

    hole_upper: Annotated[Number, Gives(unit="um", meaning="upper deviation of the hole, ES")]
    hole_lower: Annotated[Number, Gives(unit="um", meaning="lower deviation of the hole, EI")]
    shaft_upper: Annotated[Number, Gives(unit="um", meaning="upper deviation of the shaft, es")]
    shaft_lower: Annotated[Number, Gives(unit="um", meaning="lower deviation of the shaft, ei")]
    clearance_max: Annotated[
        Number, Gives(unit="um", meaning="most clearance, on diameter; under 0 is interference")
    ]
    clearance_min: Annotated[
        Number, Gives(unit="um", meaning="least clearance, on diameter; under 0 is interference")
    ]
    fit: Annotated[
        str, Gives(unit="", meaning="clearance, transition or interference, by the limits alone")
    ]
    hole_largest: Annotated[Number, Gives(unit="mm", meaning="largest size of the hole")]
    hole_smallest: Annotated[Number, Gives(unit="mm", meaning="smallest size of the hole")]
    shaft_largest: Annotated[Number, Gives(unit="mm", meaning="largest size of the shaft")]
    shaft_smallest: Annotated[Number, Gives(unit="mm", meaning="smallest size of the shaft")]


def limits_and_fits(
    *,
    size: Annotated[
        Number,
        Input(
            unit="mm",
            meaning="nominal size, the same for both parts",
            above="0",
            refuse_high="500",
            exact="A nominal size is exact: write it alone, and measured sizes in another sheet.",
        ),
    ],
    hole: Annotated[
        str,
        Designation(
            meaning="tolerance class of the hole", pattern=r"[A-Za-z]{1,2}\d{1,2}", like="H7"
        ),
    ],
    shaft: Annotated[
        str,
        Designation(
            meaning="tolerance class of the shaft", pattern=r"[A-Za-z]{1,2}\d{1,2}", like="p6"
        ),
    ],
) -> Fit:
    """Give the limits of a hole and a shaft class at a nominal size, and the fit they make."""
    nominal = Fraction(size)
    hole_upper, hole_lower = iso_286.hole_deviations(hole, size=nominal / _MM)
    shaft_upper, shaft_lower = iso_286.shaft_deviations(shaft, size=nominal / _MM)
    clearance_max, clearance_min = hole_upper - shaft_lower, hole_lower - shaft_upper
    return Fit(
        hole_upper=hole_upper * _UM,
        hole_lower=hole_lower * _UM,
        shaft_upper=shaft_upper * _UM,
        shaft_lower=shaft_lower * _UM,
        clearance_max=clearance_max * _UM,
        clearance_min=clearance_min * _UM,
        fit=_kind_of_fit(most=clearance_max, least=clearance_min),
        hole_largest=nominal + hole_upper * _UM,
        hole_smallest=nominal + hole_lower * _UM,
        shaft_largest=nominal + shaft_upper * _UM,
        shaft_smallest=nominal + shaft_lower * _UM,
    )


def _kind_of_fit(*, most: Fraction, least: Fraction) -> str:
    if least >= 0:
        return "clearance"
    return "interference" if most <= 0 else "transition"


def _is_not_hole_basis(figures: Figures) -> bool:
    return figures.number("hole_lower") != 0 and figures.number("shaft_upper") != 0


def _presses(figures: Figures) -> bool:
    return figures.number("clearance_min") < 0


_BHANDARI = Source(
    author="Bhandari",
    title="Design of Machine Elements",
    year="edition not seen",
    clause="examples 3.1 and 3.3",
    standing=Standing.SEEN,
    note="Read as a public worked copy with its output, not in the book.",
)
_JINDAL = Source(
    author="Jindal",
    title="Machine Design",
    year="edition not seen",
    clause="examples 4-1 and 4-2",
    standing=Standing.SEEN,
    note="Read as a public worked copy with its output, not in the book.",
)
_TABLES = Source(
    author="ISO",
    title="ISO 286-2, Tables of standard tolerance classes and limit deviations",
    year="2010",
    clause="the classes named",
    standing=Standing.FROM_MEMORY,
    note="A public table program, read as a second opinion, gives the same.",
)


def _um(value: str) -> Printed:
    return Printed(value=f"{value} um", ours=f"{value} um", tolerance="0.5 um")


def _mm(value: str) -> Printed:
    return Printed(value=f"{value} mm", ours=f"{value} mm", tolerance="0.0005 mm")


def _wrong(value: str, *, ours: str) -> Printed:
    return Printed(value=value, ours=ours, tolerance="0.0005 mm", is_wrong=True)


SHEET = Sheet(
    id="limits-and-fits",
    title="Limits and fits of a hole and a shaft",
    tells="What sizes a drawing's tolerance classes allow, and how loose or tight the parts sit.",
    equation=limits_and_fits,
    formula=(
        "deviations looked up in the tables of ISO 286-1, by size step and class",
        "clearance_max = hole_upper - shaft_lower",
        "clearance_min = hole_lower - shaft_upper",
    ),
    sources=iso_286.sources(),
    cautions=(
        Caution(
            text=(
                "Neither part is on its basis, H or h: check that the two classes belong together."
            ),
            when=_is_not_hole_basis,
        ),
        Caution(
            text=(
                "The parts may press: reckon the pressure with the interference-fit sheet, and ask "
                "whether the next people can draw them apart again."
            ),
            when=_presses,
        ),
        Caution(
            text=(
                "These are the limits of new parts. A worn part measured against them says how far "
                "it has worn, not how far it may wear."
            )
        ),
        Caution(
            text=(
                "A class says nothing of roundness, taper or surface. Measure at three places and "
                "on two axes, at 20 degC."
            )
        ),
        Caution(
            text=(
                "js is plus and minus half the tolerance, as ISO 286-1:2010 has it; the edition of "
                "1988 rounded odd tolerances of grades 7 to 11 down to the even figure. Drawings "
                "before ISO 286 may follow another system (ISA, BS 164, Newall): read their own "
                "table."
            )
        ),
    ),
    examples=(
        Example(
            title="Press fit 50 H7/p6",
            given={"size": "50 mm", "hole": "H7", "shaft": "p6"},
            printed={
                "hole_upper": _um("25"),
                "hole_lower": _um("0"),
                "shaft_upper": _um("42"),
                "shaft_lower": _um("26"),
                "clearance_max": _um("-1"),
                "clearance_min": _um("-42"),
            },
            source=_TABLES,
        ),
        Example(
            title="Running fit 25 H8/f7",
            given={"size": "25 mm", "hole": "H8", "shaft": "f7"},
            printed={
                "hole_upper": _um("33"),
                "shaft_upper": _um("-20"),
                "shaft_lower": _um("-41"),
                "clearance_max": _um("74"),
                "clearance_min": _um("20"),
            },
            source=_TABLES,
        ),
        Example(
            title="Sliding fit 40 H7/g6",
            given={"size": "40 mm", "hole": "H7", "shaft": "g6"},
            printed={"clearance_max": _um("50"), "clearance_min": _um("9")},
            source=_TABLES,
        ),
        Example(
            title="Bush on a crankpin, 20 H6/e7",
            given={"size": "20 mm", "hole": "H6", "shaft": "e7"},
            printed={
                "hole_largest": _mm("20.013"),
                "shaft_largest": _mm("19.960"),
                "shaft_smallest": _mm("19.939"),
                "clearance_max": _mm("0.074"),
                "clearance_min": _mm("0.040"),
            },
            source=_BHANDARI,
        ),
        Example(
            title="Hub on a shaft, 50 H7/s6",
            given={"size": "50 mm", "hole": "H7", "shaft": "s6"},
            printed={
                "hole_largest": _mm("50.025"),
                "shaft_largest": _mm("50.059"),
                "shaft_smallest": _mm("50.043"),
                "clearance_max": _mm("-0.018"),
                "clearance_min": _mm("-0.059"),
            },
            source=_BHANDARI,
        ),
        Example(
            title="Interference of 25 H7/r6",
            given={"size": "25 mm", "hole": "H7", "shaft": "r6"},
            printed={"clearance_max": _mm("-0.007"), "clearance_min": _mm("-0.041")},
            source=_JINDAL,
            note="The book gives the deviations; the class they belong to is our reading.",
        ),
        Example(
            title="Running fit 70 H8/g7, as misprinted",
            given={"size": "70 mm", "hole": "H8", "shaft": "g7"},
            printed={
                "hole_largest": _wrong("70.013 mm", ours="70.046 mm"),
                "clearance_min": _mm("0.010"),
                "clearance_max": _wrong("0.031 mm", ours="0.086 mm"),
            },
            source=_JINDAL,
            note=(
                "The worked copy derives the tolerance by formula with a whole-number cube root "
                "and a wrong factor; the tables give IT8 = 46 and IT7 = 30 at 70 mm."
            ),
        ),
    ),
)
