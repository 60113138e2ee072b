"""What museums publish as linked data: CIDOC CRM with PROV-O, one file a decision and a machine.

All files of an export together are one graph; each can also be read alone. The shapes that the
graph keeps to stand beside it, in SHACL (W3C, 2017).
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from importlib.resources import files

from witnessmark.exchange.export.addresses import Addresses, addresses_of
from witnessmark.exchange.export.linked_decision import decision_nodes
from witnessmark.exchange.export.linked_machine import machine_nodes
from witnessmark.exchange.export.nodes import CONTEXT, Node, node, some
from witnessmark.exchange.export.published import Decision, Published
from witnessmark.exchange.export.reading import read_decision
from witnessmark.exchange.export.terms import term_nodes

SHAPES = "shapes.ttl"
TERMS_FILE = "terms.jsonld"


def linked_files(museums: Sequence[Published]) -> dict[str, bytes]:
    """The graph of several museums, its terms and its shapes.

    Raises:
        WitnessmarkError: a museum has no web address.
    """
    found = {TERMS_FILE: _written(term_nodes()), SHAPES: shapes()}
    one = len(museums) == 1
    for number, museum in enumerate(sorted(museums, key=lambda each: each.name), start=1):
        above = "" if one else f"museum-{number}/"
        found |= {f"{above}{path}": text for path, text in _museum_files(museum)}
    return found


def linked_decision(decision: Decision, published: Published) -> bytes:
    """One decision alone, to stand beside its page.

    Raises:
        WitnessmarkError: the museum has no web address.
    """
    return _written(decision_nodes(decision, addresses_of(published)))


def linked_beside(data: bytes, web: str) -> bytes:
    """The same from the public data of one decision, on a site at an address that ends in a stroke.

    Raises:
        UnknownNameError: the data is not what this program reads.
    """
    return _written(decision_nodes(read_decision(data), Addresses(web)))


def shapes() -> bytes:
    """The shapes that every export keeps to, in SHACL as Turtle."""
    return (files("witnessmark.exchange.export") / SHAPES).read_bytes()


def _museum_files(published: Published) -> Iterator[tuple[str, bytes]]:
    at = addresses_of(published)
    yield "museum.jsonld", _written(_museum_nodes(published, at))
    for machine in published.machines:
        yield f"machines/{machine.id}.jsonld", _written(machine_nodes(machine, at))
    for decision in published.decisions:
        yield f"decisions/{decision.id}.jsonld", _written(decision_nodes(decision, at))


def _museum_nodes(published: Published, at: Addresses) -> Iterator[Node]:
    """The museum, where visitors can see what came off, its policies and rules."""
    museum = published.museum
    about = [text for text in (museum.place, museum.about) if text]
    yield node(
        at.museum,
        *("crm:E74_Group", "prov:Organization"),
        label=museum.name,
        **some(crm__P3_has_note=about),
    )
    yield node(at.on_show, "crm:E53_Place", label=f"{museum.name}, where visitors can see it")
    for policy in museum.policies:
        yield node(
            at.policy(policy.id),
            *("crm:E29_Design_or_Procedure", "prov:Plan", "wm:Policy"),
            label=policy.title or f"Policy {policy.id}",
        )
    for rule in museum.rules:
        yield node(
            at.rule(rule.id),
            *("crm:E29_Design_or_Procedure", "prov:Plan", "wm:Rule"),
            label=rule.title,
            **some(crm__P3_has_note=rule.why),
        )


def _written(nodes: Iterable[Node]) -> bytes:
    whole = {"@context": CONTEXT, "@graph": list(nodes)}
    return f"{json.dumps(whole, ensure_ascii=False)}\n".encode()
