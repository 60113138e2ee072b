"""The equation of state of nitrogen, against published tables and a reference library."""

from __future__ import annotations

import pytest
from CoolProp.CoolProp import PropsSI

from witnessmark.worksheets import nitrogen

TEMPERATURES = [253.15, 273.15, 293.15, 313.15, 333.15]
PRESSURES = [1, 5, 10, 50, 100, 150, 200, 250, 300, 350, 400]


# Span et al. 2000, tables of single-phase properties, as quoted point by point in a public program.
@pytest.mark.parametrize(
    ("kelvin", "megapascal", "mol_per_litre"),
    [(350, 20, 6.3552), (1000, 2, 0.23889)],
)
def test_the_published_tables_are_met_to_their_last_digit(
    kelvin: float, megapascal: float, mol_per_litre: float
) -> None:
    ours = nitrogen.density(megapascal * 1e6, temperature=kelvin) / 28.01348
    assert mol_per_litre == pytest.approx(ours, rel=2e-5)


def test_the_published_dense_liquid_is_met_from_its_density() -> None:
    # The same tables: 31.793 mol/dm3 at 100 K and 100 MPa; the last digit is worth 0.1 MPa.
    ours = nitrogen.pressure(31.793 * 28.01348, temperature=100)
    assert 100e6 == pytest.approx(ours, rel=1e-3)


@pytest.mark.parametrize("kelvin", TEMPERATURES)
@pytest.mark.parametrize("bar", PRESSURES)
def test_density_is_that_of_the_reference_library(bar: int, kelvin: float) -> None:
    expected = PropsSI("D", "T", kelvin, "P", bar * 1e5, "Nitrogen")
    assert expected == pytest.approx(nitrogen.density(bar * 1e5, temperature=kelvin), rel=1e-6)


@pytest.mark.parametrize("kelvin", TEMPERATURES)
@pytest.mark.parametrize("bar", PRESSURES)
def test_entropy_changes_as_in_the_reference_library(bar: int, kelvin: float) -> None:
    expected = PropsSI("S", "T", kelvin, "P", bar * 1e5, "Nitrogen") - PropsSI(
        "S", "T", 293.15, "P", 1e5, "Nitrogen"
    )
    ours = nitrogen.entropy(
        nitrogen.density(bar * 1e5, temperature=kelvin), temperature=kelvin
    ) - nitrogen.entropy(nitrogen.density(1e5, temperature=293.15), temperature=293.15)
    assert expected / 296.8 == pytest.approx(ours, rel=1e-4, abs=1e-5)


@pytest.mark.parametrize("kelvin", TEMPERATURES)
def test_pressure_and_density_turn_back_into_each_other(kelvin: float) -> None:
    there = nitrogen.density(200e5, temperature=kelvin)
    assert 200e5 == pytest.approx(nitrogen.pressure(there, temperature=kelvin), rel=1e-12)


def test_temperature_and_entropy_turn_back_into_each_other() -> None:
    entropy = nitrogen.entropy(218.5, temperature=293.15)
    assert 293.15 == pytest.approx(nitrogen.temperature_after(218.5, entropy_=entropy))


def test_a_thin_gas_is_ideal() -> None:
    # Z = p / (rho R T) goes to 1 as the density goes to 0.
    ours = nitrogen.pressure(1e-3, temperature=293.15) / (1e-3 * 8.31451 / 0.02801348 * 293.15)
    assert 1 == pytest.approx(ours, abs=1e-5)


def test_no_density_is_given_where_nitrogen_may_be_a_liquid() -> None:
    # The critical point of nitrogen, 126.192 K: the same source.
    with pytest.raises(ValueError, match="liquid"):
        nitrogen.density(1e6, temperature=126.192)
