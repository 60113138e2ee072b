"""What each file of a deposit is, who made it and on which terms, as an RO-Crate.

Two texts of one description: `ro-crate-metadata.json` as the specification wants it, which names a
context on the web, and the same with every word written out as an address, which any reader of
JSON-LD takes without asking the network.

Source: RO-Crate Metadata Specification 1.2, 2025, Root Data Entity and Metadata Descriptor; JSON-LD
1.1, 2020, 9 (expanded form); schema.org and Dublin Core terms for the words.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from pathlib import PurePosixPath
from types import MappingProxyType
from typing import Any

from witnessmark.exchange.deposit.kit import Kit

METADATA = "ro-crate-metadata.json"
EXPANDED = "ro-crate-expanded.jsonld"
CONTEXT = "https://w3id.org/ro/crate/1.2/context"
PROFILE = "https://w3id.org/ro/crate/1.2"

_SCHEMA, _TERMS = "http://schema.org/", "http://purl.org/dc/terms/"
_IRIS: Mapping[str, str] = MappingProxyType(
    {
        **{
            word: f"{_SCHEMA}{word}"
            for word in (
                *("name", "description", "datePublished", "license", "publisher", "hasPart"),
                *("about", "encodingFormat", "contentSize", "url", "identifier", "version"),
                *("CreativeWork", "Dataset", "Organization", "Thing"),
            )
        },
        "File": f"{_SCHEMA}MediaObject",
        "conformsTo": f"{_TERMS}conformsTo",
    }
)
"""The words used, as the crate's context gives them; a test holds them against that context."""

_FORMATS: Mapping[str, str] = MappingProxyType(
    {
        ".yml": "application/yaml",
        ".yaml": "application/yaml",
        ".json": "application/json",
        ".jsonld": "application/ld+json",
        ".pdf": "application/pdf",
        ".html": "text/html",
        ".csv": "text/csv",
        ".txt": "text/plain",
        ".svg": "image/svg+xml",
        ".css": "text/css",
        ".bundle": "application/x-git",
    }
)
FOLDERS: Mapping[str, str] = MappingProxyType(
    {
        "records": "The records: museum, policies, people, machines, findings and decisions, YAML",
        "rulebook": "The rules that the records are held against, one YAML file a rule",
        "schema": "JSON Schemas of every kind of record",
        "site": "The public site, which opens from disk at site/index.html",
        "reading": "The reading copy, for paper",
        "seals": "The agreements and their seals",
        "tables": "Tables of the records with a description of each",
        "history": "The whole history of the records as a git bundle",
    }
)
"""What lies in each folder of a deposit."""

Entity = dict[str, Any]


def crate_files(kit: Kit, payload: Mapping[str, bytes]) -> dict[str, bytes]:
    """Both descriptions of a payload, by name."""
    graph = list(_graph(kit, payload))
    described = {"@context": CONTEXT, "@graph": graph}
    return {METADATA: _text(described), EXPANDED: _text([_expanded(one) for one in graph])}


def _text(value: object) -> bytes:
    return (json.dumps(value, indent=1, ensure_ascii=False) + "\n").encode()


def _graph(kit: Kit, payload: Mapping[str, bytes]) -> Iterator[Entity]:
    files = sorted(path for path in payload if "/" not in path or path.startswith("records/"))
    folders = [name for name in FOLDERS if any(p.startswith(f"{name}/") for p in payload)]
    about = {f"records/{decision.file}": decision for decision in kit.decisions}
    yield {
        "@id": METADATA,
        "@type": "CreativeWork",
        "conformsTo": {"@id": PROFILE},
        "about": {"@id": "./"},
    }
    yield _root(kit, [f"{name}/" for name in folders] + files)
    yield from _around(kit)
    for name in folders:
        yield {"@id": f"{name}/", "@type": "Dataset", "name": name, "description": FOLDERS[name]}
    for path in files:
        decision = about.get(path)
        told = {"name": path} if decision is None else {
            "name": f"Decision {decision.id}: {decision.title}",
            "identifier": decision.id,
            "about": {"@id": f"#machine-{decision.machine}"},
        }  # fmt: skip
        yield {"@id": _address(path), "@type": "File", **told, **_sort_of(path, payload[path])}
    yield from _machines(kit)


def _root(kit: Kit, parts: list[str]) -> Entity:
    root: Entity = {
        "@id": "./",
        "@type": "Dataset",
        "name": f"Decisions of {kit.museum}: {kit.sort.value} deposit of {kit.day}",
        "description": description_of(kit),
        "datePublished": kit.day.isoformat(),
        "license": {"@id": _licence_id(kit)},
        "publisher": {"@id": "#museum"},
        "hasPart": [{"@id": _address(part)} for part in parts],
    }
    return root | ({"version": kit.revision} if kit.revision else {})


def description_of(kit: Kit) -> str:
    """What a deposit is, in two sentences."""
    held = (
        "the records as they stand, private fields included"
        if kit.is_sealed
        else "the public fields of the records"
    )
    return (
        "Why machines in this museum's care were mended, left or changed: every decision with its "
        f"options, reasons and outcome. It holds {held}."
    )


def _licence_id(kit: Kit) -> str:
    if kit.is_sealed:
        return "#not-for-publication"
    is_address = (kit.licence or "").startswith(("https://", "http://"))
    return str(kit.licence) if is_address else "#licence"


def _around(kit: Kit) -> Iterator[Entity]:
    museum: Entity = {"@id": "#museum", "@type": "Organization", "name": kit.museum}
    yield museum | ({"url": kit.web} if kit.web else {})
    name = kit.licence or "No licence is stated; ask the museum"
    if kit.is_sealed:
        name = "Not for publication: private fields are in it"
    yield {
        "@id": _licence_id(kit),
        "@type": "CreativeWork",
        "name": name,
        "description": "The terms on which this deposit may be used.",
    }


def _machines(kit: Kit) -> Iterator[Entity]:
    for machine, name in sorted({(d.machine, d.machine_name) for d in kit.decisions}):
        yield {"@id": f"#machine-{machine}", "@type": "Thing", "name": name}


def _sort_of(path: str, content: bytes) -> Entity:
    known = _FORMATS.get(PurePosixPath(path).suffix.lower())
    size = {"contentSize": str(len(content))}
    return size | ({"encodingFormat": known} if known else {})


def _address(path: str) -> str:
    """A path as a relative address, RFC 3986, 2.1: what is no plain sign stands as a code."""
    safe = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-._~/"
    return "".join(
        sign if sign in safe else "".join(f"%{byte:02X}" for byte in sign.encode()) for sign in path
    )


def _expanded(entity: Entity) -> Entity:
    found: Entity = {"@id": entity["@id"], "@type": [_IRIS[entity["@type"]]]}
    for word, value in entity.items():
        if not word.startswith("@"):
            found[_IRIS[word]] = [_value(one) for one in _each(value)]
    return found


def _each(value: object) -> list[object]:
    return value if isinstance(value, list) else [value]


def _value(value: object) -> object:
    return value if isinstance(value, dict) else {"@value": value}
