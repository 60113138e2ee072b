"""Text as a record holds it in block style, where no comma, colon or quote in it does harm."""

from __future__ import annotations

import json
from textwrap import indent, wrap

from witnessmark.model.source import read

WIDTH = 92


def folded(text: str) -> list[str]:
    """Prose in lines of a record's width."""
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

    >>> word("bronze"), word("no: 3")
    ('bronze', '"no: 3"')
    """
    bare = read("", f"alone: {text}\nlisted: [{text}]\n".encode())
    is_plain = not bare.problems and bare.data == {"alone": text, "listed": [text]}
    return text if is_plain else json.dumps(text, ensure_ascii=False)
