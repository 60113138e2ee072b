"""A cell's text as the value its field takes, where it can be read in one way only."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from pydantic import BaseModel

from witnessmark.model.day_spellings import Order, day_readings
from witnessmark.model.decimal_commas import with_points
from witnessmark.model.respelling import FALSE_WORDS, TRUE_WORDS
from witnessmark.model.shape import shape
from witnessmark.model.source import read

COUNTS = frozenset({"count"})
FLAGS = frozenset(
    {"public", "last_known", "handed", "highly_stressed", "holds_tension", "can_be_made"}
)
DAYS = frozenset({"date", "opened"})
QUANTITIES = frozenset({"mass", "measurement", "limit"})
LISTS = frozenset({"interchanges_with", "answers", "about", "findings"})


class LeftOutError(ValueError):
    """A row that cannot be taken; its text says why."""


def typed(given: Mapping[str, str], *, order: Order | None) -> dict[str, Any]:
    """The fields of a row as they are written in a record.

    Raises:
        LeftOutError: a day may be read in two ways, or in none.
    """
    return {name: _value(name, text, order) for name, text in given.items()}


def _value(name: str, text: str, order: Order | None) -> object:
    if name in COUNTS and re.fullmatch("[0-9]{1,9}", text):
        return int(text)
    if name in FLAGS and text.casefold() in TRUE_WORDS | FALSE_WORDS:
        return text.casefold() in TRUE_WORDS
    if name in DAYS:
        return _day(name, text, order)
    if name in QUANTITIES:
        return with_points(text) or text
    if name in LISTS:
        return [one.strip() for one in re.split("[;,|]", text) if one.strip()]
    return text


def _day(name: str, text: str, order: Order | None) -> str:
    found = sorted(day_readings(text, order=order))
    if len(found) == 1:
        return found[0].isoformat()
    if found:
        choices = " or ".join(map(str, found))
        raise LeftOutError(
            f'`{name}` "{text}" may be {choices}. Say `dates: day-first` or month-first in the map.'
        )
    raise LeftOutError(f'`{name}` "{text}" is not a day. Write it as 1998-04-03.')


def refuse_shape(text: str, model: type[BaseModel], *, but: frozenset[str] = frozenset()) -> None:
    """Nothing, where a text can be read as a model; `but` are codes that are let pass.

    Raises:
        LeftOutError: it cannot, with the first reason.
    """
    for fault in shape(read("row", text.encode()), model).diagnostics:
        if fault.code not in but:
            where = f"`{fault.field}`: " if fault.field else ""
            raise LeftOutError(f"{where}{fault.message} {fault.fix}")
