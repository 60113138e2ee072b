"""Weights and names as a reader meets them: simple parts in words, else whole hundredths."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Final

from witnessmark.weighing.verdict import in_a_hundred

SIMPLE: Final = {
    Fraction(1, 4): "a quarter",
    Fraction(1, 3): "a third",
    Fraction(1, 2): "half",
    Fraction(2, 3): "two thirds",
    Fraction(3, 4): "three quarters",
}

MOST_NAMED: Final = 3
"""So many names a sentence holds before it is hard to read (the museum's own rule, no source)."""


def part_of_weight(weight: Fraction) -> str:
    """Give a weight between none and all in words, never rounded to either.

    >>> [part_of_weight(Fraction(*pair)) for pair in ((1, 3), (2, 5), (3, 29), (1, 900))]
    ['a third', '40%', 'about 10%', '1%']
    """
    if weight in SIMPLE:
        return SIMPLE[weight]
    hundreds = weight * 100
    rounded = min(99, max(1, int(hundreds + Fraction(1, 2))))
    is_near = 1 <= hundreds <= 99  # noqa: PLR2004 - hundredths
    return f"about {rounded}%" if is_near and rounded != hundreds else f"{rounded}%"


def weight_shifted(moved: Fraction) -> str:
    """Give how much weight moves before two options tie; past that, one of them is ahead.

    >>> weight_shifted(Fraction(1, 10)), weight_shifted(Fraction(1, 15))
    ('more than 10 in 100', 'about 7 in 100')
    """
    amount = in_a_hundred(moved)
    if (moved * 100).denominator == 1:
        return f"more than {amount}"
    return amount if amount.startswith(("under", "over")) else f"about {amount}"


def named(names: Sequence[str], *, last: str = "and") -> str:
    """Give names in a row, the first few and how many more.

    >>> named(["A", "B", "C", "D", "E"]), named(["A", "B"], last="or")
    ('A, B, C and 2 others', 'A or B')
    """
    shown = list(names)
    if len(shown) > MOST_NAMED + 1:
        shown = [*shown[:MOST_NAMED], f"{len(shown) - MOST_NAMED} others"]
    return f"{', '.join(shown[:-1])} {last} {shown[-1]}" if len(shown) > 1 else "".join(shown)
