"""Bars cut into pieces, each with its own pattern: shared by the figures about metal."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from witnessmark.publish.figures.figure import WIDTH, units

BAR_END = WIDTH - 2
MOST_SQUARES = 20  # up to so many pieces each is drawn by itself
TALL = 20
_LEAST = 2.0  # a part of the whole, however small, can be seen
_SLIT = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """All rectangles of one pattern in a bar; `amount` is what they stand for."""

    pattern: str
    path: str
    amount: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """One bar with what stands before and under it."""

    letter: str
    y: int
    pieces: tuple[Piece, ...]
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """One entry of the key: the pattern and what it stands for."""

    pattern: str
    words: str
    x: int
    y: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Bars:
    """Every bar, and the key above them."""

    keys: tuple[Key, ...]
    bars: tuple[Bar, ...]
    left: int


def pieces_of(amounts: Mapping[str, Fraction], *, whole: Fraction, left: int) -> tuple[Piece, ...]:
    """The rectangles of one bar, in the order given; `whole` is what the full width stands for."""
    shown = {pattern: value for pattern, value in amounts.items() if value}
    if not shown or not whole:
        return ()
    singly = whole <= MOST_SQUARES and all(value.denominator == 1 for value in shown.values())
    unit = (BAR_END - left) / float(whole)
    found, x = [], float(left)
    for pattern, value in shown.items():
        count, size = (int(value), unit) if singly else (1, float(value) * unit)
        wide = max(size, _LEAST + _SLIT)
        path = "".join(_rectangle(x + wide * n, wide - _SLIT) for n in range(count))
        found.append(Piece(pattern=pattern, path=path, amount=value))
        x += wide * count
    return tuple(found)


def _rectangle(x: float, width: float) -> str:
    return f"M{units(x)} 0h{units(width)}v{TALL}h-{units(width)}z"


def keys_of(words: Sequence[tuple[str, str]]) -> tuple[Key, ...]:
    """The key, one entry a line."""
    return tuple(
        Key(pattern=pattern, words=text, x=0, y=16 * place)
        for place, (pattern, text) in enumerate(words)
    )
