"""From what was written to typed records; every fault of shape is reported at its own place."""

from __future__ import annotations

import typing
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from witnessmark.model.blanks import BLANK, is_draft, to_be_filled
from witnessmark.model.diagnostics import Diagnostic, Level, Place, field_name
from witnessmark.model.remains import Path, compact, real_path, without
from witnessmark.model.shape_codes import CODES
from witnessmark.model.shape_faults import Fault, fault_of
from witnessmark.model.source import Document
from witnessmark.model.source_codes import NUMBER, YES_NO

T = TypeVar("T", bound=BaseModel)

_DOUBTFUL = frozenset({YES_NO, NUMBER})
_ROUNDS = 12
"""Each round takes out what the one before could not stand without; records nest less deep."""


@dataclass(frozen=True)
class Shaped(typing.Generic[T]):
    """A record as far as it could be read.

    `whole` is true when nothing was wrong; otherwise `value` is what is left after the faulty
    pieces were taken out, good enough to look for further faults but never to publish or sign.
    """

    document: Document
    value: T | None
    whole: bool
    dropped: tuple[Path, ...]
    diagnostics: tuple[Diagnostic, ...]
    remains: Any = field(default=None, repr=False)

    def as_written(self, path: Path) -> Path:
        """The path in the file of something at a path of `value`."""
        return path if self.whole else real_path(path, self.remains)

    def place(self, path: Path, *, key: bool = False) -> Place:
        """Where in the file something at a path of `value` stands."""
        return self.document.place(self.as_written(path), key=key)


def shape(document: Document, model: type[T], *, record: str | None = None) -> Shaped[T]:
    """Read a document as a model, collecting every fault of shape; a draft may leave blanks."""
    if not isinstance(document.data, dict):
        return Shaped(document, None, whole=False, dropped=(), diagnostics=document.problems)
    remains: Any = document.data
    faults: list[Fault] = []
    dropped: list[Path] = []
    value: T | None = None
    for attempt in range(_ROUNDS):
        try:
            value = model.model_validate(compact(remains) if attempt else remains)
            break
        except ValidationError as error:
            details = error.errors(include_url=False)
        if attempt == 0:
            causes = [one for one in details if not _follows(one, details)]
            faults = [fault_of(detail, document.data, model) for detail in causes]
        remains, gone = without(details, remains, seen=dropped)
        if not gone:
            break
        dropped += gone
    taken = {d.line for d in document.problems if d.level is Level.ERROR}
    found = [_diagnostic(fault, document, record) for fault in _one_a_cause(faults)]
    if is_draft(document.data, model):
        found = [to_be_filled(one, model) if one.code == BLANK else one for one in found]
    problems = _with_better_fixes(document.problems, found)
    fresh = tuple(d for d in found if d.line not in taken)
    whole = not faults and not document.problems and value is not None
    diagnostics = (*problems, *fresh)
    broken = [problem.path for problem in document.problems]
    return Shaped(document, value, whole, tuple(dropped + broken), diagnostics, remains)


def _with_better_fixes(
    problems: Sequence[Diagnostic], found: Sequence[Diagnostic]
) -> Iterator[Diagnostic]:
    """Words that were doubtful to the reader, with what the field itself would take."""
    wanted = {one.path: one.fix for one in found if one.path}
    for problem in problems:
        is_doubtful = problem.code in _DOUBTFUL and problem.path in wanted
        yield replace(problem, fix=wanted[problem.path]) if is_doubtful else problem


def _follows(detail: ErrorDetails, details: Sequence[ErrorDetails]) -> bool:
    """True for a list called too short only because its faulty members are not counted."""
    if detail["type"] != "too_short":
        return False
    loc = detail["loc"]
    return any(len(one["loc"]) > len(loc) and one["loc"][: len(loc)] == loc for one in details)


def _one_a_cause(faults: Sequence[Fault]) -> Iterator[Fault]:
    seen: set[tuple[Path, str]] = set()
    for fault in faults:
        key = (fault.path, fault.name)
        if key not in seen:
            seen.add(key)
            yield fault


def _diagnostic(fault: Fault, document: Document, record: str | None) -> Diagnostic:
    title, why, fix = CODES[fault.code]
    place: Place = document.place(fault.path, key=fault.on_key)
    blanks = {"name": fault.name, "known": fault.known, "fix": fault.fix}
    return Diagnostic(
        code=fault.code,
        level=Level.ERROR,
        file=document.file,
        line=place.line,
        column=place.column,
        record=record,
        field=field_name(fault.path),
        message=fault.message or title,
        why=why,
        fix=fix.format(**blanks),
        path=fault.path,
    )
