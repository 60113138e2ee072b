"""Gauge and absolute pressure, and the words by which the gas sheets tell them apart."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, TypeAlias

from witnessmark.worksheets.declare import Choice, Figures, Number, Source, Standing

# Standard atmosphere, 101 325 Pa: exact (10th CGPM, 1954). A day's weather moves it by 3 in 100.
ATMOSPHERE = Fraction(101325)

PressureKind: TypeAlias = Annotated[
    str,
    Choice(
        meaning="what the pressure is counted from",
        words={
            "absolute": "from vacuum",
            "gauge": "from the air outside, as a gauge on the valve reads",
        },
    ),
]

NITROGEN = Source(
    author="Span, Lemmon, Jacobsen, Wagner and Yokozeki",
    title="A Reference Equation of State for the Thermodynamic Properties of Nitrogen",
    year="2000",
    clause="J. Phys. Chem. Ref. Data 29(6), 1361-1433",
    standing=Standing.SEEN,
    note="Coefficients read as quoted in a public program; the paper itself was not opened.",
)

VESSEL_CAUTION = (
    "A gas strut or accumulator is a pressure vessel: only a competent person charges or opens it, "
    "under the examination scheme that local law asks for (in Great Britain the Pressure Systems "
    "Safety Regulations 2000). Never weld, heat or drill it. Let gas off through the valve only, "
    "outdoors."
)
GAS_CAUTION = (
    "The figures are for dry nitrogen. Never charge with oxygen, or with air where there is oil."
)


def absolute(pressure: Number, *, kind: str) -> Number:
    """Give the pressure from vacuum, in Pa."""
    return pressure + ATMOSPHERE if kind == "gauge" else pressure


def allowed_from_vacuum(figures: Figures) -> Number | None:
    """Give the allowed pressure from vacuum, counted as the pressure is; None where none is."""
    if not figures.has("allowed"):
        return None
    return absolute(figures.number("allowed"), kind=str(figures.value("pressure_kind")))
