"""A field that is missing, written as a blank to fill with what it means above it."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap

from pydantic import BaseModel

from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.edits import WIDTH, Edit, at, put
from witnessmark.model.field_notes import note_of
from witnessmark.model.shape_faults import models_at
from witnessmark.model.source import Document


def blank_to_fill(document: Document, found: Diagnostic, model: type[BaseModel]) -> Iterator[Edit]:
    """The missing field at the end of its group, in block style."""
    *inside, name = found.path
    group = at(document.data, tuple(inside))
    place = _end_of_group(document, tuple(inside)) if isinstance(group, dict) and group else None
    if place is None or not isinstance(name, str):
        return
    index, indent = place
    end = "\r\n" if "\r\n" in document.text else "\n"
    rows = [f"{indent}{row}{end}" for row in (*guidance(model, tuple(inside), name), f"{name}:")]
    joint = "" if index == 0 or document.text[:index].endswith("\n") else end
    yield Edit(index, index, joint + "".join(rows), put(document.data, found.path, None))


def guidance(model: type[BaseModel], path: tuple[str | int, ...], name: str) -> list[str]:
    """What a field means, as comment lines; none where nobody has written it."""
    for leaf in models_at(model, path):
        try:
            note = note_of(leaf, name)
        except KeyError:
            continue
        return [f"# {row}" for row in wrap(note, WIDTH - 12, break_on_hyphens=False)]
    return []


def _end_of_group(document: Document, path: tuple[str | int, ...]) -> tuple[int, str] | None:
    """Where a group in block style ends, and how far it is set in; None for one in braces."""
    text = document.text
    group = at(document.data, path)
    names = list(group) if isinstance(group, dict) else []
    first = document.spot((*path, names[0]), key=True)
    last = document.spot((*path, names[-1]))
    if first is None or last is None or first.in_braces:
        return None
    column = first.start - (text.rfind("\n", 0, first.start) + 1)
    end = max(len(text[: last.end].rstrip()), first.end)
    line_end = text.find("\n", end)
    return (len(text) if line_end < 0 else line_end + 1), " " * column
