"""Expressions compiled once, records bound once, and answers that are surely true or false.

The one module that rules reach a CEL library through.

The compiled engine (cel-expr-python) serves wherever it can be imported; elsewhere the pure one
(cel-python) does, about a hundred times slower. Both hand errors back in ways that are easily
taken for an answer: the first returns them as values that Python counts as true, the second as
exceptions of several kinds. Here both become a RuleFault.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import cache
from typing import TYPE_CHECKING, Any, Protocol, cast

from witnessmark.errors import WitnessmarkError
from witnessmark.rules.cel_grammar import parse
from witnessmark.rules.cel_tokens import ExpressionFault
from witnessmark.rules.cel_tree import free_names

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from cel_expr_python import cel as cel_library

__all__ = [
    "Bound",
    "Engine",
    "ExpressionFault",
    "Program",
    "RuleFault",
    "bind",
    "compile",
    "first_engine",
    "second_engine",
]

_LIBRARY_CONFIG = "name: rules\nextensions:\n  - name: strings\n  - name: lists\n"
_PLACE = re.compile(r"ERROR: <input>:(-?\d+):(-?\d+): (.*)")
_STATUS = re.compile(r"^[A-Z_]+: ")


class RuleFault(Exception):  # noqa: N818  the name the design gives it
    """A rule gave no answer, or one of another kind than is due: the rule is wrong."""

    def __init__(self, message: str) -> None:
        super().__init__(message)
        self.message = message


class Engine(Protocol):
    """A CEL library: turns an expression into a step from a bound record to a Python value."""

    name: str

    def compile(self, expression: str, *, names: frozenset[str]) -> Callable[[object], object]:
        """A step that gives the expression's value, and raises RuleFault where there is none."""

    def bind(self, context: Mapping[str, object]) -> object:
        """The record in the engine's own form."""


@dataclass(frozen=True, slots=True)
class Bound:
    """A record ready for any number of rules.

    The engine may read it late: do not change the record while this is in use. What answers take
    in memory is given back only with this: bind each record anew, never one for the whole museum
    (measured on cel-expr-python 0.1.3: up to 60 KB an answer for 40 parts walked twice).
    """

    activation: object = field(repr=False)
    engine: Engine


@dataclass(frozen=True, slots=True, eq=False)
class Program:
    """A compiled expression; it holds no record, so one serves every record of a process."""

    source: str
    engine: Engine
    _step: Callable[[object], object] = field(repr=False)

    def decide(self, bound: Bound) -> bool:
        """Whether the expression is true of the record.

        Raises:
            RuleFault: the expression failed, or gave anything but true or false.

        """
        value = self._step(bound.activation)
        if value is True or value is False:
            return value
        raise RuleFault(f"`{self.source}` gave {_described(value)} where true or false was due")

    def scalar(self, bound: Bound) -> str | int | float | bool:
        """The text, number or truth the expression gives.

        Raises:
            RuleFault: the expression failed, or gave nothing, a list or a map.

        """
        value = self._step(bound.activation)
        if isinstance(value, str | int | float):
            return value
        raise RuleFault(
            f"`{self.source}` gave {_described(value)} where a text or a number was due"
        )


def compile(expression: str, *, engine: Engine | None = None) -> Program:  # noqa: A001  like re
    """The program of an expression; whether its variables have such fields, `check_fields` says.

    Raises:
        ExpressionFault: the expression cannot be read, or compares what can never be compared.

    """
    names = free_names(parse(expression))
    chosen = engine or first_engine()
    return Program(expression, chosen, chosen.compile(expression, names=names))


def bind(context: Mapping[str, object], *, engine: Engine | None = None) -> Bound:
    """The record's variables, bound once for all rules.

    They are JSON-shaped: maps, lists, texts, numbers, true, false and null.
    """
    chosen = engine or first_engine()
    return Bound(chosen.bind(context), chosen)


def _described(value: object) -> str:
    kinds = {
        type(None): "nothing (null)",
        str: "a text",
        int: "a number",
        float: "a number",
        list: "a list",
        dict: "a map",
    }
    return kinds.get(type(value), f"a {type(value).__name__}")


class _Compiled:
    """cel-expr-python, the binding of the C++ implementation."""

    name = "cel-expr-python"

    def __init__(self) -> None:
        from cel_expr_python import cel

        self._cel = cel
        self._environment = cache(self._new_environment)

    def _new_environment(self, names: frozenset[str]) -> cel_library.Env:
        config = self._cel.NewEnvConfigFromYaml(_LIBRARY_CONFIG)
        variables = dict.fromkeys(sorted(names), self._cel.Type.DYN)
        return self._cel.NewEnv(config=config, variables=variables)

    def bind(self, context: Mapping[str, object]) -> object:
        return self._environment(frozenset()).Activation(dict(context))

    def compile(self, expression: str, *, names: frozenset[str]) -> Callable[[object], object]:
        try:
            compiled = self._environment(names).compile(expression)
        except RuntimeError as error:
            raise _compile_fault(expression, str(error)) from None
        return _step(expression, compiled.eval, failed=self._cel.Type.ERROR)


def _step(
    expression: str, evaluate: Callable[[cel_library.Activation], Any], *, failed: object
) -> Callable[[object], object]:
    def step(activation: object) -> object:
        try:
            found = evaluate(cast("cel_library.Activation", activation))
            value: object = found.value()
        except (RuntimeError, TypeError) as error:
            raise no_answer(expression, str(error)) from None
        # A bool is never an error; the type is asked for only where that cheap test cannot tell.
        if value is True or value is False or found.type() != failed:
            return value
        raise no_answer(expression, str(value))

    return step


def no_answer(expression: str, detail: str) -> RuleFault:
    """The fault of an expression that failed on a record."""
    return RuleFault(f"`{expression}` gave no answer: {_STATUS.sub('', first_line(detail))}")


def _compile_fault(expression: str, detail: str) -> ExpressionFault:
    match = _PLACE.search(detail)
    if match is None:
        return ExpressionFault(_STATUS.sub("", first_line(detail)), 1)
    line, place, message = match.groups()
    column = column_of(expression, line=int(line), column=int(place))
    return ExpressionFault(message.removesuffix(" [INVALID_ARGUMENT]"), column)


def column_of(expression: str, *, line: int, column: int) -> int:
    """The engine's line and column as one count of characters from 1; 1 where it names no place."""
    lines = expression.split("\n")[: max(line - 1, 0)]
    return max(sum(len(text) + 1 for text in lines) + column, 1)


def first_line(text: str) -> str:
    """The first line: libraries draw a picture of the place under it."""
    return text.partition("\n")[0]


@cache
def first_engine() -> Engine:
    """The engine rules run on: the compiled one wherever its library can be imported."""
    try:
        return _Compiled()
    except ImportError:
        return second_engine()


@cache
def second_engine() -> Engine:
    """The pure Python engine: a second opinion in tests, and the only one where no wheel fits."""
    try:
        from witnessmark.rules.cel_interpreted import Interpreted
    except ImportError as error:
        message = "No CEL library is installed, so no rule can be asked."
        remedy = "Install cel-expr-python, or cel-python where the first has no wheel."
        raise WitnessmarkError(message, remedy=remedy) from error
    return Interpreted()
