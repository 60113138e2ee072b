"""Quantities as a workshop writes them: `31 kN`, `65.02 ± 0.01 mm`, `1 1/2 in`, `-20 degC`.

Values are kept as written (exact decimals) and converted only by exact fractions, so a record
never changes meaning by being read. What cannot be read in one way only is refused, with the
choices named.
"""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from witnessmark.model.unit_words import SAME_WORD, SPELLINGS, TWO_MEANINGS
from witnessmark.model.units import UNITS, Unit

__all__ = [
    "MeasureOfUse",
    "Quantity",
    "QuantityFault",
    "convert",
    "convert_band",
    "find_unit",
    "parse_quantity",
    "parse_use",
]

# Enough for any measurement; more is a slip of the keyboard, or an attempt to tie up the reader.
_LONGEST_NUMBER = 30
_NUMBER = re.compile(
    r"(?P<sign>[+-]?)(?:(?:(?P<whole>\d+)[ -])?(?P<top>\d+)/(?P<bottom>\d+)"
    r"|(?P<decimal>(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][+-]?[0-2]?\d)?))(?![\d.,/]| ?\d{3}\b)",
    re.ASCII,
)
_THREAD_WORD = re.compile(r"\b(BSW|BSF|BSP|BA|UNC|UNF|UNEF|UN)\b|^M\d", re.ASCII)
_USE_WORD = re.compile(r"(?P<quantity>.*?)(?: (?P<of>[a-z][a-z-]*))?", re.ASCII)


class QuantityFault(ValueError):  # noqa: N818 - the record is at fault, not the program
    """A quantity that cannot be read in one way only; `fix` says what would put it right."""

    def __init__(self, message: str, *, fix: str) -> None:
        super().__init__(f"{message} {fix}")
        self.message = message
        self.fix = fix


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """A number with its unit, as written; `plus_minus` is the stated band in the same unit."""

    value: Decimal
    unit: Unit
    plus_minus: Decimal | None
    written: str

    @property
    def in_base(self) -> Fraction:
        """The value in base units (SI; turns for angles), exactly."""
        return self.unit.to_base(Fraction(self.value))

    @property
    def band_in_base(self) -> Fraction | None:
        """The stated band in base units, exactly; a band has no zero point, so no offset."""
        return None if self.plus_minus is None else Fraction(self.plus_minus) * self.unit.factor


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasureOfUse:
    """How much of what kind of use, such as 200 h of running; `of` is empty where none is said."""

    quantity: Quantity
    of: str
    written: str


@lru_cache(maxsize=512)  # a part's mass is read when it is checked, laid out and shown to rules
def parse_quantity(text: str) -> Quantity:
    """Give the quantity that the text states.

    Raises QuantityFault where it states none, or more than one.

    >>> parse_quantity("65.02 ± 0.01 mm").plus_minus
    Decimal('0.01')
    """
    left, sign, right = _tidy(text).partition("±")
    value, symbol = _number_and_symbol(left, written=text)
    band, band_symbol = _number_and_symbol(right, written=text) if sign else (None, "")
    if band_symbol == "%" and not symbol:
        raise QuantityFault(
            f"'{text}' may mean a share of the value or percentage points.",
            fix="Write both with a unit, as in '50 % ± 5 %', or both as plain numbers.",
        )
    unit = _unit(symbol or band_symbol, text)
    _refuse_below_absolute_zero(value, unit=unit, written=text)
    if band is None:
        return Quantity(value=value, unit=unit, plus_minus=None, written=text)
    band_unit = _unit(band_symbol, text) if band_symbol else unit
    plus_minus = _band(band, band_unit=band_unit, value=value, unit=unit, written=text)
    return Quantity(value=value, unit=unit, plus_minus=plus_minus, written=text)


def parse_use(text: str) -> MeasureOfUse:
    """Give a measure of use: a quantity, then one plain word for what is counted.

    >>> parse_use("200 h running").of
    'running'
    """
    found = _USE_WORD.fullmatch(_tidy(text))
    word = found["of"] if found else None
    if found is None or word is None or word in UNITS or word in SAME_WORD or word in TWO_MEANINGS:
        return MeasureOfUse(quantity=parse_quantity(text), of="", written=text)
    return MeasureOfUse(quantity=parse_quantity(found["quantity"]), of=word, written=text)


def convert(quantity: Quantity, unit: Unit | str) -> Fraction:
    """Give the value in another unit, exactly.

    >>> convert(parse_quantity("1 in"), "mm")
    Fraction(127, 5)
    """
    return _matching(quantity, unit).from_base(quantity.in_base)


def convert_band(quantity: Quantity, unit: Unit | str) -> Fraction | None:
    """Give the stated band in another unit, exactly; None where none is stated."""
    band = quantity.band_in_base
    return None if band is None else band / _matching(quantity, unit).factor


