"""What somebody means who writes a name by hand: its id, its words, or nearly so."""

from __future__ import annotations

import re
from collections.abc import Mapping

from witnessmark.model.library import Library
from witnessmark.model.machine import Machine
from witnessmark.model.spelling import clear_winner

_SMALL = frozenset({"a", "an", "the", "of", "our", "and"})


def meant(text: str, names: Mapping[str, str]) -> str | None:
    """The id that is meant by a text, among ids with their names; None where that is not clear.

    >>> meant("Ram guide", {"hammer/guide": "Ram guides", "hammer/anvil": "Anvil"})
    'hammer/guide'
    """
    wanted = _plain(text)
    if not wanted:
        return None
    keys = {_plain(key): key for key in names}
    for spelt in (keys, _by_name(names), _by_end(names)):
        if wanted in spelt:
            return spelt[wanted]
    within = [key for key, name in names.items() if set(wanted.split()) <= _words(key, name)]
    if len(within) == 1:
        return within[0]
    spelt = {**_by_name(names), **keys}
    near = clear_winner(wanted, list(spelt))
    return spelt[near] if near else None


def machine_names(library: Library) -> dict[str, str]:
    """The name of each machine by its id."""
    return {name: machine.name for name, machine in library.machines.items()}


def part_names(machine: Machine) -> dict[str, str]:
    """The name of each part by its address."""
    return {address: part.name for address, _, part in machine.parts()}


def _plain(text: str) -> str:
    """A text in small letters without its marks and small words."""
    words = re.findall(r"\w+", text.casefold())
    return " ".join(word for word in words if word not in _SMALL)


def _words(key: str, name: str) -> set[str]:
    return set(_plain(f"{key} {name}").split())


def _by_name(names: Mapping[str, str]) -> dict[str, str]:
    """The ids by name, where one name stands for one id."""
    return _only({key: _plain(name) for key, name in names.items()})


def _by_end(names: Mapping[str, str]) -> dict[str, str]:
    """The ids by what stands behind their stroke, where that stands for one id."""
    return _only({key: _plain(key.rpartition("/")[2]) for key in names})


def _only(spelt: Mapping[str, str]) -> dict[str, str]:
    found = list(spelt.values())
    return {name: key for key, name in spelt.items() if found.count(name) == 1}
