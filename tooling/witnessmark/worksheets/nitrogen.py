"""Nitrogen as it is: pressure, density and entropy where the ideal gas law no longer holds.

Helmholtz energy form: with delta = density / 313.3 and tau = 126.192 K / T, every property is a
derivative of one sum of 36 published terms (tables/nitrogen-equation.yml). Temperatures in K,
densities in kg/m3, pressures in Pa; entropy in multiples of the gas constant, from a zero of ours.

Source: Span, Lemmon, Jacobsen, Wagner and Yokozeki, 2000 (see the table), good to 2200 MPa.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from functools import cache, lru_cache
from typing import NamedTuple

from witnessmark.model.fields import Exact, Written
from witnessmark.worksheets.gas_pressure import ATMOSPHERE
from witnessmark.worksheets.table_reading import WrittenTable, read_table

# The same source: critical point, molar mass and gas constant as the equation was fitted with.
CRITICAL_TEMPERATURE = 126.192
_CRITICAL_DENSITY = 11.1839 * 28.01348
_GAS_CONSTANT = 8.31451 / 0.02801348
MOST_PRESSURE = 2.2e9
# The same source, ideal part: the powers of tau and the one vibration of the molecule.
_POWERS = ((-1, -1.934819e-4), (-2, -1.247742e-5), (-3, 6.678326e-8))
_VIBRATION, _VIBRATION_TAU = 1.012941, 26.65788
# Over the density at 2200 MPa and any temperature above the critical one.
_DENSEST = 1500.0
_HOTTEST = 3000.0


class _WrittenTerm(Written):
    factor: Exact
    delta: Exact
    tau: Exact
    decay: Exact | None = None
    alpha: Exact | None = None
    beta: Exact | None = None
    gamma: Exact | None = None


class _WrittenEquation(WrittenTable):
    terms: tuple[_WrittenTerm, ...]


class _Term(NamedTuple):
    n: float
    d: float
    t: float
    c: float
    a: float
    b: float
    g: float


class _Part(NamedTuple):
    """One term at a state: its value, and how many times over it changes with delta and tau."""

    value: float
    by_delta: float
    by_tau: float


def pressure(density: float, *, temperature: float) -> float:
    """Give the pressure of nitrogen of that density and temperature."""
    delta = density / _CRITICAL_DENSITY
    away = delta - 1
    departure = 0.0
    for weight, d, c, a in _weighted_terms(CRITICAL_TEMPERATURE / temperature):
        power = delta**c if c else 0.0
        by_delta = d - c * power - 2 * a * delta * away
        departure += weight * delta**d * math.exp(-power - a * away**2) * by_delta
    return density * _GAS_CONSTANT * temperature * (1 + departure)


def density(pressure_: float, *, temperature: float) -> float:
    """Give the density of nitrogen at that pressure, above the critical temperature.

    Raises ValueError under it, where a stated band may reach and one pressure has two densities.
    """
    if temperature <= CRITICAL_TEMPERATURE:
        raise ValueError("nitrogen may be a liquid there")
    return _root(lambda rho: pressure(rho, temperature=temperature) - pressure_, high=_DENSEST)


def let_out(volume: float, *, pressure_: float, temperature: float) -> float:
    """Give the room that the content of a vessel takes at one atmosphere, no warmer or colder."""
    inside = density(pressure_, temperature=temperature)
    return volume * inside / density(float(ATMOSPHERE), temperature=temperature)


def entropy(density_: float, *, temperature: float) -> float:
    """Give the entropy in multiples of the gas constant; only differences mean anything."""
    delta, tau = density_ / _CRITICAL_DENSITY, CRITICAL_TEMPERATURE / temperature
    residual = sum(part.value * (part.by_tau - 1) for part in _parts(delta, tau=tau))
    powers = sum((power - 1) * factor * tau**power for power, factor in _POWERS)
    x = _VIBRATION_TAU * tau
    vibration = _VIBRATION * (x / math.expm1(x) - math.log1p(-math.exp(-x)))
    return -math.log(delta) - 2.5 * math.log(tau) + powers + vibration + residual


def temperature_after(density_: float, *, entropy_: float) -> float:
    """Give the temperature of nitrogen of that density and entropy."""
    return _root(lambda t: entropy(density_, temperature=t) - entropy_, high=_HOTTEST, low=60.0)


@cache  # the terms are part of the program and never change while we run
def _terms() -> tuple[_Term, ...]:
    table = read_table("nitrogen-equation", kind=_WrittenEquation)
    return tuple(_Term(*(float(value or 0) for value in _numbers(x))) for x in table.terms)


def _numbers(term: _WrittenTerm) -> tuple[Exact | None, ...]:
    powers = (term.factor, term.delta, term.tau, term.decay)
    return (*powers, term.alpha, term.beta, term.gamma)


@lru_cache(maxsize=64)  # the search for a density asks at one temperature some sixty times
def _weighted_terms(tau: float) -> tuple[tuple[float, float, float, float], ...]:
    """What of each term does not change with density, worked out; then its powers and decay."""
    return tuple(
        (n * tau**t * math.exp(-b * (tau - g) ** 2), d, c, a) for n, d, t, c, a, b, g in _terms()
    )


def _parts(delta: float, *, tau: float) -> Iterator[_Part]:
    for n, d, t, c, a, b, g in _terms():
        away, apart = delta - 1, tau - g
        power = delta**c if c else 0.0
        yield _Part(
            value=n * delta**d * tau**t * math.exp(-power - a * away**2 - b * apart**2),
            by_delta=d - c * power - 2 * a * delta * away,
            by_tau=t - 2 * b * tau * apart,
        )


def _root(rising: Callable[[float], float], *, high: float, low: float = 0.0) -> float:
    """Give where a rising function passes zero, by halving until floats can go no further."""
    while low < (middle := (low + high) / 2) < high:
        if rising(middle) < 0:
            low = middle
        else:
            high = middle
    return middle
