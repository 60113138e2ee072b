"""Fields as YAML in block style, so that no comma or colon in a sentence does harm."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from textwrap import indent, wrap

from witnessmark.model.source import read

PROSE = frozenset({"what", "cause", "because", "note", "question", "departs_from_policy"})
WIDTH = 92

Fields = Mapping[str, "str | bool | int | Sequence[str] | Fields | None"]
"""Fields in the order they are to be written; None is a blank to fill."""


def block_text(fields: Fields, *, notes: Mapping[str, Sequence[str]] | None = None) -> str:
    """Fields one below the other, prose folded; `notes` are comment lines above a field."""
    return "\n".join(_lines(fields, notes or {}))


def _lines(fields: Fields, notes: Mapping[str, Sequence[str]]) -> Iterator[str]:
    for name, value in fields.items():
        yield from notes.get(name, ())
        if value is None:
            yield f"{name}:"
        elif isinstance(value, Mapping):
            yield f"{name}:"
            yield indent(block_text(value), "  ")
        elif isinstance(value, bool):
            yield f"{name}: {str(value).lower()}"
        elif isinstance(value, int):
            yield f"{name}: {value}"
        elif not isinstance(value, str):
            yield f"{name}: [{', '.join(map(word, value))}]"
        elif name in PROSE and value.strip():
            yield f"{name}: >-"
            yield indent("\n".join(folded(value)), "  ")
        else:
            yield f"{name}: {word(value)}"


def folded(text: str) -> list[str]:
    """Prose as lines of a folded block."""
    return wrap(" ".join(text.split()), WIDTH, break_long_words=False, break_on_hyphens=False)


def prose(name: str, text: str) -> str:
    r"""A field of prose, its text on the lines below the name; a bare name where there is none.

    >>> prose("what", "It drips: a lot")
    'what: >-\n  It drips: a lot'
    """
    if not text.strip():
        return f"{name}:"
    return f"{name}: >-\n{indent(chr(10).join(folded(text)), '  ')}"


def word(text: str) -> str:
    """A short text bare where every reader takes it as it stands, else in quotes.

    >>> word("tin bronze"), word("a: b"), word("012")
    ('tin bronze', '"a: b"', '"012"')
    """
    bare = read("", f"alone: {text}\nlisted: [{text}]\n".encode())
    is_plain = not bare.problems and bare.data == {"alone": text, "listed": [text]}
    is_plain = is_plain and not (text[:1] == "0" and text.isdigit())
    return text if is_plain else json.dumps(text, ensure_ascii=False)
