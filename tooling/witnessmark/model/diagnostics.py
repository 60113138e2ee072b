"""What a check finds: a code, a place in a file, and four plain sentences."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum


class Level(StrEnum):
    """How much a finding weighs."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True, order=True)
class Place:
    """A position in a text file, both counted from 1, columns in characters."""

    line: int
    column: int


@dataclass(frozen=True)
class Diagnostic:
    """One finding about one record: what, where, why it matters and what puts it right."""

    code: str
    level: Level
    file: str
    line: int
    column: int
    record: str | None
    field: str
    message: str
    why: str
    fix: str
    path: tuple[str | int, ...] = dataclasses.field(default=(), compare=False)

    @property
    def counts(self) -> bool:
        """True when this finding makes a check end with exit code 1."""
        return self.level is not Level.NOTE


def in_order(diagnostics: Iterable[Diagnostic]) -> list[Diagnostic]:
    """Diagnostics by file, line, column and code, each once."""
    unique = {(d.file, d.line, d.column, d.code, d.message): d for d in diagnostics}
    return [unique[key] for key in sorted(unique)]


def field_name(path: Iterable[str | int]) -> str:
    """A path as a reader would write it.

    >>> field_name(("options", 1, "steps", 0, "fate"))
    'options[1].steps[0].fate'
    """
    text = ""
    for step in path:
        text += f"[{step}]" if isinstance(step, int) else (f".{step}" if text else step)
    return text
