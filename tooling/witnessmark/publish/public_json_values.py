"""Values of the public model as JSON has them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from fractions import Fraction
from typing import TypeAlias

from pydantic import BaseModel

Data: TypeAlias = "str | int | bool | Sequence[Data] | Mapping[str, Data] | None"


def plain(value: object) -> Data:
    """One value: exact figures and days as text, words as written, a dataclass by its fields.

    >>> plain((Fraction(51, 16), date(2024, 3, 2), None))
    ['51/16', '2024-03-02', None]
    """
    if isinstance(value, Enum):
        return str(value.value)
    if value is None or isinstance(value, str | bool | int):
        return value
    if isinstance(value, Fraction):
        return str(value)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, BaseModel):
        return {name: plain(getattr(value, name)) for name in type(value).model_fields}
    if is_dataclass(value):
        return {field.name: plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, tuple | list):
        return [plain(each) for each in value]
    raise TypeError(f"{type(value).__name__} has no place in the public data")


def without(value: object, *left_out: str) -> dict[str, Data]:
    """The fields of a dataclass, less those named."""
    whole = plain(value)
    if not isinstance(whole, Mapping):
        raise TypeError(f"{type(value).__name__} has no fields")
    return {name: data for name, data in whole.items() if name not in left_out}


def rows(found: Sequence[Sequence[object]], *names: str) -> list[Data]:
    """Rows of unnamed columns, each as a mapping with these names.

    >>> rows((("f-001", 2),), "finding", "times")
    [{'finding': 'f-001', 'times': 2}]
    """
    return [{name: plain(value) for name, value in zip(names, row, strict=True)} for row in found]
