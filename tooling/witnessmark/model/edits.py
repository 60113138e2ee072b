"""One edit by marks: what is written instead, and what the file must then say."""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import dataclass
from textwrap import wrap

from witnessmark.model.build import Path, Plain
from witnessmark.model.source import Document, Spot, read

WIDTH = 100


@dataclass(frozen=True)
class Edit:
    """Text put in place of the characters from `start` to `end`; `data` is what is then said."""

    start: int
    end: int
    text: str
    data: Plain


def applied(document: Document, edit: Edit) -> Document | None:
    """The document after an edit, read again; None where anything else would change with it."""
    text = document.text[: edit.start] + edit.text + document.text[edit.end :]
    after = read(document.file, text.encode())
    before, now = (Counter(one.code for one in each.problems) for each in (document, after))
    return after if is_same(after.data, edit.data) and not now - before else None


def is_same(one: Plain, other: Plain) -> bool:
    """True when two values are equal in kind, in content and in the order of their fields."""
    if type(one) is not type(other):
        return False
    if isinstance(one, dict) and isinstance(other, dict):
        return list(one) == list(other) and all(is_same(one[name], other[name]) for name in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(is_same, one, other))
    return one == other


def at(data: Plain, path: Path) -> Plain:
    """What stands at a path; None where nothing does."""
    here = data
    for step in path:
        if isinstance(here, dict) and step in here:
            here = here[str(step)]
        elif isinstance(here, list) and isinstance(step, int) and 0 <= step < len(here):
            here = here[step]
        else:
            return None
    return here


def put(data: Plain, path: Path, value: Plain) -> Plain:
    """A copy of the data with another value at a path, or a new last field of a group there."""
    if not path:
        return value
    step, rest = path[0], path[1:]
    if isinstance(data, dict):
        return {**data, str(step): put(data.get(str(step)), rest, value)}
    if isinstance(data, list) and isinstance(step, int):
        return [put(one, rest, value) if n == step else one for n, one in enumerate(data)]
    return data


def renamed(data: Plain, path: Path, name: str) -> Plain:
    """A copy of the data with the field at a path under another name, in its old place."""
    group = at(data, path[:-1])
    if not isinstance(group, dict):
        return data
    return put(
        data, path[:-1], {name if key == path[-1] else key: one for key, one in group.items()}
    )


def in_quotes(text: str) -> str:
    """The text in double quotes, as YAML and JSON both read it."""
    return json.dumps(text, ensure_ascii=False)


def as_block(document: Document, spot: Spot, text: str) -> str | None:
    """The text as a folded block in place of a value; None where a block cannot stand."""
    before = document.text[document.text.rfind("\n", 0, spot.start) + 1 : spot.start]
    if spot.in_braces or not before.strip():
        return None
    end = "\r\n" if "\r\n" in document.text else "\n"
    indent = " " * (spot.column + 2)
    rows = wrap(text, WIDTH, break_long_words=False, break_on_hyphens=False)
    return ">-" + "".join(f"{end}{indent}{row}" for row in rows)
