"""Figures, days and grades as people write them by hand."""

from __future__ import annotations

import re
from datetime import date
from fractions import Fraction

from witnessmark.model.quantity import QuantityFault, parse_quantity

_MONTHS = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
]
_GRADE = re.compile(r"([1-4])[\s/\-]*([A-F])|([A-F])[\s/\-]*([1-4])")
_FIGURE = re.compile(r"[0-9]+(?:[.,][0-9]+)*")
_THOUSANDS = re.compile(r"[1-9][0-9]{0,2}[.,][0-9]{3}")
_YEAR_FIRST = re.compile(r"([0-9]{4})[-/. ]([0-9]{1,2})[-/. ]([0-9]{1,2})")
_DAY_FIRST = re.compile(r"([0-9]{1,2})([-/. ]+)([0-9]{1,2})[-/. ]+([0-9]{4})")
_NAMED = re.compile(r"([0-9]{1,2})(?:[snrt][tdh])?[. ]+([a-z]{3,9})[., ]+([0-9]{4})")


class UnclearError(ValueError):
    """Something written by hand that may mean two things or none; the text says what and how."""

    def __init__(self, what: str, fix: str) -> None:
        super().__init__(what)
        self.what = what
        self.fix = fix


def figure(text: str) -> str:
    """A figure with a point as its decimal mark.

    >>> figure("0,74"), figure("1400")
    ('0.74', '1400')

    Raises:
        UnclearError: the mark may be one of thousands, or there are several.
    """
    if _THOUSANDS.fullmatch(text):
        whole, point = re.sub("[.,]", "", text), text.replace(",", ".")
        raise UnclearError(
            f"{text} may be {whole} or {point.rstrip('0').rstrip('.')}.",
            f"Write {whole}, or {point.rstrip('0').rstrip('.')} if that is meant.",
        )
    if len(re.findall("[.,]", text)) > 1:
        raise UnclearError(f"{text} has several marks in it.", "Write it without spaces or dots.")
    return text.replace(",", ".")


def quantity(text: str) -> str:
    """A figure with its unit, decimal points and a plus-minus sign put right.

    Raises:
        UnclearError: it cannot be read as a quantity.
    """
    tidy = re.sub(r"\+\s*/?\s*-", "±", text)
    tidy = _FIGURE.sub(lambda found: figure(found.group()), tidy)
    tidy = re.sub(r"\s*±\s*", " ± ", re.sub(r"([0-9])([a-zA-Z])", r"\1 \2", tidy)).strip()
    if not re.search(r"[^\W\d_]|[%°]", tidy):
        raise UnclearError(f'"{text}" has no unit.', "Write the unit behind it, such as mm or kg.")
    try:
        parse_quantity(tidy)
    except QuantityFault as fault:
        raise UnclearError(
            f'"{text}" is not a figure with a unit: {fault}'.rstrip(".") + ".",
            "Write the figure and the unit, such as 0.74 mm or 0.74 ± 0.01 mm.",
        ) from None
    return tidy


def pair(text: str) -> tuple[str, str]:
    """Two figures, from and to; one alone is both.

    >>> pair("40 - 60 h"), pair("ca. 50")
    (('40', '60'), ('50', '50'))

    Raises:
        UnclearError: there is none, or more than two, or the first is the greater.
    """
    found = [figure(one) for one in _FIGURE.findall(text)]
    if not 0 < len(found) <= len(("from", "to")):
        raise UnclearError(
            f'"{text}" is not one figure or two.', "Write from and to, such as 40 - 60."
        )
    if Fraction(found[0]) > Fraction(found[-1]):
        raise UnclearError(
            f'"{text}" begins with the greater figure.', "Write the smaller one first."
        )
    return found[0], found[-1]


def day(text: str) -> date:
    """A day of the calendar.

    >>> day("11.2.2024"), day("11 Feb 2024")
    (datetime.date(2024, 2, 11), datetime.date(2024, 2, 11))

    Raises:
        UnclearError: it is none, or day and month may be the other way round.
    """
    plain = text.strip().casefold()
    try:
        if found := _YEAR_FIRST.fullmatch(plain):
            return date(*map(int, found.groups()))
        if found := _NAMED.fullmatch(plain):
            return date(int(found[3]), _month(found[2]), int(found[1]))
        if found := _DAY_FIRST.fullmatch(plain):
            return _day_first(text, int(found[1]), int(found[3]), int(found[4]), mark=found[2])
    except ValueError as fault:
        if isinstance(fault, UnclearError):
            raise
    raise UnclearError(f'"{text}" is not a day of the calendar.', "Write it like 2024-02-29.")


def _month(name: str) -> int:
    """The month of a name or its first three letters; 0, which is none, for any other word."""
    return next((n for n, month in enumerate(_MONTHS, 1) if month.startswith(name[:3])), 0)


def _day_first(text: str, first: int, second: int, year: int, *, mark: str) -> date:
    """Dots and spaces put the day first everywhere; strokes do not."""
    either = first <= len(_MONTHS) and second <= len(_MONTHS) and first != second
    if "/" in mark and either:
        one, other = date(year, second, first), date(year, first, second)
        raise UnclearError(f"{text} may be {one} or {other}.", f"Write {one} or {other}.")
    if first <= len(_MONTHS) < second:
        return date(year, first, second)
    return date(year, second, first)


def grade(text: str) -> str:
    """A grade of risk, severity first.

    >>> grade("2c"), grade("C 2")
    ('2C', '2C')

    Raises:
        UnclearError: it is none.
    """
    found = _GRADE.fullmatch(text.strip().upper())
    if found is None:
        raise UnclearError(
            f'"{text}" is not a grade.', "Write how bad, 1 to 4, and how likely, A to F, as in 2C."
        )
    return f"{found[1] or found[4]}{found[2] or found[3]}"


def levels(text: str, *, count: int) -> tuple[str, ...]:
    """So many numbers from 0 to 4.

    Raises:
        UnclearError: there are more or fewer, or one is off the scale.
    """
    found = re.findall(r"[0-9]+(?:[.,][0-9]+)?", re.sub(r"(?<=[0-9]),(?=[0-9](?:\D|$))", " ", text))
    if len(found) != count or any(one not in {"0", "1", "2", "3", "4"} for one in found):
        raise UnclearError(
            f'"{text}" is not {count} whole numbers from 0 to 4.',
            f"Write {count} with blanks between, such as 4 3 4 4 4; 4 is as good as it should be.",
        )
    return tuple(found)
