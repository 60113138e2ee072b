"""What calls, sums and places in a list give at sight: the few that rules ask of many records.

Source: the CEL specification (github.com/google/cel-spec, doc/langdef.md), "List of Standard
Definitions", and the `strings` and `lists` extensions of its implementations.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

NOT_KNOWN: Final = object()
"""The answer of whatever only the engine can tell."""

Record = Mapping[str, object]
Sight = Callable[[Record], object]

LONGEST: Final = 1000
"""Longer lists go to the engine, which bounds its own work at ten thousand steps."""

_MOST_DIGITS = 15
_LARGEST = 10**15
"""Sums of such whole numbers are far from where the engine's 64 bits run over."""


def called(name: str, target: Sight | None, arguments: tuple[Sight, ...]) -> Sight | None:
    """What gives the value of a call; None where every such call is left to the engine."""
    if target is None and len(arguments) == 1 and name in _GLOBALS:
        return _of_one(arguments[0], _GLOBALS[name])
    if target is not None and not arguments and name == "distinct":
        return _of_one(target, _distinct)
    if target is not None and len(arguments) == 1 and name == "split":
        return _of_two(target, arguments[0], _split)
    return None


def summed(sign: str, left: Sight, right: Sight) -> Sight:
    """Two texts joined, or two whole numbers added or taken one from the other."""
    return _of_two(left, right, _plus if sign == "+" else _minus)


def placed(owner: Sight, at: Sight) -> Sight:
    """What stands at a place of a list, counted from 0."""
    return _of_two(owner, at, _member)


def _of_one(given: Sight, told: Callable[[object], object]) -> Sight:
    return lambda record: told(given(record))


def _of_two(left: Sight, right: Sight, told: Callable[[object, object], object]) -> Sight:
    return lambda record: told(left(record), right(record))


def _size(value: object) -> object:
    return len(value) if isinstance(value, list | str) else NOT_KNOWN


def _int(value: object) -> object:
    """A short text of digits only; signs, blanks and decimals are the engine's to read."""
    if type(value) is not str or len(value) > _MOST_DIGITS:
        return NOT_KNOWN
    return int(value) if value.isascii() and value.isdigit() else NOT_KNOWN


def _string(value: object) -> object:
    return str(value) if type(value) is int or type(value) is str else NOT_KNOWN


def _distinct(value: object) -> object:
    """Each text of a list once; whether values of other kinds are alike, the engine tells."""
    if type(value) is not list or not all(type(row) is str for row in value):
        return NOT_KNOWN
    return list(dict.fromkeys(value))


def _split(text: object, by: object) -> object:
    if type(text) is not str or type(by) is not str or not by:
        return NOT_KNOWN
    parts = text.split(by)
    return parts if len(parts) <= LONGEST else NOT_KNOWN


def _plus(one: object, other: object) -> object:
    if type(one) is str and type(other) is str:
        return one + other
    if type(one) is int and type(other) is int and _are_small(one, other):
        return one + other
    return NOT_KNOWN


def _minus(one: object, other: object) -> object:
    if type(one) is int and type(other) is int and _are_small(one, other):
        return one - other
    return NOT_KNOWN


def _are_small(one: int, other: int) -> bool:
    return abs(one) <= _LARGEST and abs(other) <= _LARGEST


def _member(rows: object, at: object) -> object:
    if type(rows) is not list or type(at) is not int:
        return NOT_KNOWN
    return rows[at] if 0 <= at < len(rows) else NOT_KNOWN


_GLOBALS: Mapping[str, Callable[[object], object]] = {
    "size": _size,
    "int": _int,
    "string": _string,
}
