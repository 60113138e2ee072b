"""What a check found; a light module, for what is remembered is told without checking anew."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from witnessmark.model.diagnostics import Diagnostic

if TYPE_CHECKING:
    from witnessmark.weighing.case import Case


@dataclass(frozen=True)
class Checked:
    """What a check found: how many decisions were read, every finding, and the worked-out cases."""

    records: int
    diagnostics: tuple[Diagnostic, ...]
    cases: tuple[Case, ...]

    @property
    def exit_code(self) -> int:
        """0 nothing found, 1 an error or a warning."""
        return int(any(diagnostic.counts for diagnostic in self.diagnostics))


def is_under(file: str, under: str) -> bool:
    """True when a file is the path or lies below it."""
    return not under or file == under or file.startswith(under.rstrip("/") + "/")
