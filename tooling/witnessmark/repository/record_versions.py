"""Every version of every record that git keeps: the day it was filed and what it then held."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date

from witnessmark.model.files import DECISION_FILE
from witnessmark.repository.history import Filed

_ABSENT = "0" * 40
_FILES = frozenset({"100644", "100755"})


@dataclass(frozen=True)
class RecordVersions:
    """The versions of each decision by id, oldest first; none are told of a shallow clone."""

    is_shallow: bool = False
    by_id: Mapping[str, tuple[tuple[date, bytes], ...]] = field(default_factory=dict)


def is_record(change: Filed) -> bool:
    """True for a change that left a decision's file behind, no link and no deletion."""
    is_file = change.mode in _FILES and change.blob != _ABSENT
    return is_file and DECISION_FILE.fullmatch(change.path) is not None


def versions_by_id(
    changes: Iterable[Filed], blobs: Mapping[str, bytes]
) -> Mapping[str, tuple[tuple[date, bytes], ...]]:
    """What each decision held after each change, by the id in its file's name.

    A move is no end of a record and no version of it, nor is a change that left the bytes alone.
    """
    found: dict[str, list[tuple[date, bytes]]] = {}
    for change in changes:
        match = DECISION_FILE.fullmatch(change.path)
        if match and is_record(change) and change.blob in blobs:
            versions = found.setdefault(match["id"], [])
            if not versions or versions[-1][1] != blobs[change.blob]:
                versions.append((change.revision.day, blobs[change.blob]))
    return {name: tuple(versions) for name, versions in sorted(found.items())}
