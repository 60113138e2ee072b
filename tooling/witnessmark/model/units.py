"""The closed table of units a museum may write, each with an exact factor to its base unit.

Old workshop units stand beside SI under names that mean one thing only (`long-ton`, `uk-cwt`,
`thou`). Base units are SI, with two exceptions that keep every factor a fraction: angles count in
turns (so `rpm` is exactly 1/60 turn a second), and sound levels count in decibels as they stand.

Exact factors: NIST SP 811 (2008), appendix B.8, and BIPM, The International System of Units, 9th
edition (2019), tables 4, 7 and 8, from memory; the tests prove the whole table against pint.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple


class Dimension(NamedTuple):
    """Powers of the base units, in the order the fields stand."""

    length: int = 0
    mass: int = 0
    time: int = 0
    temperature: int = 0
    current: int = 0
    turn: int = 0
    level: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """One way of writing a kind of quantity: base value = (value + offset) * factor."""

    symbol: str
    kind: str
    dimension: Dimension
    factor: Fraction
    offset: Fraction = Fraction(0)

    def to_base(self, value: Fraction) -> Fraction:
        """Give the value in base units, exactly."""
        return (value + self.offset if self.offset else value) * self.factor

    def from_base(self, value: Fraction) -> Fraction:
        """Give a value in base units as written in this unit, exactly."""
        given = value / self.factor
        return given - self.offset if self.offset else given


# The international yard and pound, 1959: exact (NIST SP 811, B.6 and footnotes of B.8).
_INCH = Fraction("0.0254")
_POUND = Fraction("0.45359237")
# Standard acceleration of gravity, 3rd CGPM (1901): exact.
_G0 = Fraction("9.80665")
_FOOT = 12 * _INCH
_LBF = _POUND * _G0
_PSI = _LBF / _INCH**2
_LONG_TON = 2240 * _POUND
_SHORT_TON = 2000 * _POUND
# UK gallon: exact by statute (Weights and Measures Act 1985). US gallon: 231 cubic inches.
_UK_GALLON = Fraction("0.00454609")
_US_GALLON = 231 * _INCH**3
_LITRE = Fraction(1, 1000)
_MINUTE = Fraction(60)
_HOUR = Fraction(3600)
_KELVIN = Fraction(1)
_FAHRENHEIT = Fraction(5, 9)

_Row = tuple[str, Dimension, dict[str, Fraction | int | str]]

_FORCE = Dimension(length=1, mass=1, time=-2)
_PRESSURE = Dimension(length=-1, mass=1, time=-2)
_TORQUE = Dimension(length=2, mass=1, time=-2)
_POWER = Dimension(length=2, mass=1, time=-3)

_TABLE: tuple[_Row, ...] = (
    ("plain number", Dimension(), {"1": 1, "%": "0.01", "ppm": "1e-6"}),
    (
        "length",
        Dimension(length=1),
        {
            "m": 1,
            "km": 1000,
            "cm": "0.01",
            "mm": "0.001",
            "um": "1e-6",
            "in": _INCH,
            "ft": _FOOT,
            "yd": 3 * _FOOT,
            "mile": 5280 * _FOOT,
            "thou": _INCH / 1000,
        },
    ),
    (
        "area",
        Dimension(length=2),
        {"m2": 1, "cm2": "1e-4", "mm2": "1e-6", "in2": _INCH**2, "ft2": _FOOT**2},
    ),
    (
        "volume",
        Dimension(length=3),
        {
            "m3": 1,
            "cm3": "1e-6",
            "litre": _LITRE,
            "ml": "1e-6",
            "in3": _INCH**3,
            "ft3": _FOOT**3,
            "uk-gallon": _UK_GALLON,
            "us-gallon": _US_GALLON,
            "uk-pint": _UK_GALLON / 8,
            "us-pint": _US_GALLON / 8,
        },
    ),
    (
        "mass",
        Dimension(mass=1),
        {
            "kg": 1,
            "g": "0.001",
            "tonne": 1000,
            "lb": _POUND,
            "oz": _POUND / 16,
            "stone": 14 * _POUND,
            "uk-cwt": 112 * _POUND,
            "us-cwt": 100 * _POUND,
            "long-ton": _LONG_TON,
            "short-ton": _SHORT_TON,
        },
    ),
    (
        "length of time",
        Dimension(time=1),
        {"s": 1, "min": _MINUTE, "h": _HOUR, "day": 24 * _HOUR},
    ),
    ("temperature", Dimension(temperature=1), {"K": _KELVIN}),
    ("angle", Dimension(turn=1), {"turn": 1, "deg": Fraction(1, 360), "million rev": 10**6}),
    ("turning speed", Dimension(turn=1, time=-1), {"rpm": 1 / _MINUTE}),
    ("frequency", Dimension(time=-1), {"Hz": 1, "1/min": 1 / _MINUTE, "1/h": 1 / _HOUR}),
    (
        "speed",
        Dimension(length=1, time=-1),
        {
            "m/s": 1,
            "m/min": 1 / _MINUTE,
            "km/h": Fraction(1000, 3600),
            "mm/h": Fraction(1, 1000) / _HOUR,
            "ft/min": _FOOT / _MINUTE,
            "mph": 5280 * _FOOT / _HOUR,
        },
    ),
    ("acceleration", Dimension(length=1, time=-2), {"m/s2": 1}),
    (
        "force",
        _FORCE,
        {
            "N": 1,
            "kN": 1000,
            "MN": 10**6,
            "lbf": _LBF,
            "kgf": _G0,
            "long-tonf": _LONG_TON * _G0,
            "short-tonf": _SHORT_TON * _G0,
        },
    ),
    (
        "pressure or stress",
        _PRESSURE,
        {
            "Pa": 1,
            "kPa": 1000,
            "MPa": 10**6,
            "GPa": 10**9,
            "N/mm2": 10**6,
            "bar": 10**5,
            "mbar": 100,
            "atm": 101325,
            "psi": _PSI,
            "kgf/cm2": _G0 * 10**4,
            "long-tonf/in2": 2240 * _PSI,
        },
    ),
    (
        "torque",
        _TORQUE,
        {"N m": 1, "kN m": 1000, "ft lbf": _FOOT * _LBF, "in lbf": _INCH * _LBF, "kgf m": _G0},
    ),
    ("energy", _TORQUE, {"J": 1, "kJ": 1000, "MJ": 10**6, "kWh": 3600 * 1000}),
    # Mechanical horsepower: 550 ft lbf a second. Metric (PS): 75 kgf m a second.
    ("power", _POWER, {"W": 1, "kW": 1000, "hp": 550 * _FOOT * _LBF, "PS": 75 * _G0}),
    (
        "force along a length",
        Dimension(mass=1, time=-2),
        {"N/m": 1, "kN/m": 1000, "N/mm": 1000, "lbf/in": _LBF / _INCH, "lbf/ft": _LBF / _FOOT},
    ),
    ("mass along a length", Dimension(length=-1, mass=1), {"kg/m": 1, "lb/ft": _POUND / _FOOT}),
    ("density", Dimension(length=-3, mass=1), {"kg/m3": 1, "lb/ft3": _POUND / _FOOT**3}),
    (
        "kinematic viscosity",
        Dimension(length=2, time=-1),
        {"m2/s": 1, "mm2/s": "1e-6", "cSt": "1e-6"},
    ),
    (
        "dynamic viscosity",
        Dimension(length=-1, mass=1, time=-1),
        {"Pa s": 1, "mPa s": "0.001", "cP": "0.001"},
    ),
    (
        "pressure times speed",
        Dimension(mass=1, time=-3),
        {"MPa m/s": 10**6, "psi ft/min": _PSI * _FOOT / _MINUTE},
    ),
    (
        "flow",
        Dimension(length=3, time=-1),
        {
            "litre/min": _LITRE / _MINUTE,
            "m3/h": 1 / _HOUR,
            "uk-gallon/min": _UK_GALLON / _MINUTE,
            "us-gallon/min": _US_GALLON / _MINUTE,
        },
    ),
    ("expansion", Dimension(temperature=-1), {"1/K": 1}),
    ("voltage", Dimension(length=2, mass=1, time=-3, current=-1), {"V": 1, "mV": "0.001"}),
    ("sound level", Dimension(level=1), {"dB": 1}),
)

# Zero points: 0 degC = 273.15 K, 0 degF = 459.67 degrees Rankine (NIST SP 811, B.8): exact.
_OFFSET_UNITS = (
    Unit(
        symbol="degC",
        kind="temperature",
        dimension=Dimension(temperature=1),
        factor=_KELVIN,
        offset=Fraction("273.15"),
    ),
    Unit(
        symbol="degF",
        kind="temperature",
        dimension=Dimension(temperature=1),
        factor=_FAHRENHEIT,
        offset=Fraction("459.67"),
    ),
)

UNITS: dict[str, Unit] = {
    symbol: Unit(symbol=symbol, kind=kind, dimension=dimension, factor=Fraction(factor))
    for kind, dimension, rows in _TABLE
    for symbol, factor in rows.items()
} | {unit.symbol: unit for unit in _OFFSET_UNITS}
