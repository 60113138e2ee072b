"""Files of the user's cache folder that can be trusted, or are not read at all.

A file that is damaged, of another version of the program, a link, or open to others counts as none.
It is data: JSON, with the digest of its own text before it.
"""

from __future__ import annotations

import hashlib
import os
import stat
import sys
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path

from witnessmark.errors import WitnessmarkError
from witnessmark.repository.writing import replace_text

FORMAT = "witnessmark-memory-1"
_MOST_BYTES = 256 * 1024 * 1024


def memory_of(museum: Path) -> Path:
    """Where the memory of a museum lies: in the user's cache folder, one file a museum."""
    base = os.environ.get("XDG_CACHE_HOME") or ""
    home = Path(base) if Path(base).is_absolute() else Path.home() / ".cache"
    name = hashlib.sha256(str(museum.resolve()).encode()).hexdigest()[:32]
    return home / "witnessmark" / f"{name}.json"


def pictures_of(museum: Path) -> Path:
    """Where the copies of a museum's pictures lie, in the same folder."""
    return memory_of(museum).with_suffix(".pictures")


def read_kept(path: Path) -> bytes | None:
    """What a kept file holds; None where there is none that can be trusted."""
    try:
        if not _is_ours(path):
            return None
        head, _, body = path.read_bytes().partition(b"\n")
    except OSError:
        return None
    return body if head == _head(body).encode() else None


def write_kept(path: Path, body: bytes) -> None:
    """Write a kept file in one move, or not at all where the disk refuses."""
    try:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        if not path.is_symlink():
            replace_text(path, f"{_head(body)}\n{body.decode()}")
    except (OSError, WitnessmarkError):
        return


def _is_ours(path: Path) -> bool:
    """True for an ordinary file of ours that nobody else may write, of a size we would write."""
    status = path.lstat()
    is_own = not hasattr(os, "getuid") or status.st_uid == os.getuid()
    others = status.st_mode & (stat.S_IWGRP | stat.S_IWOTH)
    return stat.S_ISREG(status.st_mode) and is_own and not others and status.st_size <= _MOST_BYTES


def _head(body: bytes) -> str:
    """The first line of a kept file: what wrote it, and the digest of what follows."""
    return f"{FORMAT} {program_digest()} {hashlib.sha256(body).hexdigest()}"


@cache
def program_digest() -> str:
    """A digest of all that computes a verdict: this program's files, its engines, and Python."""
    parts = [sys.version, *(f"{name} {version(name)}" for name in _ENGINES if _has(name))]
    told = hashlib.sha256("\n".join(parts).encode())
    for name, raw in sorted(_sources(files("witnessmark"), "")):
        told.update(f"\n{name} {len(raw)}\n".encode())
        told.update(raw)
    return told.hexdigest()


_ENGINES = ("pydantic", "pydantic-core", "pyyaml", "cel-expr-python", "cel-python", "rfc8785")
_ELSEWHERE = frozenset({"cli", "publish", "exchange", "guides", "__pycache__"})
"""Packages that show verdicts and compute none."""


def _has(name: str) -> bool:
    try:
        version(name)
    except PackageNotFoundError:
        return False
    return True


def _sources(folder: Traversable, path: str) -> list[tuple[str, bytes]]:
    found: list[tuple[str, bytes]] = []
    for entry in folder.iterdir():
        if entry.is_dir() and entry.name not in _ELSEWHERE:
            found += _sources(entry, f"{path}{entry.name}/")
        elif entry.is_file() and not entry.name.endswith(".pyc"):
            found.append((path + entry.name, entry.read_bytes()))
    return found
