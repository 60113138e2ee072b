"""people.yml: who holds which role, and when."""

from __future__ import annotations

from datetime import date
from typing import Literal

from pydantic import Field

from witnessmark.model.fields import Day, Id, Text, Written
from witnessmark.model.words import Role


class Held(Written):
    """A role held from a day on, to a day if it has ended."""

    role: Role
    since: Day = Field(alias="from")
    to: Day | None = None

    def covers(self, day: date) -> bool:
        """True when the role was held on this day, both ends included."""
        return self.since <= day and (self.to is None or day <= self.to)


class Person(Written):
    """Somebody who plays a part; public by title, by name only where public_name is given."""

    id: Id
    title: Text
    public_name: Text | None = None
    name: Text | None = None
    contact: Text | None = None
    note: Text | None = None
    roles: tuple[Held, ...]

    def holds(self, role: Role, *, on: date) -> bool:
        """True when this person held the role on the day."""
        return any(held.role is role and held.covers(on) for held in self.roles)

    @property
    def public(self) -> str:
        """What the public may call this person."""
        return self.public_name or self.title


class People(Written):
    """The register of role-holders."""

    witnessmark: Literal[1]
    people: tuple[Person, ...]
