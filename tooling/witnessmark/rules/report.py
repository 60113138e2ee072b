"""Diagnostics of one file, made with their place, record and standing text."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from witnessmark.model.diagnostics import Diagnostic, Level, field_name
from witnessmark.model.remains import Path
from witnessmark.model.shape import Shaped
from witnessmark.rules.codes import CODES


@dataclass(frozen=True)
class Report:
    """Makes diagnostics about one file as read."""

    shaped: Shaped[Any]
    record: str | None = None

    def at(
        self,
        path: Path,
        code: str,
        message: str,
        *,
        fix: str = "",
        level: Level = Level.ERROR,
        key: bool = False,
    ) -> Diagnostic:
        """A diagnostic at a path of the typed record."""
        standing = CODES[code]
        place = self.shaped.place(path, key=key)
        written = self.shaped.as_written(path)
        return Diagnostic(
            code=code,
            level=level,
            file=self.shaped.document.file,
            line=place.line,
            column=place.column,
            record=self.record,
            field=field_name(written),
            message=message,
            why=standing.why,
            fix=fix or standing.fix,
            path=written,
        )

    def has_lost(self, path: Path) -> bool:
        """True when something at or below a path of the typed record was dropped for a fault."""
        written = self.shaped.as_written(path)
        return any(gone[: len(written)] == written for gone in self.shaped.dropped)

    def is_follow_on(self, diagnostic: Diagnostic) -> bool:
        """True when a piece that was dropped for another fault lies at or around this place."""
        return any(_touch(diagnostic.path, gone) for gone in self.shaped.dropped if gone)


def _touch(path: Sequence[str | int], gone: Sequence[str | int]) -> bool:
    shorter = min(len(path), len(gone))
    return tuple(path[:shorter]) == tuple(gone[:shorter])
