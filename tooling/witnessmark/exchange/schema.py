"""JSON Schemas of every kind of file, for editors: made from the models and the notes beside them.

Two dialects: 2020-12, and draft-07 for older editors. Sources: JSON Schema 2020-12, Core, 8.2.4
(`$defs`), 10.3.1 (`prefixItems`); draft-07, Core, 8.3 (what stands beside `$ref` is ignored) and
Validation, 6.4.1 (`items` as a list, `additionalItems`).
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Annotated, Any, get_args, get_origin, get_type_hints

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from witnessmark.exchange.schema_conditions import CONDITIONS, EXAMPLES_AT_ROOT
from witnessmark.exchange.schema_shapes import Schema, Shapes, title_of
from witnessmark.model.decision import Decision
from witnessmark.model.field_notes import CHOICES, PRIVATE, PUBLIC, is_public, note_of
from witnessmark.model.findings import Findings
from witnessmark.model.machine import Machine
from witnessmark.model.museum import Museum
from witnessmark.model.people import People
from witnessmark.model.policy import Policy
from witnessmark.model.stores import Stores

NEWER = "https://json-schema.org/draft/2020-12/schema"
OLDER = "http://json-schema.org/draft-07/schema#"
KINDS: Mapping[str, tuple[type[BaseModel], str]] = MappingProxyType(
    {
        "museum": (Museum, "museum.yml: what the museum is"),
        "policy": (Policy, "policy/*.yml: one dated policy"),
        "people": (People, "people.yml: who holds which role, and when"),
        "stores": (Stores, "stores.yml: old stock and store places"),
        "machine": (Machine, "machine.yml: one machine as it stood on a day"),
        "findings": (Findings, "findings.yml: what was found on a machine"),
        "decision": (Decision, "YEAR-NNN-*.yml: one decision"),
    }
)
"""Each kind of file: its model, and what the file is."""


def schema_files() -> dict[str, str]:
    """The text of each schema by file name, the same bytes every time."""
    found: dict[str, str] = {}
    for kind in KINDS:
        newer = schema_of(kind)
        found[f"{kind}.schema.json"] = _text(newer)
        found[f"{kind}.draft-07.schema.json"] = _text(as_draft_07(newer))
    return found


def _text(schema: Schema) -> str:
    return json.dumps(schema, indent=1, ensure_ascii=False) + "\n"


def schema_of(kind: str) -> Schema:
    """The schema of one kind of file, in the dialect of 2020-12."""
    model, what = KINDS[kind]
    shapes = Shapes()
    root = _object(model, shapes)
    defined: dict[str, Schema] = {}
    while waiting := sorted(set(shapes.needed) - set(defined)):
        for name in waiting:
            defined[name] = _object(shapes.needed[name], shapes)
    return {
        "$schema": NEWER,
        "title": what,
        "description": _first_line(model),
        "defaultSnippets": EXAMPLES_AT_ROOT.get(kind, []),
        **{key: value for key, value in root.items() if key not in {"title", "description"}},
        "$defs": dict(sorted(defined.items())),
    }


def _first_line(model: type[BaseModel]) -> str:
    return (model.__doc__ or "").strip().splitlines()[0]


def _object(model: type[BaseModel], shapes: Shapes) -> Schema:
    kinds = get_type_hints(model, include_extras=True)
    properties = {
        field.alias or name: _property(model, field, kinds[name], shapes, field.alias or name)
        for name, field in model.model_fields.items()
    }
    fields = model.model_fields.items()
    return {
        "title": _first_line(model).rstrip("."),
        "type": "object",
        "additionalProperties": False,
        "required": [field.alias or name for name, field in fields if field.is_required()],
        "properties": properties,
        **CONDITIONS.get(model.__name__, {}),
    }


def _property(
    model: type[BaseModel],
    field: FieldInfo,
    kind: Any,  # noqa: ANN401  any type
    shapes: Shapes,
    written: str,
) -> Schema:
    note = note_of(model, written)
    meanings = CHOICES.get(f"{model.__name__}.{written}", CHOICES.get(written, {}))
    shown = PUBLIC if is_public(note) else PRIVATE
    shape = shapes.within(meanings, shown=shown).of(kind, _marks(kind, field))
    return {
        "title": title_of(written),
        "description": note,
        **shape,
        **_default(field),
    }


def _marks(kind: Any, field: FieldInfo) -> tuple[object, ...]:  # noqa: ANN401  any type
    """Limits set beside the type, as in `aims: tuple[..] = Field(min_length=1)`."""
    return () if get_origin(kind) is Annotated and get_args(kind)[1:] else tuple(field.metadata)


def _default(field: FieldInfo) -> Schema:
    """What is taken where nothing is written, where that is one word or number."""
    given = field.default
    if isinstance(given, str | bool | int) and not field.is_required():
        return {"default": str(given) if isinstance(given, str) else given}
    return {}


def as_draft_07(schema: Schema) -> Schema:
    """The same in draft-07: definitions by their older name, and nothing beside a reference."""
    older: Schema = _older(schema)
    return {"$schema": OLDER, **{key: value for key, value in older.items() if key != "$schema"}}


def _older(piece: Any) -> Any:  # noqa: ANN401  any piece of a schema
    if isinstance(piece, list):
        return [_older(one) for one in piece]
    if not isinstance(piece, dict):
        return piece
    return dict(_older_pairs(piece))


def _older_pairs(piece: Schema) -> Iterator[tuple[str, Any]]:
    places = piece.get("prefixItems")
    for key, value in piece.items():
        if key == "$defs":
            yield "definitions", _older(value)
        elif key == "$ref":
            ref = str(value).replace("#/$defs/", "#/definitions/")
            yield ("allOf", [{"$ref": ref}]) if len(piece) > 1 else ("$ref", ref)
        elif key == "prefixItems":
            yield "items", _older(value)
        elif key == "items" and places is not None:
            yield "additionalItems", value
        else:
            yield key, _older(value)
