"""A parts list into the assemblies of a machine."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from witnessmark.exchange.incoming.cells import LeftOutError, refuse_shape, typed
from witnessmark.exchange.incoming.table import Row
from witnessmark.exchange.incoming.taking import Bench, Placed
from witnessmark.model.blank_to_fill import guidance
from witnessmark.model.block_style import block_text
from witnessmark.model.edits import at
from witnessmark.model.fields import MOST_ID
from witnessmark.model.machine import Machine, Part
from witnessmark.model.new_decision import slug
from witnessmark.model.source import Document, read
from witnessmark.model.surgery import with_item, with_member

FIELDS = (
    "machine", "assembly", "id", "name", "origin", "made_to", "count", "mass", "material",
    "drawing", "can_be_made", "interchanges_with", "last_known", "made_to_known_from", "handed",
    "held_by", "highly_stressed", "bears", "plating", "lubricant", "holds_tension", "note",
)  # fmt: skip
MODELINE = "# yaml-language-server: $schema=../schema/machine.schema.json\n"
TO_FILL = ("name", "what", "kept", "significance")


def lay_part(bench: Bench, _row: Row, given: Mapping[str, str]) -> Placed:
    """One part into its machine's file, which is begun where there is none.

    Raises:
        LeftOutError: a needed field is missing, or the part is there already.
    """
    machine, group = given.get("machine", ""), given.get("assembly", "")
    if not machine or not group or not (given.get("id") or given.get("name")):
        raise LeftOutError("A part needs `machine`, `assembly` and `name` (or `id`).")
    fields = _fields(bench, given)
    text = block_text(fields)
    refuse_shape(text, Part)
    file = f"{machine}/machine.yml"
    document = _document(bench, machine, file)
    assembly, number = _assembly(document, group)
    address = f"{assembly}/{fields['id']}"
    if number is None:
        block = f"id: {assembly}\nname: {_name(group)}\nparts:\n{_member(text)}"
        changed = with_item(document, "assemblies", block)
        number, place = len(_assemblies(document)), 0
    else:
        path = ("assemblies", number, "parts")
        place = _place_for(document, path, fields["id"], address)
        changed = with_member(document, path, text)
    bench.texts[file] = changed.text
    known = bench.library.machines.get(machine)
    return Placed(
        file,
        ("assemblies", number, "parts", place),
        f"{machine} {address}",
        is_into_old=known is not None and number < len(known.assemblies),
    )


def _fields(bench: Bench, given: Mapping[str, str]) -> dict[str, Any]:
    """The part's own fields, id and name first; an id is made from the name where none is given."""
    values = typed(given, order=bench.found.order)
    name = given.get("name") or given["id"]
    whole = {**values, "id": given.get("id") or slug(name, most=MOST_ID), "name": name}
    return {field: whole[field] for field in FIELDS[2:] if field in whole}


def _document(bench: Bench, machine: str, file: str) -> Document:
    """The machine's file as it has become so far."""
    shaped = bench.library.machine_files.get(machine)
    if file in bench.texts:
        return read(f"{bench.library.root}/{file}", bench.texts[file].encode())
    if shaped is None:
        if slug(machine, most=MOST_ID) != machine:
            raise LeftOutError(f'"{machine}" is not the name of a machine\'s folder.')
        return read(f"{bench.library.root}/{file}", _begun(bench).encode())
    if not shaped.whole:
        raise LeftOutError(f"{shaped.document.file} has faults of its own; mend them first.")
    return shaped.document


def _begun(bench: Bench) -> str:
    """A machine's file with everything but its parts still to be filled."""
    notes = {name: guidance(Machine, (), name) for name in ("as_of", *TO_FILL)}
    blank = block_text(dict.fromkeys(("as_of", *TO_FILL)), notes=notes)
    return f"{MODELINE}# Begun from {bench.source}.\nwitnessmark: 1\n{blank}\n"


def _assembly(document: Document, group: str) -> tuple[str, int | None]:
    """The id of an assembly named by id or name, and its place if it is there."""
    for number, one in enumerate(_assemblies(document)):
        names = {str(one.get(field, "")).casefold() for field in ("id", "name")}
        if group.casefold() in names:
            return str(one.get("id")), number
    name = slug(group, most=MOST_ID)
    known = [str(one.get("id")) for one in _assemblies(document)]
    if not name:
        raise LeftOutError(f'No id can be made from the assembly "{group}"; map an id.')
    return name, known.index(name) if name in known else None


def _assemblies(document: Document) -> list[dict[str, Any]]:
    found = at(document.data, ("assemblies",))
    return [one for one in found if isinstance(one, dict)] if isinstance(found, list) else []


def _place_for(document: Document, path: tuple[str | int, ...], name: str, address: str) -> int:
    there = at(document.data, path)
    members = there if isinstance(there, list) else []
    if name in [one.get("id") for one in members if isinstance(one, dict)]:
        raise LeftOutError(f"{address} is in {document.file} already, and nothing is overwritten.")
    return len(members)


def _name(group: str) -> str:
    return block_text({"name": group}).removeprefix("name: ")


def _member(text: str) -> str:
    first, *others = text.splitlines()
    return "\n".join([f"  - {first}", *(f"    {row}" for row in others)])
