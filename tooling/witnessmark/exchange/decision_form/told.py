"""What is said to somebody who filled in a form: the line, what, why and what puts it right."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Told:
    """One message; where it stops, no record is written until it is put right."""

    line: int
    what: str
    why: str
    fix: str
    stops: bool = True
