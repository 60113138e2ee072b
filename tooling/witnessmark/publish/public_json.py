"""What the public may see, as data for programs: one JSON text for each page that has data.

The format is a contract with strangers: it has a version, names never change their meaning within
it, and whoever reads it lets names pass that they do not know. Exact figures are texts such as
"51/16", days are ISO 8601, a word of a closed list stands as it does in a record. Drawings, and
sentences that a page makes from figures given here, are left out.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from functools import partial

from witnessmark.publish.public import PublicMachine, PublicMuseum
from witnessmark.publish.public_decision import PublicDecision
from witnessmark.publish.public_json_decision import decision_data
from witnessmark.publish.public_json_machine import machine_data
from witnessmark.publish.public_json_museum import museum_data
from witnessmark.publish.public_json_values import Data

PUBLIC_FORMAT = 1
"""The version of the format; a greater one may hold what this program cannot read."""

MUSEUM_JSON = "museum.json"


def decision_json(decision: PublicDecision, museum: PublicMuseum) -> bytes:
    """One decision; the site has it at `decision_json_path`."""
    return _written("decision", decision_page(decision.id), decision_data(decision), museum)


def machine_json(machine: PublicMachine, museum: PublicMuseum) -> bytes:
    """One machine with its parts, account and findings; the site has it at `machine_json_path`."""
    return _written("machine", machine_page(machine.id), machine_data(machine), museum)


def museum_json(museum: PublicMuseum) -> bytes:
    """The museum, its rules and policies, and where its machines and decisions are."""
    return _written("museum", "", museum_data(museum), museum)


def decision_json_path(name: str) -> str:
    """Where the data of a decision's page lies in the site."""
    return f"{decision_page(name)}decision.json"


def machine_json_path(name: str) -> str:
    """Where the data of a machine's page lies in the site."""
    return f"{machine_page(name)}machine.json"


def decision_page(name: str) -> str:
    """The address of a decision's page, from the top of the site."""
    return f"d/{name}/"


def machine_page(name: str) -> str:
    """The address of a machine's page, from the top of the site."""
    return f"m/{name}/"


def public_files(museum: PublicMuseum) -> dict[str, bytes]:
    """Every JSON of a museum, by its path in the site."""
    return {path: make() for path, make in public_makers(museum).items()}


def public_makers(museum: PublicMuseum) -> dict[str, Callable[[], bytes]]:
    """What makes each of them, for who does not want to hold all."""
    makers: dict[str, Callable[[], bytes]] = {MUSEUM_JSON: partial(museum_json, museum)}
    for machine in museum.machines:
        makers[machine_json_path(machine.id)] = partial(machine_json, machine, museum)
    for decision in museum.decisions:
        makers[decision_json_path(decision.id)] = partial(decision_json, decision, museum)
    return makers


def _written(kind: str, page: str, body: Mapping[str, Data], museum: PublicMuseum) -> bytes:
    whole: dict[str, Data] = {
        "witnessmark_public": PUBLIC_FORMAT,
        "kind": kind,
        "museum": {"name": museum.name, "web": museum.web},
        "as_of": museum.as_of.isoformat(),
        "page": page,
        kind: body,
    }
    return f"{json.dumps(whole, ensure_ascii=False)}\n".encode()
