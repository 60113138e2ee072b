"""What a deposit is made from: plain values, gathered by whoever may read disk, git and records."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum


class Sort(StrEnum):
    """Which deposit it is."""

    PUBLIC = "public"
    SEALED = "sealed"


@dataclass(frozen=True, kw_only=True)
class Listed:
    """One decision as the description of a deposit names it."""

    id: str
    title: str
    machine: str
    machine_name: str
    file: str


@dataclass(frozen=True, kw_only=True)
class Agreed:
    """One agreement: whose record, in which role, on which day, under which seal.

    `file` is the record's path below records/, `by` what the person may be called here. In a sealed
    deposit `judgement` and `words` are the texts under the seals, `statement` what a detached
    signature signs and `signature` where that lies below records/.
    """

    decision: str
    file: str
    role: str
    by: str
    day: date
    seal: str
    words_seal: str | None = None
    judgement: bytes | None = None
    words: bytes | None = None
    statement: bytes | None = None
    signature: str | None = None


@dataclass(frozen=True, kw_only=True)
class Kit:
    """Everything that goes into one deposit; each mapping by path below its own folder.

    `revision` is the commit it is made from, None outside git; `is_edited` where files differ from
    that commit. `records` are the museum's files or their public copies, `readings` the reading
    copy, `tables` whatever else exchanges make, `history` a git bundle.
    """

    sort: Sort
    museum: str
    place: str | None
    about: str | None
    web: str | None
    licence: str | None
    day: date
    program: str
    revision: str | None
    is_edited: bool
    decisions: tuple[Listed, ...]
    agreed: tuple[Agreed, ...]
    records: Mapping[str, bytes]
    rulebook: Mapping[str, bytes]
    schemas: Mapping[str, bytes]
    site: Mapping[str, bytes]
    readings: Mapping[str, bytes]
    tables: Mapping[str, bytes] = field(default_factory=dict)
    history: bytes | None = None

    @property
    def is_sealed(self) -> bool:
        """True where private fields are in it."""
        return self.sort is Sort.SEALED

    @property
    def has_pdf(self) -> bool:
        """True where the reading copy is made for paper, false where it is pages to be printed."""
        return any(path.endswith(".pdf") for path in self.readings)
