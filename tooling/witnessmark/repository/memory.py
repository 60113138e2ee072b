"""What earlier checks found, kept outside the museum: traces and findings of each machine's folder.

Everything is looked up by digests of all that could change it, so what is kept is never wrong, only
missing. A file that is damaged, of another program version, or somebody else's is no memory.
It is data: JSON, with the digest of its own text before it.
"""

from __future__ import annotations

import hashlib
import os
import stat
import sys
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib.metadata import version
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from witnessmark.errors import WitnessmarkError
from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.trace import Trace
from witnessmark.repository.writing import replace_text

FORMAT = "witnessmark-memory-1"
_MOST_BYTES = 256 * 1024 * 1024


@dataclass(frozen=True)
class Remembered:
    """What is known of one folder: its traces, and its findings, each with the key it holds for."""

    key: str
    traces: tuple[Trace, ...]
    verdict_key: str = ""
    found: tuple[Diagnostic, ...] = ()


@dataclass(frozen=True)
class Memory:
    """What is remembered of one museum, by the name of the machine's folder."""

    path: Path
    folders: Mapping[str, Remembered] = field(default_factory=dict)


def memory_of(museum: Path) -> Path:
    """Where the memory of a museum lies: in the user's cache folder, one file a museum."""
    base = os.environ.get("XDG_CACHE_HOME") or ""
    home = Path(base) if Path(base).is_absolute() else Path.home() / ".cache"
    name = hashlib.sha256(str(museum.resolve()).encode()).hexdigest()[:32]
    return home / "witnessmark" / f"{name}.json"


def recall(path: Path) -> Memory:
    """The memory in a file; empty where there is none that can be trusted."""
    try:
        if not _is_ours(path):
            return Memory(path)
        head, _, body = path.read_bytes().partition(b"\n")
        if head.decode() != _head(body):
            return Memory(path)
        return Memory(path, _adapter().validate_json(body))
    except (OSError, ValidationError, UnicodeDecodeError):
        return Memory(path)


def remember(memory: Memory) -> None:
    """Write the memory in one move; where the disk refuses, the next check is only slower."""
    body = _adapter().dump_json(dict(memory.folders), by_alias=True, exclude_defaults=True)
    try:
        memory.path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        if memory.path.is_symlink():
            return
        replace_text(memory.path, f"{_head(body)}\n{body.decode()}")
    except (OSError, WitnessmarkError):
        return


def _is_ours(path: Path) -> bool:
    """True for an ordinary file of ours that nobody else may write, of a size we would write."""
    status = path.lstat()
    is_own = not hasattr(os, "getuid") or status.st_uid == os.getuid()
    others = status.st_mode & (stat.S_IWGRP | stat.S_IWOTH)
    return stat.S_ISREG(status.st_mode) and is_own and not others and status.st_size <= _MOST_BYTES


def _head(body: bytes) -> str:
    return f"{FORMAT} {program_digest()} {hashlib.sha256(body).hexdigest()}"


@cache
def _adapter() -> TypeAdapter[dict[str, Remembered]]:
    return TypeAdapter(dict[str, Remembered])


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
    from importlib.metadata import PackageNotFoundError

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
