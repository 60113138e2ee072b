"""A record's data less its faulty pieces, so that the rest can still be looked at."""

from __future__ import annotations

import calendar
import re
from collections.abc import Sequence
from typing import Any, Final

from pydantic_core import ErrorDetails

Path = tuple[str | int, ...]


class _Gone:
    """Stands where a faulty list member was, so that the places of the others stay right."""


_GONE: Final = _Gone()
_STATES: Final[Path] = ("state",)
_FORM_OF_A_DAY = re.compile(r"([0-9]{4})-(0[1-9]|1[0-2])-(3[0-9]|[0-2][0-9])")


def real_path(loc: Sequence[str | int], data: object) -> Path:
    """The part of a location that exists in the file, without the reader's own marks."""
    path: list[str | int] = []
    here: Any = data
    for step in loc:
        if _is_mark(step, here):
            continue
        real = _nth_left(here, step) if isinstance(here, list) and isinstance(step, int) else step
        path.append(real)
        here = _child(here, real)
    return tuple(path)


def _is_mark(step: str | int, here: object) -> bool:
    """True for a step that only the reader knows: which of several shapes, or the name itself."""
    if not isinstance(step, str) or (isinstance(here, dict) and step in here):
        return False
    return step == "[key]" or (step.startswith("<") and step.endswith(">"))


def _nth_left(members: list[Any], wanted: int) -> int:
    left = [index for index, member in enumerate(members) if member is not _GONE]
    return left[wanted] if wanted < len(left) else wanted


def _child(here: object, step: str | int) -> object:
    if isinstance(here, dict):
        return here.get(step)
    if isinstance(here, list) and isinstance(step, int) and step < len(here):
        return here[step]
    return None


def without(
    details: Sequence[ErrorDetails],
    data: Any,  # noqa: ANN401  plain data of any shape
    *,
    seen: Sequence[Path],
) -> tuple[Any, list[Path]]:
    """The data without what is faulty, and the paths that were taken out or stood in for.

    What cannot stand without its faulty piece goes with it in the next round.
    """
    gone: list[Path] = []
    # Every place is read from the data as it was judged, before the first piece is taken out.
    placed = [(detail, real_path(detail["loc"], data)) for detail in details]
    for detail, path in placed:
        instead = _stand_in(detail, path) if path not in seen else None
        if instead is None and (detail["type"] == "missing" or path in seen):
            path = path[:-1]  # noqa: PLW2901  what holds the missing piece goes
        if path and path not in gone:
            gone.append(path)
            data = _put(data, path, _GONE if instead is None else instead)
    return data, gone


def _stand_in(detail: ErrorDetails, path: Path) -> str | None:
    """A value to read on with: the nearest real day, or draft for a state that cannot be read."""
    if detail["type"] == "day_unreal":
        found = _FORM_OF_A_DAY.fullmatch(str(detail["input"]))
        if found and int(found[1]):
            last = calendar.monthrange(int(found[1]), int(found[2]))[1]
            return f"{found[1]}-{found[2]}-{min(max(int(found[3]), 1), last):02d}"
    return "draft" if path == _STATES and detail["type"] == "enum" else None


def _put(data: Any, path: Path, value: object) -> Any:  # noqa: ANN401  plain data of any shape
    """A copy of the data with another value at a path, or without what stands there."""
    step, rest = path[0], path[1:]
    if isinstance(data, dict) and step in data:
        if not rest and value is _GONE:
            return {key: member for key, member in data.items() if key != step}
        changed = _put(data[step], rest, value) if rest else value
        return {key: changed if key == step else member for key, member in data.items()}
    if isinstance(data, list) and isinstance(step, int) and step < len(data):
        changed = _put(data[step], rest, value) if rest else value
        return [*data[:step], changed, *data[step + 1 :]]
    return data


def compact(data: Any) -> Any:  # noqa: ANN401  plain data of any shape
    """The data without the marks of what is gone."""
    if isinstance(data, dict):
        return {key: compact(value) for key, value in data.items()}
    if isinstance(data, list):
        return [compact(member) for member in data if member is not _GONE]
    return data
