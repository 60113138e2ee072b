"""Values of the public model as JSON has them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from fractions import Fraction
from typing import TypeAlias, cast

from pydantic import BaseModel

Data: TypeAlias = "str | int | bool | Sequence[Data] | Mapping[str, Data] | None"


def plain(value: object) -> Data:
    """One value: exact figures and days as text, words as written, a dataclass by its fields.

    >>> plain((Fraction(51, 16), date(2024, 3, 2), None))
    ['51/16', '2024-03-02', None]
    """
    kind = type(value)
    if kind in _AS_IT_IS:
        return cast("Data", value)
    if isinstance(value, tuple | list):
        return [plain(each) for each in value]
    if names := _names(kind):
        return {name: plain(getattr(value, name)) for name in names}
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, Fraction):
        return str(value)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, str | bool | int):
        return value
    raise TypeError(f"{kind.__name__} has no place in the public data")


_AS_IT_IS = frozenset({str, int, bool, type(None)})


_known: dict[type, tuple[str, ...]] = {}


def _names(kind: type) -> tuple[str, ...]:
    """The fields of a model or a dataclass; none for any other kind. Asked for each value."""
    if kind not in _known:
        of_class = tuple(field.name for field in fields(kind)) if is_dataclass(kind) else ()
        _known[kind] = tuple(kind.model_fields) if issubclass(kind, BaseModel) else of_class
    return _known[kind]


def without(value: object, *left_out: str) -> dict[str, Data]:
    """The fields of a dataclass, less those named."""
    names = _names(type(value))
    if not names:
        raise TypeError(f"{type(value).__name__} has no fields")
    return {name: plain(getattr(value, name)) for name in names if name not in left_out}


def rows(found: Sequence[Sequence[object]], *names: str) -> list[Data]:
    """Rows of unnamed columns, each as a mapping with these names.

    >>> rows((("f-001", 2),), "finding", "times")
    [{'finding': 'f-001', 'times': 2}]
    """
    return [{name: plain(value) for name, value in zip(names, row, strict=True)} for row in found]
