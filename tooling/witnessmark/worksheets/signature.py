"""What a sheet takes and gives, read once from the annotations of its equation."""

from __future__ import annotations

import inspect
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Any, get_args, get_type_hints

from witnessmark.worksheets.declare import (
    Choice,
    Designation,
    Each,
    Flag,
    Gives,
    Input,
    Kind,
    NamedRow,
    ThreadName,
)

_KINDS = (Input, Choice, Flag, Designation, NamedRow, ThreadName, Each)


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """One input of an equation, in the order the sheet names them."""

    name: str
    kind: Kind
    optional: bool


# Cached because annotations are resolved by evaluating text, and every record runs its sheets.
@cache
def inputs_of(equation: Callable[..., object]) -> tuple[Taken, ...]:
    """Give what the equation takes; an input is optional where its parameter has a default."""
    hints = get_type_hints(equation, include_extras=True)
    return tuple(
        Taken(
            name=name,
            kind=_declared(hints[name], kinds=_KINDS, name=name),
            optional=parameter.default is not inspect.Parameter.empty,
        )
        for name, parameter in inspect.signature(equation).parameters.items()
    )


@cache
def results_of(equation: Callable[..., object]) -> dict[str, Gives]:
    """Give what the equation gives, by name, from the annotated fields of its result."""
    fields = get_type_hints(get_type_hints(equation)["return"], include_extras=True)
    return {name: _declared(hint, kinds=(Gives,), name=name) for name, hint in fields.items()}


def _declared(hint: object, *, kinds: tuple[type, ...], name: str) -> Any:  # noqa: ANN401
    """Give the one declaration in an annotation, also where it stands inside an optional."""
    for part in (hint, *get_args(hint)):
        for extra in getattr(part, "__metadata__", ()):
            if isinstance(extra, kinds):
                return extra
    raise TypeError(f"{name} carries no declaration")
