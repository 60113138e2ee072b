"""How findings look in a terminal: the author's own line, what, why and how to mend it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from textwrap import wrap

from witnessmark.model.diagnostics import Diagnostic

WIDTH = 92
_UNPRINTABLE = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u200b-\u200f\u202a-\u202e\u2066-\u2069]")


def visible(text: str) -> str:
    r"""Text with control and invisible characters spelt out, so that it cannot steer a terminal.

    >>> visible("a" + chr(27) + "[2J")
    'a\\x1b[2J'
    """
    return _UNPRINTABLE.sub(lambda found: _spelt(found.group()), text)


def _spelt(character: str) -> str:
    code = ord(character)
    return f"\\x{code:02x}" if code <= 0xFF else f"<U+{code:04X}>"  # noqa: PLR2004  one byte


def folded(text: str, *, first: str, rest: str) -> list[str]:
    """A text folded to the terminal, its first line and the rest each with their own margin."""
    return wrap(
        visible(text),
        WIDTH,
        initial_indent=first,
        subsequent_indent=rest,
        # The words of records, such as fit-old-stock, are searched for and copied whole.
        break_on_hyphens=False,
    )


def quoted(diagnostic: Diagnostic, text: str) -> list[str]:
    """The line itself with a mark under the column; nothing where the file has no such line."""
    lines = text.splitlines()
    if not 0 < diagnostic.line <= len(lines):
        return []
    line, column = visible(lines[diagnostic.line - 1].expandtabs(1)), diagnostic.column
    start = max(0, column - WIDTH + 30)
    shown = line[start : start + WIDTH - 8]
    number = f"{diagnostic.line:>5}"
    mark = " " * (column - 1 - start) + "^"
    return [f"{number} | {shown}", f"{'':>5} | {mark}"]


def render_paragraph(text: str, *, indent: str = "") -> str:
    """Prose folded to the terminal, every line indented."""
    return "\n".join(folded(text, first=indent, rest=indent))


def plural(count: int, one: str, many: str | None = None) -> str:
    """A count with its noun.

    >>> plural(1, "record"), plural(2, "record")
    ('1 record', '2 records')
    """
    return f"{count} {one if count == 1 else many or one + 's'}"


def tally(diagnostics: tuple[Diagnostic, ...]) -> Iterator[str]:
    """Errors, warnings and notes counted, those that are there."""
    for level in ("error", "warning", "note"):
        count = sum(d.level.value == level for d in diagnostics)
        if count:
            yield plural(count, level)
