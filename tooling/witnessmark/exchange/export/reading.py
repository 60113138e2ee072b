"""Reading what a museum publishes from the JSON texts of its site."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import TypeVar

from pydantic import TypeAdapter, ValidationError

from witnessmark.errors import UnknownNameError
from witnessmark.exchange.export.published import Decision, Machine, Museum, Published, Read
from witnessmark.model.fields import Day

FORMAT = 1
MUSEUM_JSON = "museum.json"
T = TypeVar("T", bound=Read)


def read_published(files: Mapping[str, bytes]) -> Published:
    """A museum's published data from the files of its site, by their path in it.

    Raises:
        UnknownNameError: a file is missing, or is not what this program reads; it is named.
    """
    day, museum = _read(MUSEUM_JSON, files, "museum", Museum)
    return Published(
        as_of=day,
        museum=museum,
        machines=tuple(
            _read(f"m/{name}/machine.json", files, "machine", Machine)[1]
            for name in sorted(museum.machines)
        ),
        decisions=tuple(
            _read(f"d/{name}/decision.json", files, "decision", Decision)[1]
            for name in sorted(museum.decisions)
        ),
    )


def read_decision(content: bytes) -> Decision:
    """One decision from the JSON text beside its page.

    Raises:
        UnknownNameError: it is not what this program reads.
    """
    return _read("decision.json", {"decision.json": content}, "decision", Decision)[1]


def names_wanted(museum_json: bytes) -> tuple[str, ...]:
    """The paths, in the site, of all that a museum.json says there is, itself first.

    Raises:
        UnknownNameError: it is not what this program reads.
    """
    _, museum = _read(MUSEUM_JSON, {MUSEUM_JSON: museum_json}, "museum", Museum)
    machines = (f"m/{name}/machine.json" for name in museum.machines)
    return (MUSEUM_JSON, *machines, *(f"d/{name}/decision.json" for name in museum.decisions))


def _read(path: str, files: Mapping[str, bytes], kind: str, model: type[T]) -> tuple[str, T]:
    """The day of a file, and what it holds."""
    if path not in files:
        raise UnknownNameError(
            f"{path} is not there, so the published data is not whole.",
            remedy="Take every file that museum.json names.",
        )
    whole = _parsed(path, files[path])
    version = whole.get("witnessmark_public")
    if version != FORMAT or whole.get("kind") != kind:
        raise UnknownNameError(
            f"{path} is not public data of a {kind} in format {FORMAT}.",
            remedy="Take the file from the museum's site as it is, or use a newer program.",
        )
    try:
        day = TypeAdapter(Day).validate_python(whole.get("as_of"))
        return day.isoformat(), model.model_validate(whole.get(kind))
    except ValidationError as fault:
        raise _faulty(path, kind, fault) from None


def _parsed(path: str, content: bytes) -> Mapping[str, object]:
    try:
        whole = json.loads(content)
    except (ValueError, RecursionError):
        whole = None
    if not isinstance(whole, dict):
        raise UnknownNameError(
            f"{path} is not a JSON text that holds one mapping.",
            remedy="Take the file from the museum's site as it is.",
        )
    return whole


def _faulty(path: str, kind: str, fault: ValidationError) -> UnknownNameError:
    """The first thing that is not as the format has it, with its place."""
    first = fault.errors(include_url=False, include_input=False)[0]
    place = ".".join(str(step) for step in (kind, *first["loc"]))
    return UnknownNameError(
        f"{path} has something else at {place} than the format asks for: {first['msg']}.",
        remedy="Take the file from the museum's site as it is, or use a newer program.",
    )
