"""machine.yml: what a machine is, how it is kept and what it is made of, as of a date."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Annotated, Literal

from pydantic import Field

from witnessmark.model.fields import (
    Count,
    Day,
    Flag,
    Id,
    Level,
    Prose,
    Quantity,
    Text,
    Weight,
    Written,
)
from witnessmark.model.stores import CanBeMade
from witnessmark.model.words import Aspect, HeldBy, Kept, Lubricant, MadeTo, Origin, Stage


class KeptFrom(Written):
    """A way of keeping, from a day on.

    `decided`: where that was decided, and `look_again` when it is looked at again. `shows`: what
    running shows that a standing machine, a film or a copy could not.
    """

    since: Day = Field(alias="from")
    how: Kept = Field(alias="as")
    decided: Text | None = None
    look_again: Day | None = None
    because: Prose | None = None
    shows: Prose | None = None


class Photo(Written):
    """A picture in the machine's folder; published only when marked public."""

    file: Text
    alt: Prose
    caption: Prose | None = None
    date: Day | None = None
    stage: Stage | None = None
    public: Flag = False


class Significance(Written):
    """Why the machine matters, which state it is judged against, and what carries its value."""

    statement: Prose
    state: Prose
    carried_by: dict[Aspect, Weight]
    present: dict[Aspect, Level] = {}


class Sought(Written):
    """Where other examples of a part were looked for, until when, and what was found."""

    what: Prose
    date: Day


class Part(Written):
    """One part, or a set of like parts with a count.

    `made_to_known_from`: what says that the maker meant it to be renewed or used up. `handed`: made
    as left and right. `held_by`: what keeps these fasteners from turning. `highly_stressed`: a
    scratch could start a crack. `bears`: marks of identity on it, such as a plate or a number.
    `lubricant`: what it was made to run in. `holds_tension`: it keeps a track or chain tight, as
    the bearings of a tensioner wheel do.
    """

    id: Id
    name: Text
    origin: Origin
    made_to: MadeTo
    count: Count = 1
    mass: Quantity | None = None
    material: Text | None = None
    drawing: Text | None = None
    can_be_made: CanBeMade = "unknown"
    interchanges_with: tuple[Text, ...] = ()
    last_known: Flag = False
    sought: Sought | None = None
    made_to_known_from: Text | None = None
    handed: Flag = False
    held_by: HeldBy | None = None
    highly_stressed: Flag = False
    bears: Text | None = None
    plating: Text | None = None
    lubricant: Lubricant | None = None
    holds_tension: Flag = False
    note: Prose | None = None


class Assembly(Written):
    """A group of parts that belong together."""

    id: Id
    name: Text
    parts: tuple[Part, ...]


class Machine(Written):
    """One machine as it stood on a day; `conditions` are those it was given or lent on."""

    witnessmark: Literal[1]
    as_of: Day
    name: Text
    what: Prose
    built: Text | None = None
    number: Text | None = None
    owner: Annotated[Text, Field()] = "museum"
    conditions: Prose | None = None
    kept: tuple[KeptFrom, ...] = Field(min_length=1)
    significance: Significance
    assemblies: tuple[Assembly, ...]
    photos: tuple[Photo, ...] = ()
    note: Prose | None = None

    def kept_on(self, day: date) -> Kept:
        """The way the machine was kept on a day; before the first entry, the first."""
        return self.kept_from(day).how

    def kept_from(self, day: date) -> KeptFrom:
        """The entry that says how the machine was kept on a day."""
        ways = sorted(self.kept, key=lambda way: way.since)
        earlier = [way for way in ways if way.since <= day]
        return (earlier or ways)[-1 if earlier else 0]

    def parts(self) -> Iterator[tuple[str, Assembly, Part]]:
        """Every part with its address and assembly, in the order written."""
        for assembly in self.assemblies:
            for part in assembly.parts:
                yield f"{assembly.id}/{part.id}", assembly, part
