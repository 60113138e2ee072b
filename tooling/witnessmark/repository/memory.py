"""What earlier checks found, kept outside the museum: traces and findings of each machine's folder.

Everything is looked up by digests of all that could change it, so what is kept is never wrong, only
missing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.trace import Trace
from witnessmark.repository.kept_file import read_kept, write_kept


@dataclass(frozen=True)
class Remembered:
    """What is known of one folder: its traces, and its findings, each with the key it holds for."""

    key: str
    traces: tuple[Trace, ...] = ()
    verdict_key: str = ""
    found: tuple[Diagnostic, ...] = ()


@dataclass(frozen=True)
class Memory:
    """What is remembered of one museum, by the name of the machine's folder."""

    path: Path
    folders: Mapping[str, Remembered] = field(default_factory=dict)


def recall(path: Path) -> Memory:
    """The memory in a file; empty where there is none that can be trusted."""
    body = read_kept(path)
    try:
        return Memory(path, {} if body is None else _adapter().validate_json(body))
    except ValidationError:
        return Memory(path)


def remember(memory: Memory) -> None:
    """Write the memory; where the disk refuses, the next check is only slower."""
    body = _adapter().dump_json(dict(memory.folders), by_alias=True, exclude_defaults=True)
    write_kept(memory.path, body)


@cache
def _adapter() -> TypeAdapter[dict[str, Remembered]]:
    return TypeAdapter(dict[str, Remembered])
