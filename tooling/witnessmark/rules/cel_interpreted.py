"""The pure Python CEL engine (cel-python) behind the interface of `cel`.

It lacks the functions of the `strings` and `lists` extensions, faults a decimal compared with null
and adds numbers of two kinds, so it is lent ours here, which answer as the specification says.
"""

from __future__ import annotations

import operator
import re
from typing import TYPE_CHECKING, Any, cast

from celpy import Environment
from celpy.adapter import json_to_cel
from celpy.celparser import CELParseError
from celpy.celtypes import BoolType, DoubleType, IntType, ListType, MapType, StringType
from celpy.evaluation import CELEvalError

from witnessmark.rules.cel import ExpressionFault, column_of, first_line, no_answer

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from celpy import Runner
    from celpy.celtypes import Value
    from celpy.evaluation import CELFunction, Context, Result

_FAILURES = (CELEvalError, ArithmeticError, LookupError, TypeError, ValueError, re.error)


class Interpreted:
    """cel-python: slower by about a hundred times, runs wherever Python does."""

    name = "cel-python"

    def __init__(self) -> None:
        self._environment = Environment()

    def bind(self, context: Mapping[str, object]) -> object:
        """The record's variables in cel-python's own types."""
        return {name: json_to_cel(cast("Any", value)) for name, value in context.items()}

    def compile(self, expression: str, *, names: frozenset[str]) -> Callable[[object], object]:
        """A step that gives the expression's value as plain Python."""
        del names  # cel-python looks a variable up only when it runs
        try:
            tree = self._environment.compile(expression)
        except CELParseError as error:
            column = column_of(expression, line=error.line or 1, column=error.column or 1)
            raise ExpressionFault(first_line(str(error.args[0])), column) from None
        return _step(expression, self._environment.program(tree, functions=_LENT))


def _step(expression: str, program: Runner) -> Callable[[object], object]:
    def step(activation: object) -> object:
        try:
            return _plain(program.evaluate(cast("Context", activation)))
        except _FAILURES as error:
            raise no_answer(expression, str(error.args[0] if error.args else error)) from None

    return step


def _plain(value: object) -> object:
    """The Python value itself: cel-python has subclasses of its own, its bool a kind of int."""
    if isinstance(value, BoolType):
        return bool(value)
    kinds: tuple[Callable[[Any], object], ...] = (str, int, float, list, dict)
    for kind in kinds:
        if isinstance(value, cast("type", kind)):
            return kind(value)
    return value


def _is_equal(one: object, other: object) -> bool:
    """Equality of any two values, numbers by what they count (langdef, "Equality")."""
    if isinstance(one, ListType) and isinstance(other, ListType):
        return len(one) == len(other) and all(map(_is_equal, one, other))
    if isinstance(one, MapType) and isinstance(other, MapType):
        return one.keys() == other.keys() and all(_is_equal(one[k], other[k]) for k in one)
    if isinstance(one, BoolType) is not isinstance(other, BoolType):
        return False
    kinds: tuple[type, ...] = (int, float, str)
    for kind in kinds:
        one = kind(one) if isinstance(one, kind) else one
        other = kind(other) if isinstance(other, kind) else other
    return one == other


def _equal(one: Result, other: Result) -> Result:
    return _first_error(one, other) or BoolType(_is_equal(one, other))


def _unequal(one: Result, other: Result) -> Result:
    return _first_error(one, other) or BoolType(not _is_equal(one, other))


def _in(sought: Result, holder: Result) -> Result:
    held = cast("list[Value]", holder)
    return _first_error(sought, holder) or BoolType(any(_is_equal(sought, one) for one in held))


def _first_error(*values: Result) -> CELEvalError | None:
    """cel-python hands errors on as values; the first of them is the answer."""
    return next((value for value in values if isinstance(value, CELEvalError)), None)


def _of_one_kind(operation: Callable[[Any, Any], Any]) -> CELFunction:
    """Arithmetic that takes two whole numbers or two decimals (langdef, "Numeric Values")."""

    def apply(one: Result, other: Result) -> Result:
        kinds = {type(one), type(other)}
        if kinds == {IntType, DoubleType}:
            raise TypeError("no matching overload: a whole number and a decimal")
        return cast("Result", operation(one, other))

    return apply


def _string(value: Value) -> Value:
    """A text, whole number or truth spelled CEL's way; decimals: see `cel_functions`."""
    if isinstance(value, BoolType):
        return StringType("true" if value else "false")
    return StringType(str(value))


def _texts(*, of: Value) -> list[str]:
    found = list(cast("ListType", of))
    if not all(isinstance(text, str) for text in found):  # a sum of two is a plain str
        raise TypeError("this function takes a list of texts")
    return [str(text) for text in found]


def _distinct(found: Value) -> Value:
    kept: list[Value] = []
    for value in cast("ListType", found):
        if value not in kept:
            kept.append(value)
    return ListType(kept)


def _flatten(found: Value) -> Value:
    lists = cast("list[list[Value]]", found)
    return ListType([value for inner in lists for value in inner])


def _split(text: Value, between: Value) -> Value:
    pieces = str(text).split(str(between)) if str(between) else list(str(text))
    return ListType([StringType(piece) for piece in pieces])


def _letters(change: Callable[[bytes], bytes]) -> CELFunction:
    """A change of ASCII letters alone: bytes.lower and bytes.upper leave all others as they are."""
    return lambda text: StringType(change(str(text).encode()).decode())


_LENT: dict[str, CELFunction] = {
    "_==_": _equal,
    "_!=_": _unequal,
    "_in_": _in,
    "_+_": _of_one_kind(operator.add),
    "_-_": _of_one_kind(operator.sub),
    "_*_": _of_one_kind(operator.mul),
    "_/_": _of_one_kind(operator.truediv),
    "lowerAscii": _letters(bytes.lower),
    "upperAscii": _letters(bytes.upper),
    "trim": lambda text: StringType(str(text).strip()),
    "replace": lambda text, old, new: StringType(str(text).replace(str(old), str(new))),
    "split": _split,
    "join": lambda texts, between: StringType(str(between).join(_texts(of=texts))),
    "distinct": _distinct,
    "sort": lambda found: ListType(sorted(cast("list[Any]", found))),
    "flatten": _flatten,
    "string": _string,
}
