"""How the parts of README-FIRST.txt are told: its width, its headings, its lines to be typed."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from importlib.resources import files

WIDTH = 88
SHELL = "    $ "
"""What stands before a line to be typed at a terminal."""


def text_of(name: str) -> Iterator[str]:
    """A text of this package by its lines."""
    found = files("witnessmark.exchange.deposit") / "texts" / f"{name}.txt"
    yield from found.read_text(encoding="utf-8").splitlines()


def heading(title: str) -> Iterator[str]:
    """A title and the rule below it."""
    yield from (title.upper(), "=" * len(title), "")


def wrapped(text: str, *, first: str = "", further: str = "") -> list[str]:
    """A text in lines, never broken at a hyphen; `first` and `further` stand before them."""
    return textwrap.wrap(
        text,
        WIDTH,
        initial_indent=first,
        subsequent_indent=further,
        break_on_hyphens=False,
        break_long_words=False,
    )
