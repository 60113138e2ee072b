"""Faults of shape in plain words: what is wrong, and what puts it right."""

from __future__ import annotations

import typing
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from witnessmark.model.remains import Path, real_path
from witnessmark.model.spelling import clear_winner

_KINDS = {
    "string_type": "Write text here, in quotes if it starts oddly.",
    "bool_as_text": "Put it in quotes if the word itself is meant.",
    "bool_form": "Write true or false.",
    "whole_form": "Write a whole number, without quotes.",
    "number_form": "Write a number such as 0.35 or 3/4, with a point and no unit.",
    "share_range": "Write a number from 0 to 1.",
    "weight_range": "Write a number of 0 or more.",
    "too_short": "Write at least one.",
    "too_long": "Write fewer values.",
    "known_form": "Write true, false or unknown.",
    "model_type": "Write named fields below this line, indented.",
    "model_attributes_type": "Write named fields below this line, indented.",
    "dict_type": "Write named fields below this line, indented.",
    "tuple_type": "Write a list: one `- ` a line, or [a, b].",
    "list_type": "Write a list: one `- ` a line, or [a, b].",
    "time_zone": "Write a name such as Etc/UTC.",
}
_FORMS = {
    "ADDRESS": "Write it as assembly/part, in small letters, digits and hyphens.",
    "ID": "Use small letters a to z, digits and single hyphens, at most 64 characters.",
}


@dataclass(frozen=True)
class Fault:
    """One thing wrong with the shape: its code, its path, and the blanks of its sentences."""

    code: str
    path: Path
    message: str
    name: str = ""
    known: str = ""
    fix: str = ""
    on_key: bool = False


def _written(value: object) -> str:
    text = str(value) if not isinstance(value, bool) else str(value).lower()
    return text if len(text) <= 40 else text[:37] + "..."  # noqa: PLR2004  fits one line


def fault_of(detail: ErrorDetails, data: object, model: type[BaseModel]) -> Fault:
    """What one error of pydantic means to whoever wrote the record."""
    kind, path, given = detail["type"], real_path(detail["loc"], data), detail["input"]
    name = str(path[-1]) if path else ""
    if kind == "missing" and path and isinstance(path[-1], int):
        fix = "Write as many values as the field takes."
        return Fault("WM074", path[:-1], "More values are wanted in this list.", fix=fix)
    if kind == "missing":
        return Fault("WM072", path, f"`{name}` is missing.", name=name)
    if kind == "extra_forbidden":
        known = fields_at(model, path[:-1])
        best = clear_winner(name, known)
        hint = f' Did you mean "{best}"?' if best else ""
        message = f'There is no field called "{name}" here.{hint}'
        fix_known = best or ", ".join(known)
        return Fault("WM012", path, message, name=name, known=fix_known, on_key=True)
    if given is None or kind == "blank_text":
        return Fault("WM073", path, f"`{name}` is blank.", name=name)
    return _value_fault(detail, path, given)


def _value_fault(detail: ErrorDetails, path: Path, given: object) -> Fault:
    kind = detail["type"]
    shown = _written(given)
    if kind in {"enum", "literal_error"}:
        wanted = str(detail.get("ctx", {}).get("expected", "")).replace("'", "")
        words = wanted.replace(" or ", ", ").split(", ")
        best = clear_winner(shown, words)
        hint = f' Did you mean "{best}"?' if best else ""
        on_key = detail["loc"][-1] == "[key]"
        known = best or ", ".join(words)
        return Fault(
            "WM075", path, f'"{shown}" is not a word for this.{hint}', known=known, on_key=on_key
        )
    if kind in {"day_form", "day_unreal"}:
        reason = (
            "is not a day in the calendar" if kind == "day_unreal" else "is not written as a date"
        )
        return Fault("WM076", path, f'"{shown}" {reason}.')
    if kind == "level_range":
        return Fault("WM077", path, f"{shown} is off the scale of 0 to 4.")
    if kind == "range_order":
        return Fault("WM079", path, "low, likely and high do not rise in order.")
    is_too_long = kind in {"string_too_long", "too_long"} and isinstance(given, str)
    if kind.startswith("string_pattern") or is_too_long:
        return Fault(
            "WM078", path, f'"{shown}" is not written in the agreed form.', fix=_form(detail)
        )
    if kind.startswith(("step_", "answer_")):
        return Fault(
            "WM069", path, detail["msg"][:1].upper() + detail["msg"][1:] + ".", fix="Add it."
        )
    if kind == "shape":
        return Fault(
            "WM074", path, f"This cannot be read here: {detail['msg']}.", fix=detail["msg"] + "."
        )
    fix = _KINDS.get(kind, detail["msg"] + ".")
    return Fault("WM074", path, f'"{shown}" is of another kind than this field takes.', fix=fix)


def _form(detail: ErrorDetails) -> str:
    pattern = str(detail.get("ctx", {}).get("pattern", ""))
    if "/" in pattern:
        return _FORMS["ADDRESS"]
    special = {
        "[0-9]{4}-[0-9]{3}$": "Write the year and three digits, as in 2024-003.",
        "f-[0-9]": "Write f- and three digits, as in f-001.",
        "[1-4][A-F]": "Write severity 1 to 4 and probability A to F, as in 2C.",
        "[0-9]{4}-[0-9]{2}": "Write the year and month, as in 2023-04.",
        "A-Za-z0-9": "Use letters, digits and single hyphens.",
    }
    return next((text for key, text in special.items() if key in pattern), _FORMS["ID"])


def fields_at(model: type[BaseModel], path: Path) -> list[str]:
    """The field names that may stand at a path of a model, in the order declared."""
    names: list[str] = []
    for leaf in models_at(model, path):
        names += [info.alias or name for name, info in leaf.model_fields.items()]
    return list(dict.fromkeys(names))


def models_at(model: type[BaseModel], path: Path) -> list[type[BaseModel]]:
    """The groups of fields that may stand at a path of a model."""
    kinds: list[Any] = [model]
    for step in path:
        kinds = [inner for kind in kinds for inner in _inside(kind, step)]
    return [leaf for kind in kinds for leaf in _models(kind)]


def _models(kind: object) -> Iterator[type[BaseModel]]:
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        yield kind
    elif typing.get_origin(kind) is not tuple:
        for inner in typing.get_args(kind):
            yield from _models(inner)


def _inside(kind: object, step: str | int) -> Iterator[Any]:
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        for name, info in kind.model_fields.items():
            if (info.alias or name) == step:
                yield info.annotation
        return
    origin, args = typing.get_origin(kind), typing.get_args(kind)
    if origin is tuple and isinstance(step, int):
        yield args[0]
    elif origin is dict:
        yield args[1]
    else:
        for inner in args:
            yield from _inside(inner, step)
