"""Plain words of YAML to values: the YAML 1.2 core schema, narrowed to what every reader agrees on.

Source: YAML 1.2.2 (2021-10-01), section 10.3.2, core schema tag resolution. Narrower on purpose:
octal, hexadecimal, a leading plus, a bare point and `.inf` are not numbers here.
"""

from __future__ import annotations

import re
from decimal import Decimal

Scalar = str | int | Decimal | bool | None

WORDS: dict[str, bool | None] = {
    **dict.fromkeys(("true", "True", "TRUE"), True),
    **dict.fromkeys(("false", "False", "FALSE"), False),
    **dict.fromkeys(("null", "Null", "NULL", "~", ""), None),
}
# YAML 1.1 (2005), type repository, bool: the words that older readers turn into true and false.
YES_NO_WORDS = frozenset(("yes", "no", "on", "off", "y", "n"))
# YAML 1.2.2, 10.3.2: spelt with any case here, since no spelling of them is wanted.
NOT_NUMBERS = frozenset((".nan", ".inf", "+.inf", "-.inf"))
DOUBTFUL = YES_NO_WORDS | NOT_NUMBERS
LONGEST_DOUBTFUL = 5

NUMBER_STARTS = frozenset("-0123456789")
_NUMBER = re.compile(r"-?(0|[1-9][0-9]*)(?:(\.[0-9]+)?(?:[eE]([-+]?[0-9]+))?)")
# 18 digits fit every reader's 64-bit integer; 34 digits and 308 are the reach of IEEE 754-2008
# decimal128 digits and of binary64 exponents, so that no reader of the archive overflows.
_MOST_WHOLE_DIGITS = 18
_MOST_DIGITS = 34
_MOST_EXPONENT = 308


class OutOfReachError(ValueError):
    """A number too long or too large to be kept as written by every reader."""


def number(text: str) -> str | int | Decimal:
    """The number as written, or the text where it is not written as one.

    >>> number("1.50"), number("012"), number("-7")
    (Decimal('1.50'), '012', -7)

    Raises:
        OutOfReachError: there are too many digits, or the exponent is too large.

    """
    match = _NUMBER.fullmatch(text)
    if match is None:
        return text
    whole, part, exponent = match.groups()
    if part is None and exponent is None:
        return int(text) if len(whole) <= _MOST_WHOLE_DIGITS else _refuse(text)
    digits = len(whole) + len(part or "")
    power = int(exponent) if len(exponent or "") <= _MOST_DIGITS and exponent else 0
    if digits > _MOST_DIGITS or len(exponent or "") > _MOST_DIGITS or abs(power) > _MOST_EXPONENT:
        return _refuse(text)
    return Decimal(text)


def plain(text: str) -> Scalar:
    """The value of an unquoted word.

    >>> plain("true"), plain("~"), plain("1:30"), plain("40")
    (True, None, '1:30', 40)

    Raises:
        OutOfReachError: it is a number that cannot be kept as written.

    """
    if text[:1] in NUMBER_STARTS:
        return number(text)
    return WORDS.get(text, text)


def _refuse(text: str) -> int:
    raise OutOfReachError(text)
