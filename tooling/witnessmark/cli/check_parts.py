"""A check done in parts, on several machines, and put together again."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter, ValidationError

from witnessmark.cli.opening import read_text
from witnessmark.errors import UnknownNameError
from witnessmark.model.diagnostics import Diagnostic, in_order
from witnessmark.repository.asking import Answer, Part
from witnessmark.rules.checked import Checked


def merged(paths: Sequence[str]) -> Answer:
    """One answer from the JSON of all parts of one check.

    Raises:
        UnknownNameError: a file is no such part, parts are missing, or they are of two museums.
    """
    read = [_read(Path(path)) for path in paths]
    wanted = read[0].part.of if read else 0
    numbers = sorted(one.part.number for one in read)
    if {one.part.of for one in read} != {wanted} or numbers != list(range(1, wanted + 1)):
        told = ", ".join(f"{one.part.number}/{one.part.of}" for one in read) or "no part"
        raise UnknownNameError(
            f"These are not all parts of one check: {told}.",
            remedy="Name the JSON of every part once, from 1/N to N/N.",
        )
    if len({one.museum for one in read}) > 1:
        raise UnknownNameError(
            "These parts were checked on different states of the museum.",
            remedy="Check all parts of one commit.",
        )
    records = sorted(file for one in read for file in one.files)
    found = tuple(in_order(d for one in read for d in one.diagnostics))
    return Answer(Checked(len(records), found, ()), tuple(records), read[0].museum)


class _Read:
    """The JSON of one part."""

    def __init__(self, written: dict[str, Any]) -> None:
        number, _, of = written["shard"].partition("/")
        self.part = Part(int(number), int(of))
        self.museum = str(written["museum"])
        self.files = [str(file) for file in written["files"]]
        self.diagnostics = TypeAdapter(list[Diagnostic]).validate_python(written["diagnostics"])


def _read(path: Path) -> _Read:
    text = read_text(path, what="the JSON that `check --shard K/N --format json` printed")
    try:
        return _Read(json.loads(text))
    except (ValueError, KeyError, TypeError, AttributeError, ValidationError):
        raise UnknownNameError(
            f"{path} is not the JSON of a part of a check.",
            remedy="Print it with `witnessmark check --shard K/N --format json`.",
        ) from None
