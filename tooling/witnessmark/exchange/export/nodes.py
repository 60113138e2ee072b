"""The pieces that linked data is made of, as JSON-LD 1.1 (W3C, 2020) writes them.

`crm` are terms of the CIDOC Conceptual Reference Model 7.1 (ISO 21127), `prov` those of the PROV
ontology (W3C, 2013). The context stands in every file, so that nothing is fetched to read one.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from fractions import Fraction
from typing import TypeAlias

from witnessmark.exchange.export.addresses import TERMS
from witnessmark.exchange.export.csv_files import decimal
from witnessmark.exchange.export.published import Score
from witnessmark.model.words import Word

Value: TypeAlias = "str | int | bool | Sequence[Value] | Mapping[str, Value]"
Node: TypeAlias = "dict[str, Value]"

CONTEXT: Mapping[str, Value] = {
    "crm": "http://www.cidoc-crm.org/cidoc-crm/",
    "prov": "http://www.w3.org/ns/prov#",
    "rdf": "http://www.w3.org/1999/02/22-rdf-syntax-ns#",
    "rdfs": "http://www.w3.org/2000/01/rdf-schema#",
    "xsd": "http://www.w3.org/2001/XMLSchema#",
    "wm": TERMS,
}
PROGRAM = "wm:program"


def node(address: str, *types: str, label: str, **more: Value) -> Node:
    """A thing with its classes and what it is called."""
    return {"@id": address, "@type": list(types), "rdfs:label": label, **more}


def ref(address: str) -> Node:
    """Another thing by its address."""
    return {"@id": address}


def refs(addresses: Sequence[str]) -> list[Value]:
    """Several things; the same one only once."""
    return [ref(address) for address in dict.fromkeys(addresses)]


def word(value: Word) -> Node:
    """A word of a closed list, as one of our terms."""
    return ref(word_term(value))


def word_term(value: Word) -> str:
    """The term of a word; on a museum's glossary page the same mark leads to its meaning."""
    return f"wm:{type(value).__name__.lower()}-{value.value}"


def some(**properties: Value | None) -> Node:
    """Properties that have a value; `crm__P3` stands for `crm:P3`, which names no argument."""
    return {
        name.replace("__", ":").replace("time_span", "time-span"): value
        for name, value in properties.items()
        if value is not None and value != []
    }


def on_day(day: date) -> Node:
    """A literal day."""
    return {"@type": "xsd:date", "@value": day.isoformat()}


def span(first: date, last: date) -> Node:
    """A time-span within which something took place: from the start of a day to the end of one."""
    return {
        "@type": "crm:E52_Time-Span",
        "crm:P82a_begin_of_the_begin": _moment(first, "00:00:00"),
        "crm:P82b_end_of_the_end": _moment(last, "23:59:59"),
    }


def _moment(day: date, time: str) -> Node:
    return {"@type": "xsd:dateTime", "@value": f"{day.isoformat()}T{time}Z"}


def figure(value: Fraction) -> Node:
    """An exact figure as a dimension: a decimal to reckon with, and the fraction itself."""
    return {
        "@type": "crm:E54_Dimension",
        "crm:P90_has_value": _decimal(value),
        "crm:P91_has_unit": ref("wm:level"),
        "wm:exact": str(value),
    }


def levels(score: Score) -> Node | None:
    """A score as a dimension with its range; None where there is no score."""
    if score.low is None or score.likely is None or score.high is None:
        return None
    return {
        **figure(score.likely),
        "crm:P90a_has_lower_value_limit": _decimal(score.low),
        "crm:P90b_has_upper_value_limit": _decimal(score.high),
    }


def _decimal(value: Fraction) -> Node:
    return {"@type": "xsd:decimal", "@value": decimal(value)}


def in_role(agent: str, role: str, *, plan: str) -> Node:
    """That somebody took part in a role, following a plan."""
    return {
        "@type": "prov:Association",
        "prov:agent": ref(agent),
        "prov:hadRole": ref(role),
        "prov:hadPlan": ref(plan),
    }
