"""What git knows of a museum's files: the day of HEAD and the last change of each file."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from types import MappingProxyType
from typing import NamedTuple

_NOTHING: Mapping[str, Revision] = MappingProxyType({})


@dataclass(frozen=True)
class Revision:
    """A version of a file: a short name for it and the day it was filed."""

    name: str
    day: date


class Filed(NamedTuple):
    """One file as a change left it: its path in the museum, its mode and the name of its bytes."""

    revision: Revision
    mode: str
    blob: str
    path: str


@dataclass(frozen=True)
class History:
    """The last revision of every file, named from the museum folder's own name on.

    `head` is None outside a git repository; `is_shallow` means that older revisions are missing,
    so that last changes may be told wrongly and are left out.
    """

    head: Revision | None = None
    is_shallow: bool = False
    last: Mapping[str, Revision] = field(default_factory=lambda: _NOTHING)


def last_changes(changes: Iterable[Filed], museum: str) -> Mapping[str, Revision]:
    """The last change of each file, from all changes, oldest first."""
    return {f"{museum}/{change.path}": change.revision for change in changes}
