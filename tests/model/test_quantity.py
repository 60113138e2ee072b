"""The unit table against pint and the published factors; what the reader takes and refuses."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.model.quantity import (
    QuantityFault,
    convert,
    convert_band,
    find_unit,
    parse_quantity,
    parse_use,
)
from witnessmark.model.unit_words import SAME_WORD, SPELLINGS, TWO_MEANINGS
from witnessmark.model.units import UNITS

# How pint 0.25 writes each unit whose symbol it reads otherwise, or not at all. Dots are products.
PINT_WRITES = {
    "1": "dimensionless",
    "%": "percent",
    "in": "inch",
    "yd": "yard",
    "um": "micrometer",
    "m2": "meter**2",
    "cm2": "centimeter**2",
    "mm2": "millimeter**2",
    "in2": "inch**2",
    "ft2": "foot**2",
    "m3": "meter**3",
    "cm3": "centimeter**3",
    "in3": "inch**3",
    "ft3": "foot**3",
    "uk-gallon": "imperial_gallon",
    "us-gallon": "US_liquid_gallon",
    "uk-pint": "imperial_pint",
    "us-pint": "US_pint",
    "uk-cwt": "UK_hundredweight",
    "us-cwt": "US_hundredweight",
    "long-ton": "long_ton",
    "short-ton": "short_ton",
    "tonne": "metric_ton",
    "h": "hour",
    "min": "minute",
    "million rev": "1e6 * turn",
    "1/min": "1/minute",
    "1/h": "1/hour",
    "m/min": "meter/minute",
    "km/h": "kilometer/hour",
    "mm/h": "millimeter/hour",
    "ft/min": "foot/minute",
    "m/s2": "meter/second**2",
    "long-tonf": "UK_ton_force",
    "short-tonf": "US_ton_force",
    "N/mm2": "newton/millimeter**2",
    "kgf/cm2": "kgf/centimeter**2",
    "long-tonf/in2": "UK_ton_force/inch**2",
    "N m": "newton*meter",
    "kN m": "kilonewton*meter",
    "ft lbf": "foot*lbf",
    "in lbf": "inch*lbf",
    "kgf m": "kgf*meter",
    "hp": "horsepower",
    "PS": "metric_horsepower",
    "lbf/in": "lbf/inch",
    "lbf/ft": "lbf/foot",
    "lb/ft": "lb/foot",
    "lb/ft3": "lb/foot**3",
    "m2/s": "meter**2/second",
    "mm2/s": "millimeter**2/second",
    "Pa s": "pascal*second",
    "mPa s": "millipascal*second",
    "cP": "centipoise",
    "MPa m/s": "megapascal*meter/second",
    "psi ft/min": "psi*foot/minute",
    "litre/min": "liter/minute",
    "m3/h": "meter**3/hour",
    "uk-gallon/min": "imperial_gallon/minute",
    "us-gallon/min": "US_liquid_gallon/minute",
    "kg/m3": "kilogram/meter**3",
}
# The base unit of each of our seven base dimensions, as pint writes it, in the order of Dimension.
PINT_BASES = ("meter", "kilogram", "second", "kelvin", "ampere", "turn")
SCALES_WITH_A_ZERO_POINT = {"degC", "degF"}
PROVED_ELSEWHERE = SCALES_WITH_A_ZERO_POINT | {"dB"}

REGISTRY: pint.UnitRegistry[Decimal] = pint.UnitRegistry(non_int_type=Decimal)


def base_of(symbol: str) -> str:
    powers = UNITS[symbol].dimension[: len(PINT_BASES)]
    return " * ".join(f"{base}**{power}" for base, power in zip(PINT_BASES, powers, strict=True))


@pytest.mark.parametrize("symbol", sorted(UNITS.keys() - PROVED_ELSEWHERE))
def test_every_unit_has_the_size_and_dimension_that_pint_gives_it(symbol: str) -> None:
    theirs = REGISTRY.parse_expression(PINT_WRITES.get(symbol, symbol)).to(base_of(symbol))
    # pint works with 28 digits; ours are exact, so they agree to that and no further.
    assert float(UNITS[symbol].factor) == pytest.approx(float(theirs.magnitude), rel=1e-15)


@pytest.mark.parametrize("written", ["-40", "0", "20", "100", "37.5"])
@pytest.mark.parametrize(
    ("symbol", "theirs"), [("degC", "degree_Celsius"), ("degF", "degree_Fahrenheit")]
)
def test_temperatures_agree_with_pint(written: str, symbol: str, theirs: str) -> None:
    expected = pint.UnitRegistry().Quantity(float(written), theirs).to("kelvin").magnitude
    assert expected == pytest.approx(float(convert(parse_quantity(f"{written} {symbol}"), "K")))


# NIST SP 811 (2008), appendix B.8, the factors printed bold there as exact; from memory.
@pytest.mark.parametrize(
    ("written", "symbol", "exact"),
    [
        ("1 in", "mm", "25.4"),
        ("1 ft", "m", "0.3048"),
        ("1 thou", "um", "25.4"),
        ("1 mile", "m", "1609.344"),
        ("1 lb", "kg", "0.45359237"),
        ("1 kgf", "N", "9.80665"),
        ("1 lbf", "N", "4.4482216152605"),
        ("1 long-ton", "kg", "1016.0469088"),
        ("1 short-ton", "kg", "907.18474"),
        ("1 uk-cwt", "kg", "50.80234544"),
        ("1 us-cwt", "kg", "45.359237"),
        ("1 uk-gallon", "litre", "4.54609"),
        ("1 us-gallon", "litre", "3.785411784"),
        ("1 bar", "kPa", "100"),
        ("1 atm", "Pa", "101325"),
        ("1 cSt", "mm2/s", "1"),
        ("32 degF", "degC", "0"),
        ("0 degC", "K", "273.15"),
        ("1 h", "s", "3600"),
        ("1 turn", "deg", "360"),
    ],
)
def test_factors_fixed_by_definition_are_exact(written: str, symbol: str, exact: str) -> None:
    assert Fraction(exact) == convert(parse_quantity(written), symbol)


@pytest.mark.parametrize(
    ("text", "value", "symbol", "band"),
    [
        ("31 kN", "31", "kN", None),
        ("31kN", "31", "kN", None),
        ("65.02 ± 0.01 mm", "65.02", "mm", "0.01"),
        ("65.02 +/- 0.01 mm", "65.02", "mm", "0.01"),
        ("65.02 mm ± 10 um", "65.02", "mm", "0.01"),
        ("100 bar ± 2 %", "100", "bar", "2"),
        ("20 degC ± 2 K", "20", "degC", "2"),
        ("-20 degC", "-20", "degC", None),
        ("\N{MINUS SIGN}20 °C", "-20", "degC", None),
        ("1/2 in", "0.5", "in", None),
        ("1 1/2 in", "1.5", "in", None),
        ("-1-1/2 in", "-1.5", "in", None),
        ("  4.5\N{NO-BREAK SPACE}mm ", "4.5", "mm", None),
        ("1e-3 m", "0.001", "m", None),
        (".5 mm", "0.5", "mm", None),
        ("3 N m", "3", "N m", None),
        ("12 1/min", "12", "1/min", None),
        ("0.15", "0.15", "1", None),
    ],
)
def test_a_quantity_is_read_as_written(
    text: str, value: str, symbol: str, band: str | None
) -> None:
    quantity = parse_quantity(text)
    expected = (Decimal(value), symbol, None if band is None else Decimal(band), text)
    assert expected == (
        quantity.value,
        quantity.unit.symbol,
        quantity.plus_minus,
        quantity.written,
    )


def test_the_digits_a_measurement_was_written_with_are_kept() -> None:
    expected = "65.00"
    assert expected == str(parse_quantity("65.00 mm").value)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("3 ton", "long-ton, short-ton or tonne"),
        ("3 tons", "long-ton, short-ton or tonne"),
        ("3 t", "tonne, long-ton or short-ton"),
        ("2 cwt", "uk-cwt or us-cwt"),
        ("5 mil", "thou, mm or deg"),
        ("1 gallon", "uk-gallon, us-gallon or litre"),
        ("2 pt", "uk-pint, us-pint or litre"),
        ("30 ft lb", "ft lbf or N m"),
        ("5 lbs", "lb or lbf"),
        ("5 degrees", "deg, degC or degF"),
        ('5/8"', "'in'"),
        ("4 MPA", "Did you mean MPa?"),
        ("4 furlongs", "one of the known units"),
        ("65,02 mm", "a point for the decimals"),
        ("1 000 mm", "nothing between thousands"),
        ("1,000 mm", "nothing between thousands"),
        ("1/3 in", "as a decimal"),
        ("1 in ± 1 mm", "as a decimal"),
        ("1/0 in", "Correct the lower number"),
        ("5/8 BSW", "is a thread"),
        ("3/4-10 UNC", "is a thread"),
        ("200 h running", "known units"),
        ("0.5 ± 10 %", "percentage points"),
        ("10 mm ± 1 N", "the value is a length and the band a force"),
        ("10 ± -1 mm", "half-width"),
        ("-274 degC", "absolute zero"),
        ("-460 degF ± 1 degF", "absolute zero"),
        ("", "a number and a unit"),
        ("mm", "a number and a unit"),
        ("nan mm", "a number and a unit"),
        ("inf mm", "a number and a unit"),
        ("1.2.3 mm", "a number and a unit"),
        ("1e999999999 mm", "known units"),
        ("1" * 31 + " mm", "a number and a unit"),
        ("\N{ARABIC-INDIC DIGIT THREE} mm", "a number and a unit"),
        ("5 ± 1 ± 2 mm", "known units"),
    ],
)
def test_what_cannot_be_read_in_one_way_is_refused_with_a_remedy(text: str, says: str) -> None:
    with pytest.raises(QuantityFault) as caught:
        parse_quantity(text)
    assert says in str(caught.value)


def test_a_refusal_never_says_invalid_and_always_quotes_what_was_written() -> None:
    with pytest.raises(QuantityFault) as caught:
        parse_quantity("3 ton")
    assert "'3 ton'" in caught.value.message
    assert "invalid" not in str(caught.value)


def test_a_mismatch_names_both_kinds_and_the_unit_to_write() -> None:
    with pytest.raises(QuantityFault) as caught:
        convert(parse_quantity("31 kN"), "mm")
    expected = ("'31 kN' is a force, and a length is wanted.", "Write it in mm.")
    assert expected == (caught.value.message, caught.value.fix)


def test_an_angle_is_not_a_plain_number() -> None:
    with pytest.raises(QuantityFault, match="is an angle, and a plain number is wanted"):
        convert(parse_quantity("30 deg"), "1")


def test_a_band_in_fahrenheit_has_no_zero_point() -> None:
    assert Fraction(5, 9) == convert_band(parse_quantity("50 ± 1 degF"), "K")


def test_a_sound_level_converts_to_nothing_else() -> None:
    alike = [name for name, unit in UNITS.items() if unit.dimension == UNITS["dB"].dimension]
    assert ["dB"] == alike


def test_no_word_with_two_meanings_is_also_a_unit() -> None:
    assert set() == (TWO_MEANINGS.keys() | SAME_WORD.keys()) & (UNITS.keys() | SPELLINGS.keys())


def test_every_choice_offered_for_a_word_with_two_meanings_is_a_unit() -> None:
    offered = {choice for _, choices in TWO_MEANINGS.values() for choice in choices}
    assert offered <= UNITS.keys()
    assert set(SAME_WORD.values()) <= TWO_MEANINGS.keys()


def test_other_spellings_lead_to_units() -> None:
    assert set(SPELLINGS.values()) <= UNITS.keys()


@pytest.mark.parametrize(
    ("text", "of", "hours"),
    [("200 h running", "running", 200), ("200 h", "", 200), ("2 day in-steam", "in-steam", 48)],
)
def test_a_measure_of_use_keeps_its_word_apart(text: str, of: str, hours: int) -> None:
    use = parse_use(text)
    assert (of, Fraction(hours)) == (use.of, convert(use.quantity, "h"))


@pytest.mark.parametrize("text", ["3 ton", "2 gallon", "running"])
def test_a_unit_with_two_meanings_is_not_taken_for_a_word_of_use(text: str) -> None:
    with pytest.raises(QuantityFault):
        parse_use(text)


DECIMALS = st.decimals(
    allow_nan=False, allow_infinity=False, min_value=0, max_value=10**6, places=4
)
SYMBOLS = st.sampled_from(sorted(UNITS))


@given(value=DECIMALS, band=DECIMALS, symbol=SYMBOLS)
def test_what_is_written_is_what_is_read(value: Decimal, band: Decimal, symbol: str) -> None:
    quantity = (
        parse_quantity(f"{value} ± {band} {symbol}")
        if symbol != "%"
        else parse_quantity(f"{value} % ± {band} %")
    )
    assert (value, band, symbol) == (quantity.value, quantity.plus_minus, quantity.unit.symbol)


@given(value=DECIMALS, symbol=SYMBOLS, data=st.data())
def test_there_and_back_is_the_same_value_exactly(
    value: Decimal, symbol: str, data: st.DataObject
) -> None:
    start = find_unit(symbol)
    alike = sorted(name for name, unit in UNITS.items() if unit.dimension == start.dimension)
    other = find_unit(data.draw(st.sampled_from(alike)))
    there = convert(parse_quantity(f"{value} {symbol}"), other)
    assert Fraction(value) == start.from_base(other.to_base(there))


@given(text=st.text(max_size=40) | st.from_regex(r"[-+]?[0-9./e ±-]{1,12} ?(mm|in|degC|%|t)?"))
def test_any_text_gives_a_finite_quantity_or_a_refusal_with_a_remedy(text: str) -> None:
    try:
        told = str(parse_quantity(text).value.is_finite())
    except QuantityFault as fault:
        told = fault.fix
    assert told not in ("", "False")
