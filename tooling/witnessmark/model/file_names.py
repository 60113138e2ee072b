"""Names of files and folders that some disk, address or reader could not keep apart."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection, Iterator

from witnessmark.model.fields import DEVICES, ID_PATTERN

_LONGEST = 64
_MACHINE = re.compile(r"([^/]+)/(?:machine|findings|[0-9]{4}-[0-9]{3}(?:-[^/]*)?)\.ya?ml")

Unfit = tuple[str, tuple[str, str]]
"""A path, and why it is not fit with the remedy."""


def unfit_names(files: Collection[str], names: Collection[str]) -> Iterator[Unfit]:
    """Machine folders that are no ids, devices of Windows, and names that differ only by case."""
    seen: dict[str, str] = {}
    told: set[str] = set()
    for path in sorted((*files, *names)):
        match = _MACHINE.fullmatch(path)
        if match and match[1] not in told and not _is_id(match[1]):
            told.add(match[1])
            yield path, _NO_ID
        elif any(part.partition(".")[0].lower() in DEVICES for part in path.split("/")):
            yield path, _DEVICE
        first = seen.setdefault(_alike(path), path)
        if first != path:
            yield path, (f"This name and {first} are one to many disks.", "Rename one of them.")


_NO_ID = (
    "The folder's name is the machine's id, and it is not written in the agreed form.",
    "Use small letters a to z, digits and single hyphens, at most 64 characters.",
)
_DEVICE = (
    "Windows keeps this name for a device, so the file could not be opened there.",
    "Choose another name.",
)


def _is_id(name: str) -> bool:
    is_form = re.fullmatch(ID_PATTERN, name) is not None and not name.endswith("\n")
    return is_form and len(name) <= _LONGEST and name not in DEVICES


def _alike(path: str) -> str:
    """The path as a disk sees it that keeps neither case nor the way an accent is written."""
    if path.isascii():
        return path.lower()
    return unicodedata.normalize("NFC", path).casefold()
