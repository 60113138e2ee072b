"""A day written in another way than YYYY-MM-DD: every way in which it can be read."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from enum import StrEnum

MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
)  # fmt: skip
SHORTEST = 3
_YEAR_FIRST = re.compile(r"([0-9]{4})[-/. ]([0-9]{1,2})[-/. ]([0-9]{1,2})")
_RUN_TOGETHER = re.compile(r"([0-9]{4})([0-9]{2})([0-9]{2})")
_YEAR_LAST = re.compile(r"([0-9]{1,2})([-/. ])([0-9]{1,2})\2([0-9]{4})")
_DAY_MONTH = re.compile(r"([0-9]{1,2})(?:st|nd|rd|th)?\.?[ -]([a-z]+)\.?,?[ -]([0-9]{4})")
_MONTH_DAY = re.compile(r"([a-z]+)\.? ([0-9]{1,2})(?:st|nd|rd|th)?,? ([0-9]{4})")


class Order(StrEnum):
    """Which of two numbers before a year is the day, where a house has settled it."""

    DAY_FIRST = "day-first"
    MONTH_FIRST = "month-first"


def day_readings(written: str, *, order: Order | None = None) -> frozenset[date]:
    """Every day the text may stand for; two-digit years stand for none that is sure.

    Year, month, day with four digits first is read in that order alone (ISO 8601-1:2019). Of two
    numbers before the year either may be the day, unless the house has settled the order.

    >>> sorted(map(str, day_readings("3/2/2024"))), sorted(map(str, day_readings("13/2/2024")))
    (['2024-02-03', '2024-03-02'], ['2024-02-13'])
    """
    text = " ".join(written.lower().split())
    found = (_day(*parts) for parts in _parts(text, order))
    return frozenset(day for day in found if day)


def _parts(text: str, order: Order | None) -> Iterator[tuple[int, int, int]]:
    """Year, month and day, once for each reading."""
    if match := _YEAR_FIRST.fullmatch(text) or _RUN_TOGETHER.fullmatch(text):
        yield int(match[1]), int(match[2]), int(match[3])
    elif match := _YEAR_LAST.fullmatch(text):
        first, second, year = int(match[1]), int(match[3]), int(match[4])
        if order is not Order.MONTH_FIRST:
            yield year, second, first
        if order is not Order.DAY_FIRST:
            yield year, first, second
    elif match := _DAY_MONTH.fullmatch(text):
        yield int(match[3]), _month(match[2]), int(match[1])
    elif match := _MONTH_DAY.fullmatch(text):
        yield int(match[3]), _month(match[1]), int(match[2])


def _month(word: str) -> int:
    """The number of a month by its English name or the start of it; 0 for any other word."""
    found = [number for number, name in enumerate(MONTHS, 1) if name.startswith(word)]
    is_sept = word == "sept"
    return found[0] if len(found) == 1 and (len(word) >= SHORTEST or is_sept) else 0


def _day(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None
