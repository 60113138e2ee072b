"""People as the public knows them, by title or public name, as linked data."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from witnessmark.exchange.export.addresses import Addresses
from witnessmark.exchange.export.nodes import Node, Value, node, refs


def people(said: Iterable[str | None], at: Addresses) -> Iterator[Node]:
    """Each person once, in the order of their names."""
    for name in sorted({name for name in said if name}):
        yield node(at.person(name), "crm:E39_Actor", "prov:Agent", label=name)


def by(said: Iterable[str | None], at: Addresses) -> list[Value]:
    """Whoever did something, by address."""
    return refs([at.person(name) for name in said if name])
