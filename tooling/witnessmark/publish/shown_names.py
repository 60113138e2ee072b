"""How people, parts and machines are called in public: by title, by name, never by a private id."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from witnessmark.model.fields import ADDRESS_PATTERN
from witnessmark.model.library import Library
from witnessmark.model.words import Role

_ADDRESS = re.compile(ADDRESS_PATTERN.strip("^$"))
SOMEBODY = "somebody at the museum"


@dataclass(frozen=True)
class Names:
    """Public names of one museum."""

    library: Library

    def person(self, name: str) -> str:
        """A role-holder within a sentence: the public name, or the title with its article."""
        found = self.library.people.get(name)
        if found is None:
            return SOMEBODY
        return found.public_name or f"the {found.title[:1].lower()}{found.title[1:]}"

    def in_words(self, text: str) -> str | None:
        """Who a free text names, where that is a role-holder or a role; else nothing."""
        if text in self.library.people:
            return self.person(text)
        role = text.casefold().replace(" ", "-")
        return f"the {role.replace('-', ' ')}" if role in set(Role) else None

    def machine(self, name: str) -> str:
        """A machine's name."""
        found = self.library.machines.get(name)
        return found.name if found else name

    @cached_property
    def _parts(self) -> Mapping[tuple[str, str], str]:
        return {
            (name, address): part.name
            for name, machine in self.library.machines.items()
            for address, _, part in machine.parts()
        }

    def part(self, machine: str, address: str) -> str:
        """A part's name; its address where the machine file does not list it."""
        return self._parts.get((machine, address), address)

    def parts(self, machine: str, addresses: Iterable[str]) -> tuple[str, ...]:
        """The names of several parts."""
        return tuple(self.part(machine, address) for address in addresses)

    def in_place_of_addresses(self, machine: str, text: str) -> str:
        """A reckoned sentence with the parts' names where it has their addresses."""

        def name(found: re.Match[str]) -> str:
            called = self.part(machine, found[0])
            return within(called) if found.start() else called

        return _ADDRESS.sub(name, text)

    def lot(self, name: str) -> str:
        """What a lot of old stock is; never its id, which may name the giver."""
        found = self.library.lots.get(name)
        return found.what if found else "old stock"

    def donor(self, source: str) -> str:
        """A part of another machine, in words."""
        machine, _, address = source.partition("/")
        return f"{self.part(machine, address)} of {self.machine(machine)}"


def listed(words: Iterable[str]) -> str:
    """Words in a row as a sentence has them.

    >>> listed(["bush", "post", "pinion"])
    'bush, post and pinion'
    """
    found = list(words)
    return f"{', '.join(found[:-1])} and {found[-1]}" if len(found) > 1 else "".join(found)


def within(text: str) -> str:
    """A text as it stands within a sentence; what starts with two capitals or a sign is kept.

    >>> within("Slewing post"), within("V-belt"), within("MQ drawing")
    ('slewing post', 'V-belt', 'MQ drawing')
    """
    return f"{text[:1].lower()}{text[1:]}" if text[1:2].islower() else text


def named(names: Sequence[str]) -> str:
    """Parts in a row, as a sentence that starts with them has them.

    >>> named(["Upper bush", "Post"])
    'Upper bush and post'
    """
    return listed([*names[:1], *(within(name) for name in names[1:])])
