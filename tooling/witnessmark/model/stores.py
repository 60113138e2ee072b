"""stores.yml: old stock and the places where things lie, as of a date."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field
from pydantic_core import PydanticCustomError

from witnessmark.model.fields import Day, Id, Prose, Text, Whole, Written
from witnessmark.model.words import MadeTo, Origin, Purpose


def _known_word(value: object) -> object:
    """Refuse 1 and 0, which equal true and false in Python."""
    if value is True or value is False or value == "unknown":
        return value
    raise PydanticCustomError("known_form", "true, false or unknown is wanted")


CanBeMade = Annotated[Literal[True, False, "unknown"], BeforeValidator(_known_word)]
"""Whether the type can still be made: true, false or unknown."""


class StorePlace(Written):
    """A place where parts are kept; private."""

    id: Id
    name: Text
    note: Text | None = None


class Lot(Written):
    """A lot of old stock."""

    id: Id
    what: Text
    count: Annotated[Whole, Field(ge=0)]
    origin: Origin
    made_to: MadeTo = MadeTo.WEAR
    can_be_made: CanBeMade = "unknown"
    pattern: Text | None = None
    drawing: Text | None = None
    material: Text | None = None
    conditions: Text | None = None
    giver: Text | None = Field(default=None, alias="from")
    purpose: Purpose = Purpose.UNDECIDED
    who: Text | None = None
    when: Day | None = None
    because: Prose | None = None
    place: Id | None = None
    note: Prose | None = None


class Stores(Written):
    """Old stock and store places, as they were on a day."""

    witnessmark: Literal[1]
    as_of: Day
    places: tuple[StorePlace, ...] = ()
    lots: tuple[Lot, ...] = ()
