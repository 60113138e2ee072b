"""What a value in a rule's context looks like, read from the types that describe the context."""

from __future__ import annotations

import types
import typing
from dataclasses import dataclass, replace
from enum import Enum
from functools import cache
from typing import Annotated, Any, Literal, NotRequired, Required, Union, get_args, get_origin

_SCALARS: dict[object, str] = {
    str: "text",
    int: "int",
    float: "double",
    bool: "bool",
    type(None): "null",
}
_ANY = (Any, object)


@dataclass(frozen=True, slots=True)
class Shape:
    """One kind of value.

    `word` is text, int, double, bool, null, list, map, record or any; `element` is what a list or
    map holds; `record` is the TypedDict of a record; `nullable` says that null may stand here;
    `words` are all the texts it can be, where that is known.
    """

    word: str
    element: Shape | None = None
    record: type | None = None
    nullable: bool = False
    words: frozenset[str] | None = None

    def __str__(self) -> str:
        """A reader's word for it."""
        names = {
            "int": "a whole number",
            "double": "a decimal",
            "bool": "true or false",
            "null": "null",
            "any": "anything",
        }
        return names.get(self.word, f"a {self.word}")

    @property
    def is_number(self) -> bool:
        """Whether it is a whole number or a decimal."""
        return self.word in ("int", "double")


ANY = Shape("any")
TEXT = Shape("text")
INT = Shape("int")
DOUBLE = Shape("double")
BOOL = Shape("bool")
NULL = Shape("null")


@dataclass(frozen=True, slots=True)
class Field:
    """One field of a record; one that is not `always_there` may be missing altogether."""

    shape: Shape
    always_there: bool


def shape_of(annotation: object) -> Shape:
    """The shape a Python type describes.

    Known are str, int, float, bool, None, Literal, StrEnum, list[T], dict[str, T], TypedDict, T |
    None.

    Raises:
        TypeError: the type says something a rule's context cannot hold.

    """
    if annotation in _SCALARS or annotation is None:
        return Shape(_SCALARS.get(annotation, "null"))
    if annotation in _ANY:
        return ANY
    if typing.is_typeddict(annotation):
        return Shape("record", record=typing.cast("type", annotation))
    if isinstance(annotation, type) and issubclass(annotation, Enum):
        return _one_of([member.value for member in annotation])
    return _generic(annotation)


def _generic(annotation: object) -> Shape:
    origin, arguments = get_origin(annotation), get_args(annotation)
    if origin in (Annotated, Required, NotRequired):
        return shape_of(arguments[0])
    if origin is Literal:
        return _one_of(list(arguments))
    if origin in (Union, types.UnionType):
        return _either(arguments)
    if origin is list:
        return Shape("list", element=shape_of(arguments[0]))
    if origin is dict and arguments[0] is str:
        return Shape("map", element=shape_of(arguments[1]))
    raise TypeError(f"{annotation!r} cannot describe a value in a rule's context")


def _one_of(values: list[Any]) -> Shape:
    if not all(isinstance(value, str) for value in values):
        raise TypeError(f"a closed list in a rule's context holds texts only, not {values!r}")
    return Shape("text", words=frozenset(str(value) for value in values))


def _either(arguments: tuple[Any, ...]) -> Shape:
    shapes = [shape_of(argument) for argument in arguments if argument is not type(None)]
    if len(shapes) != 1:
        raise TypeError(f"{arguments!r}: a value in a rule's context is of one kind, or null")
    return replace(shapes[0], nullable=shapes[0].nullable or type(None) in arguments)


@cache
def fields_of(record: type) -> dict[str, Field]:
    """Every field of a TypedDict by name."""
    hints = typing.get_type_hints(record, include_extras=True)
    return {
        name: Field(shape_of(hint), _is_always_there(record, name, hint))
        for name, hint in hints.items()
    }


def _is_always_there(record: type, name: str, hint: object) -> bool:
    # __optional_keys__ alone misses NotRequired where annotations are postponed (typing docs).
    if get_origin(hint) in (NotRequired, Required):
        return get_origin(hint) is Required
    return name not in record.__optional_keys__  # type: ignore[attr-defined]


def joined(one: Shape, other: Shape) -> Shape | None:
    """The shape of a value that is one or the other; None where they are of different kinds."""
    if one == other:
        return one
    if "any" in (one.word, other.word):
        return ANY
    if "null" in (one.word, other.word):
        return replace(other if one.word == "null" else one, nullable=True)
    if one.word != other.word or one.record is not other.record:
        return None
    element = _joined_elements(one.element, other.element)
    words = None if one.words is None or other.words is None else one.words | other.words
    return Shape(
        one.word, element, one.record, nullable=one.nullable or other.nullable, words=words
    )


def _joined_elements(one: Shape | None, other: Shape | None) -> Shape | None:
    if one is None or other is None:
        return one or other
    return joined(one, other) or ANY
