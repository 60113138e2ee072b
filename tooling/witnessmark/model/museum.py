"""museum.yml: what the museum is, and how it shows money and units."""

from __future__ import annotations

from typing import Annotated, Literal
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from pydantic import AfterValidator
from pydantic_core import PydanticCustomError

from witnessmark.model.fields import Day, Flag, Prose, Text, Written


def _is_time_zone(value: str) -> str:
    try:
        ZoneInfo(value)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        raise PydanticCustomError("time_zone", "there is no time zone of this name") from None
    return value


class Shown(Written):
    """What of the private fields the museum shows all the same."""

    money: Flag = False
    hours: Flag = False


class Museum(Written):
    """One museum."""

    witnessmark: Literal[1]
    name: Text
    place: Text | None = None
    web: Text | None = None
    about: Prose | None = None
    licence: Text | None = None
    time_zone: Annotated[Text, AfterValidator(_is_time_zone)] = "Etc/UTC"
    currency: Text = "EUR"
    units: Literal["metric", "imperial"] = "metric"
    shown: Shown = Shown()
    contact: Text | None = None
    demo_as_of: Day | None = None
