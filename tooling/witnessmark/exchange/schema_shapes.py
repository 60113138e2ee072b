"""The types that records are made of, as pieces of JSON Schema.

Sources: JSON Schema 2020-12, Validation, section 6 (keywords by type); `enumDescriptions` and
`markdownEnumDescriptions` are read by editors beside `enum` (yaml-language-server, its README).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from fractions import Fraction
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel, BeforeValidator, Discriminator, StringConstraints
from pydantic.fields import FieldInfo

from witnessmark.model.fields import Exact, Level, Share, Text, Weight
from witnessmark.model.words import Word

Schema = dict[str, Any]
DAY = r"^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"
FRACTION = r"^-?[0-9]{1,9}/[1-9][0-9]{0,8}$"
NOT_BLANK = r"\S"
LEVELS: Schema = {"minimum": 0, "maximum": 4}


def _readers(kind: object) -> set[object]:
    """The functions that a kind of field reads its value with, by which it is known again."""
    return {one.func for one in get_args(kind)[1:] if hasattr(one, "func")}


_TAKES_NUMBERS = next(one.func for one in get_args(Text)[1:] if isinstance(one, BeforeValidator))
_LEVEL = _readers(Level)
_SHARE = _readers(Share) - _readers(Exact)
_WEIGHT = _readers(Weight) - _readers(Exact)


class Shapes:
    """Turns types into schemas; `needed` grows by each model met, so that it can be defined."""

    def __init__(self, meanings: Mapping[object, str] | None = None, *, shown: str = "") -> None:
        self.needed: dict[str, type[BaseModel]] = {}
        self._meanings = meanings or {}
        self._shown = shown

    def within(self, meanings: Mapping[object, str], *, shown: str) -> Shapes:
        """The same for one field: what its bare words mean, and whether the public sees it."""
        other = Shapes(meanings, shown=shown)
        other.needed = self.needed
        return other

    def of(self, kind: Any, marks: tuple[object, ...] = ()) -> Schema:  # noqa: ANN401  any type
        """The schema of a type; `marks` are what stands beside it in Annotated."""
        origin, inner = get_origin(kind), get_args(kind)
        if origin is Annotated:
            return self.of(inner[0], (*marks, *inner[1:]))
        if origin in {Union, UnionType}:
            return _either([self.of(one) for one in inner if one is not NoneType])
        if origin is Literal:
            return self._words(inner)
        if origin is tuple:
            return self._list(inner, marks)
        if origin is dict:
            return self._mapping(*inner)
        if isinstance(kind, type) and issubclass(kind, BaseModel):
            self.needed[kind.__name__] = kind
            return {"$ref": f"#/$defs/{kind.__name__}"}
        return _plain(kind, marks)

    def _words(self, words: tuple[object, ...]) -> Schema:
        if len(words) == 1 and words[0] not in self._meanings:
            return {"const": words[0]}
        return closed({word: self._meanings[word] for word in words})

    def _list(self, inner: tuple[Any, ...], marks: tuple[object, ...]) -> Schema:
        if inner[-1] is Ellipsis:
            found: Schema = {"type": "array", "items": self.of(inner[0])}
            return found | _limits(marks, {"min_length": "minItems", "max_length": "maxItems"})
        places = [self.of(one) for one in inner]
        return {
            "type": "array",
            "prefixItems": places,
            "items": False,
            "minItems": len(places),
        }

    def _mapping(self, key: Any, value: Any) -> Schema:  # noqa: ANN401  any type
        inner = self.of(value) if value not in {Any, object} else {}
        if isinstance(key, type) and issubclass(key, Word):
            return {
                "type": "object",
                "additionalProperties": False,
                "properties": {word.value: self._under(word, inner) for word in key},
            }
        pattern = next((m.pattern for m in _strings(get_args(key)[1:]) if m.pattern), None)
        if pattern is None:
            return {"type": "object", "additionalProperties": inner or True}
        named = {"patternProperties": {str(pattern): inner}, "additionalProperties": False}
        return {"type": "object", **named}

    def _under(self, word: Word, inner: Schema) -> Schema:
        said = f"{self._shown}{word.definition}"
        return {"title": title_of(word.value), **inner, "description": said}


def closed(words: Mapping[object, str]) -> Schema:
    """A closed list with the meaning of each word, where editors look for it."""
    return {
        "enum": list(words),
        "enumDescriptions": list(words.values()),
        "markdownEnumDescriptions": [f"**{_shown(w)}**: {says}" for w, says in words.items()],
    }


def _shown(word: object) -> str:
    return str(word).lower() if isinstance(word, bool) else str(word)


def title_of(written: str) -> str:
    """A field's name as a heading.

    >>> title_of("would_change_our_mind")
    'Would change our mind'
    """
    return written.replace("_", " ").replace("-", " ").capitalize()


def _either(found: list[Schema]) -> Schema:
    return found[0] if len(found) == 1 else {"anyOf": found}


def _plain(kind: Any, marks: tuple[object, ...]) -> Schema:  # noqa: ANN401  any type
    readers = {getattr(mark, "func", None) for mark in marks}
    if isinstance(kind, type) and issubclass(kind, Word):
        return {"type": "string", **closed({word.value: word.definition for word in kind})}
    if kind is date:
        return {"type": "string", "format": "date", "pattern": DAY}
    if kind is Fraction:
        return {"type": ["number", "string"], "pattern": FRACTION, **_bounds(readers)}
    if kind is bool:
        return {"type": "boolean"}
    if kind is int:
        limits = _limits(marks, {"ge": "minimum", "le": "maximum"})
        return {"type": "integer", **(LEVELS if readers & _LEVEL else {}), **limits}
    if kind is str:
        return _text(marks, takes_numbers=_TAKES_NUMBERS in readers)
    raise TypeError(f"no schema is known for {kind!r}")


def _bounds(readers: set[Any]) -> Schema:
    if readers & _SHARE:
        return {"minimum": 0, "maximum": 1}
    return {"minimum": 0} if readers & _WEIGHT else {}


def _text(marks: tuple[object, ...], *, takes_numbers: bool) -> Schema:
    found = list(_strings(marks))
    pattern = next((one.pattern for one in found if one.pattern), None)
    longest = next((one.max_length for one in found if one.max_length), None)
    shape: Schema = {"type": "string"}
    if takes_numbers and pattern:
        # An id of digits alone is read as a whole number and taken as it was written.
        shape = {"type": ["string", "integer"], "minimum": 0}
    elif takes_numbers:
        shape = {"type": ["string", "number"]}
    shape["pattern"] = str(pattern) if pattern else NOT_BLANK
    return shape | ({"maxLength": longest} if longest else {})


def _strings(marks: tuple[object, ...]) -> Iterator[StringConstraints]:
    """The limits on a text, however they were written."""
    for mark in marks:
        if isinstance(mark, StringConstraints):
            yield mark
        elif isinstance(mark, FieldInfo):
            for one in mark.metadata:
                if getattr(one, "pattern", None):
                    yield StringConstraints(pattern=one.pattern)


def _limits(marks: tuple[object, ...], names: Mapping[str, str]) -> Schema:
    """Limits of size, by the keyword each has in JSON Schema."""
    found: Schema = {}
    for mark in marks:
        each = mark.metadata if isinstance(mark, FieldInfo) else [mark]
        for one in each:
            if not isinstance(one, StringConstraints | Discriminator):
                given = {word: getattr(one, name, None) for name, word in names.items()}
                found |= {word: value for word, value in given.items() if value is not None}
    return found
