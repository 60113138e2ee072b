"""What the history says was public once and is not now: git and copies of the site still hold it.

Old values are never quoted, since they may be what somebody wants forgotten.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from witnessmark.model.diagnostics import Diagnostic, Level, Place, field_name
from witnessmark.model.files import DECISION_FILE, MACHINE_FILE
from witnessmark.model.library import Library
from witnessmark.model.remains import Path
from witnessmark.model.shape import Shaped
from witnessmark.model.source import read
from witnessmark.model.words import State
from witnessmark.rules.codes import CODES

CODE = "WM099"
_PUBLIC_STATES = frozenset(
    state.value for state in (State.AGREED, State.UNDER_WAY, State.DONE, State.REPLACED)
)
# What a file must hold for anything in it to be public by its own word; saves reading the others.
_OPENS = re.compile(rb"publish|public|shown")
Mark = tuple[str, ...]
"""Something public: its kind, whose it is, and what tells it from others of the kind."""


@dataclass(frozen=True)
class Old:
    """One version of a file, by its path below the museum folder."""

    path: str
    name: str
    day: date
    content: bytes


def is_looked_at(path: str) -> bool:
    """True for the files in which something is made public or kept back."""
    is_known = path in {"people.yml", "museum.yml"}
    return is_known or any(p.fullmatch(path) for p in (DECISION_FILE, MACHINE_FILE))


def once_public(library: Library, past: Iterable[Old]) -> Iterator[Diagnostic]:
    """A warning for everything that was public in an older version and is not public now."""
    files = _files(library)
    now: set[Mark] = set()
    for shaped in files.values():
        now |= set(public_marks(_path(shaped, library), shaped.document.data))
    last: dict[Mark, tuple[str, Old]] = {}
    for old in past:
        if _OPENS.search(old.content):
            data = read(old.path, old.content).data
            last |= {mark: (said, old) for mark, said in public_marks(old.path, data).items()}
    for mark, (said, old) in sorted(last.items(), key=lambda pair: pair[0]):
        if mark not in now:
            yield _warning(files.get(f"{library.root}/{old.path}"), library.root, old, mark, said)


def public_marks(path: str, data: object) -> Mapping[Mark, str]:
    """What one file makes public, each with the words that name it and give nothing away."""
    found = data if isinstance(data, dict) else {}
    if path == "people.yml":
        return dict(_names(found))
    if path == "museum.yml":
        return dict(_shown(found))
    match = DECISION_FILE.fullmatch(path)
    if match:
        return dict(_decision(match["machine"], match["id"], found))
    match = MACHINE_FILE.fullmatch(path)
    if match is None:
        return {}
    by_kind = _photos if match["kind"] == "machine" else _findings
    return dict(by_kind(match["machine"], found))


def _names(data: Mapping[str, Any]) -> Iterator[tuple[Mark, str]]:
    for person in _rows(data, "people"):
        if isinstance(person.get("public_name"), str):
            name = str(person.get("id"))
            yield ("name", name, person["public_name"]), f"The public name that {name} had"


def _shown(data: Mapping[str, Any]) -> Iterator[tuple[Mark, str]]:
    shown = data.get("shown")
    for kind in ("money", "hours"):
        if isinstance(shown, dict) and shown.get(kind) is True:
            yield ("shown", kind), f"What every option takes in {kind}"


def _decision(machine: str, name: str, data: Mapping[str, Any]) -> Iterator[tuple[Mark, str]]:
    if data.get("publish") is not True or data.get("state") not in _PUBLIC_STATES:
        return
    yield ("record", name), f"The record {name}"
    yield from _photos(machine, data)
    work = data.get("work")
    yield from _photos(machine, work if isinstance(work, dict) else {})


def _findings(machine: str, data: Mapping[str, Any]) -> Iterator[tuple[Mark, str]]:
    for finding in _rows(data, "findings"):
        if finding.get("public") is True:
            name = str(finding.get("id"))
            yield ("finding", machine, name), f"The finding {name} of {machine}"


def _photos(machine: str, data: Mapping[str, Any]) -> Iterator[tuple[Mark, str]]:
    for photo in _rows(data, "photos"):
        if photo.get("public") is True:
            name = str(photo.get("file"))
            yield ("photo", machine, name), f"The picture {machine}/{name}"


def _rows(data: Mapping[str, Any], name: str) -> Iterator[Mapping[str, Any]]:
    rows = data.get(name)
    yield from (row for row in (rows if isinstance(rows, list) else ()) if isinstance(row, dict))


def _files(library: Library) -> dict[str, Shaped[Any]]:
    """Every file in which something is made public, by the name diagnostics use."""
    shaped: list[Shaped[Any] | None] = [library.museum, library.people_file]
    shaped += [*library.machine_files.values(), *library.finding_files.values()]
    shaped += [entry.shaped for entry in library.decisions]
    return {one.document.file: one for one in shaped if one}


def _path(shaped: Shaped[Any], library: Library) -> str:
    return shaped.document.file.removeprefix(f"{library.root}/")


def _warning(shaped: Shaped[Any] | None, root: str, old: Old, mark: Mark, said: str) -> Diagnostic:
    """The warning, in the file as it is now, or in museum.yml where that file is gone."""
    path: Path = ("publish",) if mark[0] == "record" else ()
    is_there = shaped is not None and isinstance(shaped.document.data, dict)
    if shaped and mark[0] == "name" and isinstance(shaped.document.data, dict):
        ids = [row.get("id") for row in _rows(shaped.document.data, "people")]
        path = ("people", ids.index(mark[1])) if mark[1] in ids else ()
    place = shaped.place(path) if shaped and is_there else Place(1, 1)
    standing = CODES[CODE]
    match = DECISION_FILE.fullmatch(old.path)
    return Diagnostic(
        code=CODE,
        level=Level.WARNING,
        file=f"{root}/{old.path if shaped else 'museum.yml'}",
        line=place.line,
        column=place.column,
        record=match["id"] if match else None,
        field=field_name(path),
        message=f"{said} was public on {old.day} ({old.name}) and is not public now.",
        why=standing.why,
        fix=standing.fix,
        path=path,
    )
