"""Asking for a check of a museum on disk; a light module, for the last answer may still hold."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass, replace
from hashlib import sha256
from pathlib import Path
from typing import Any

from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.repository.disk import Listing, list_museum
from witnessmark.repository.kept_file import read_kept, write_kept
from witnessmark.rules.checked import Checked


@dataclass(frozen=True)
class Part:
    """One of several parts that a check is done in, counted from 1."""

    number: int
    of: int


WHOLE = Part(1, 1)


@dataclass(frozen=True)
class Request:
    """What of a museum is to be checked, and with what help.

    `under` is the path asked for, as findings name it; `memory` the file of earlier findings, or
    None to work out everything; `jobs` the processes, by default one a core where it is worth it.
    """

    museum: Path
    under: str = ""
    memory: Path | None = None
    jobs: int | None = None
    part: Part = WHOLE


@dataclass(frozen=True)
class Answer:
    """What a check found, the decisions' files it is about, and a digest of the whole museum."""

    checked: Checked
    records: tuple[str, ...]
    museum: str


def check_museum(request: Request) -> Answer:
    """Check what is asked for; the same findings whatever is remembered and whoever helps."""
    listing = list_museum(request.museum)
    museum = _museum_digest(listing)
    last = _last_answer(request, museum)
    return last or _worked_out(request, listing, museum)


def _worked_out(request: Request, listing: Listing, museum: str) -> Answer:
    from witnessmark.repository.collection import without_collection

    with without_collection():
        # Here, since nothing else of the program is needed while the last answer holds; reading
        # the program makes a great many objects, and each hunt looks at all of them.
        from witnessmark.repository.checking import Check

        check = Check(request, listing)
        try:
            answer = replace(check.answer(), museum=museum)
            if request.memory and not check.has_changed:
                _keep(answer, request)
            return answer
        finally:
            check.close()


def digest_of_museum(folder: Path) -> str:
    """A digest of all that lies in a museum's folder now, as `Answer.museum` has it."""
    return _museum_digest(list_museum(folder))


def _museum_digest(listing: Listing) -> str:
    """A digest of everything that lies in the museum's folder, its name included."""
    files = sorted(listing.digests.items()), sorted(listing.names), sorted(listing.refused.items())
    return sha256(repr((listing.root.name, files)).encode()).hexdigest()


def _last_file(memory: Path) -> Path:
    return memory.with_name(f"{memory.stem}-last.json")


def _asked(request: Request) -> list[str | int]:
    return [request.under, request.part.number, request.part.of]


def _last_answer(request: Request, museum: str) -> Answer | None:
    """The last answer, where it was asked of the same museum in the same way."""
    body = read_kept(_last_file(request.memory)) if request.memory else None
    try:
        told: dict[str, Any] = json.loads(body) if body else {}
        if told.get("museum") != museum or told.get("asked") != _asked(request):
            return None
        found = tuple(_told_again(row) for row in told["found"])
        records = tuple(told["records"])
    except (ValueError, TypeError, KeyError, AttributeError):
        return None
    return Answer(Checked(len(records), found, ()), records, museum)


def _told_again(row: dict[str, Any]) -> Diagnostic:
    return Diagnostic(**{**row, "level": Level(row["level"]), "path": tuple(row["path"])})


def _keep(answer: Answer, request: Request) -> None:
    """Keep the answer as the last one."""
    found = [asdict(one) for one in answer.checked.diagnostics]
    told = {
        "museum": answer.museum,
        "asked": _asked(request),
        "records": answer.records,
        "found": found,
    }
    if request.memory:
        write_kept(_last_file(request.memory), json.dumps(told).encode())