def find_unit(symbol: str) -> Unit:
    """Give the unit of that symbol; refuse words that mean two things, and name the choices."""
    known = SPELLINGS.get(symbol, symbol)
    if known in UNITS:
        return UNITS[known]
    word = SAME_WORD.get(symbol.lower(), symbol.lower())
    if word in TWO_MEANINGS:
        why, choices = TWO_MEANINGS[word]
        raise QuantityFault(
            f"'{symbol}' can be read in more than one way: {why}.",
            fix=f"Write {_one_of(choices)}.",
        )
    raise QuantityFault(f"'{symbol}' is not a unit known here.", fix=_nearest_unit(symbol))


def _unit(symbol: str, written: str) -> Unit:
    if _THREAD_WORD.search(symbol):
        raise QuantityFault(
            f"'{written}' is a thread, and a measured quantity is wanted.",
            fix="Write a number and a unit, as in '16 mm'.",
        )
    try:
        return find_unit(symbol or "1")
    except QuantityFault as fault:
        raise QuantityFault(f"In '{written}', {fault.message}", fix=fault.fix) from None


def _refuse_below_absolute_zero(value: Decimal, *, unit: Unit, written: str) -> None:
    # Kelvins may also state a difference, so only the scales with a zero point are held to it.
    if unit.offset and unit.to_base(Fraction(value)) < 0:
        raise QuantityFault(
            f"'{written}' lies under absolute zero.", fix="Check the number and the scale."
        )


def _tidy(text: str) -> str:
    spaced = " ".join(text.split())
    return spaced.replace("\N{MINUS SIGN}", "-").replace("+/-", "±").replace("+-", "±")


def _number_and_symbol(text: str, *, written: str) -> tuple[Decimal, str]:
    found = _NUMBER.match(text.strip())
    if found is None or len(found[0]) > _LONGEST_NUMBER:
        raise QuantityFault(
            f"'{written}' does not start with a number that can be read.", fix=_number_fix(text)
        )
    return _as_decimal(found, written=written), text.strip()[found.end() :].strip()


def _number_fix(text: str) -> str:
    if re.search(r"\d[, ]\d", text):
        return "Write a point for the decimals and nothing between thousands, as in '1250.5 mm'."
    return "Write a number and a unit, as in '31 kN', '65.02 ± 0.01 mm' or '1/2 in'."


def _as_decimal(found: re.Match[str], *, written: str) -> Decimal:
    if found["decimal"]:
        return Decimal(found[0])
    if not int(found["bottom"]):
        raise QuantityFault(f"'{written}' divides by zero.", fix="Correct the lower number.")
    size = int(found["whole"] or 0) + Fraction(int(found["top"]), int(found["bottom"]))
    return _exact(-size if found["sign"] == "-" else size, written=written)


def _exact(value: Fraction, *, written: str) -> Decimal:
    """Give the fraction as a decimal of as many places as it needs."""
    rest, places = value.denominator, 0
    for prime in (2, 5):
        power = 0
        while rest % prime == 0:
            rest, power = rest // prime, power + 1
        places = max(places, power)
    if rest != 1:
        raise QuantityFault(
            f"'{written}' holds a fraction that no decimal states exactly.",
            fix="Write it as a decimal, with a ± where the rounding matters.",
        )
    return Decimal(f"{value.numerator * 10**places // value.denominator}e-{places}")


def _band(band: Decimal, *, band_unit: Unit, value: Decimal, unit: Unit, written: str) -> Decimal:
    if band < 0:
        raise QuantityFault(
            f"'{written}' states a band under zero.", fix="Write the half-width after the ±."
        )
    if band_unit.symbol == "%" and unit.symbol != "%":
        return _exact(abs(Fraction(value) * Fraction(band)) / 100, written=written)
    if band_unit.dimension != unit.dimension:
        raise QuantityFault(
            f"In '{written}', the value is {_a(unit)} and the band {_a(band_unit)}.",
            fix=f"Write the band in {unit.symbol} too.",
        )
    return _exact(Fraction(band) * band_unit.factor / unit.factor, written=written)


def _matching(quantity: Quantity, unit: Unit | str) -> Unit:
    wanted = find_unit(unit) if isinstance(unit, str) else unit
    if wanted.dimension == quantity.unit.dimension:
        return wanted
    raise QuantityFault(
        f"'{quantity.written}' is {_a(quantity.unit)}, and {_a(wanted)} is wanted.",
        fix=f"Write it in {wanted.symbol}.",
    )


def _nearest_unit(symbol: str) -> str:
    same = sorted(name for name in UNITS if name.lower() == symbol.lower())
    near = same or difflib.get_close_matches(symbol, UNITS, n=2, cutoff=0.75)
    if len(near) == 1:
        return f"Did you mean {near[0]}?"
    return "Write one of the known units, such as mm, kN, MPa, bar, h, degC, in, lbf or psi."


def _a(unit: Unit) -> str:
    return f"{'an' if unit.kind[0] in 'aeiou' else 'a'} {unit.kind}"


def _one_of(choices: tuple[str, ...]) -> str:
    return f"'{choices[0]}'" if len(choices) == 1 else f"{', '.join(choices[:-1])} or {choices[-1]}"
