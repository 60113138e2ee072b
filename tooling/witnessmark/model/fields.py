"""The kinds of field that records are made of."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import Annotated

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Discriminator,
    Field,
    StringConstraints,
    Tag,
)
from pydantic_core import PydanticCustomError

ID_PATTERN = r"^[a-z0-9]+(-[a-z0-9]+)*$"
ADDRESS_PATTERN = r"^[a-z0-9]+(-[a-z0-9]+)*/[a-z0-9]+(-[a-z0-9]+)*$"
DECISION_PATTERN = r"^[0-9]{4}-[0-9]{3}$"
FINDING_PATTERN = r"^f-[0-9]{3,5}$"
LABEL_PATTERN = r"^[A-Za-z0-9]+(-[A-Za-z0-9]+)*$"
# Source: Microsoft Learn, "Naming Files, Paths, and Namespaces", reserved names; from memory.
DEVICES = frozenset(
    ["con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(1, 10))]
)
"""Names that no file or folder can have on Windows, in any case and before any suffix."""

DATE_PATTERN = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


class Written(BaseModel):
    """Something a person wrote: frozen, and no field beyond those named is taken."""

    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=False)


def _as_text(value: object) -> object:
    """Numbers stand in prose as they were written; a bare true is a slip."""
    if type(value) is str:  # nearly always, some hundred times a decision
        return value
    if isinstance(value, bool):
        raise PydanticCustomError("bool_as_text", "true and false are not text here")
    if isinstance(value, int | Decimal):
        return str(value)
    return value


def _as_day(value: object) -> object:
    """Dates in records are whole days, YYYY-MM-DD (ISO 8601-1:2019, 5.2.2.1, extended form)."""
    if isinstance(value, date):
        return value
    text = str(value)
    if not isinstance(value, str) or not DATE_PATTERN.fullmatch(text):
        raise PydanticCustomError("day_form", "a date is written YYYY-MM-DD")
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise PydanticCustomError("day_unreal", "there is no such day in the calendar") from None


def _as_number(value: object) -> object:
    """Exact numbers: whole, decimal or a fraction such as 3/4."""
    if isinstance(value, bool):
        raise PydanticCustomError("number_form", "a number is wanted")
    if isinstance(value, int | Decimal | Fraction):
        return Fraction(value)
    if isinstance(value, str) and re.fullmatch(r"-?[0-9]{1,9}/[1-9][0-9]{0,8}", value):
        return Fraction(value)
    raise PydanticCustomError("number_form", "a number is wanted")


def _is_share(value: Fraction) -> Fraction:
    if not 0 <= value <= 1:
        raise PydanticCustomError("share_range", "a number from 0 to 1 is wanted")
    return value


def _is_weight(value: Fraction) -> Fraction:
    if value < 0:
        raise PydanticCustomError("weight_range", "a number of 0 or more is wanted")
    return value


def _not_empty(value: str) -> str:
    if not value.strip():
        raise PydanticCustomError("blank_text", "this is blank")
    return value


def _not_a_device(value: str) -> str:
    if value in DEVICES:
        raise PydanticCustomError("device_name", "Windows keeps this name for a device")
    return value


def _as_bool(value: object) -> object:
    if not isinstance(value, bool):
        raise PydanticCustomError("bool_form", "true or false is wanted")
    return value


def _as_whole(value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise PydanticCustomError("whole_form", "a whole number is wanted")
    return value


def _as_level(value: object) -> object:
    if isinstance(value, bool) or not isinstance(value, int):
        raise PydanticCustomError("whole_form", "a whole number is wanted", {"is_score": True})
    whole = value
    if not 0 <= whole <= 4:  # noqa: PLR2004  the scale of the rubric
        raise PydanticCustomError("level_range", "scores run from 0 to 4")
    return whole


def shape_of(value: object) -> str:
    """What a value looks like in the file: a list, a mapping or a word."""
    if isinstance(value, list | tuple):
        return "<list>"
    if isinstance(value, dict | BaseModel):
        return "<mapping>"
    return "<word>"


def either(message: str) -> Discriminator:
    """Choose between a list, a mapping and a word by looking, so that a fault has one message."""
    return Discriminator(shape_of, custom_error_type="shape", custom_error_message=message)


LIST = Tag("<list>")
MAPPING = Tag("<mapping>")
WORD = Tag("<word>")

Text = Annotated[str, BeforeValidator(_as_text), AfterValidator(_not_empty)]
"""Short text: a name, a mark, a drawing number."""

# Constraints stand right behind `str`: put after a validator, pydantic calls them through Python,
# which took a fifth of the time of reading a decision's fields (measured on pydantic 2.14).
Prose = Annotated[
    str,
    StringConstraints(strip_whitespace=True),
    BeforeValidator(_as_text),
    AfterValidator(_not_empty),
]
"""Sentences for people."""

Day = Annotated[date, BeforeValidator(_as_day)]
"""A calendar day."""

Exact = Annotated[Fraction, BeforeValidator(_as_number)]
"""An exact number, written as a whole number, a decimal or a fraction such as 3/4."""

Share = Annotated[Exact, AfterValidator(_is_share)]
"""An exact number from 0 to 1."""

Weight = Annotated[Exact, AfterValidator(_is_weight)]
"""An exact number of 0 or more."""

Flag = Annotated[bool, BeforeValidator(_as_bool)]
Whole = Annotated[int, BeforeValidator(_as_whole)]
Count = Annotated[int, BeforeValidator(_as_whole), Field(ge=1)]
Level = Annotated[int, BeforeValidator(_as_level)]

MOST_ID = 64
"""Signs in an id."""

Id = Annotated[
    str,
    StringConstraints(pattern=ID_PATTERN, max_length=MOST_ID),
    BeforeValidator(_as_text),
    AfterValidator(_not_a_device),
]
Address = Annotated[str, StringConstraints(pattern=ADDRESS_PATTERN, max_length=129)]
DecisionId = Annotated[str, StringConstraints(pattern=DECISION_PATTERN)]
FindingId = Annotated[str, StringConstraints(pattern=FINDING_PATTERN)]
PolicyId = Annotated[str, StringConstraints(pattern=r"^[0-9]{4}-[0-9]{2}(-[0-9]{2})?$")]
Label = Annotated[
    str, BeforeValidator(_as_text), StringConstraints(pattern=LABEL_PATTERN, max_length=64)
]

Quantity = Annotated[str, BeforeValidator(_as_text), AfterValidator(_not_empty)]
"""A number with its unit, kept as written; read by model.quantity where it is needed."""
