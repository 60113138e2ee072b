"""From what was written to typed records; every fault of shape is reported at its own place."""

from __future__ import annotations

import difflib
import typing
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from witnessmark.model.diagnostics import Diagnostic, Level, Place, field_name
from witnessmark.model.shape_codes import CODES
from witnessmark.model.source import Document

T = TypeVar("T", bound=BaseModel)
Path = tuple[str | int, ...]

_ROUNDS = 12
"""Each round takes out what the one before could not stand without; records nest less deep."""

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
class _Fault:
    """One thing wrong with the shape: its code, its path, and the blanks of its sentences."""

    code: str
    path: Path
    message: str
    name: str = ""
    known: str = ""
    fix: str = ""
    on_key: bool = False


class _Gone:
    """Stands where a faulty list member was, so that the places of the others stay right."""


_GONE = _Gone()


@dataclass(frozen=True)
class Shaped(typing.Generic[T]):
    """A record as far as it could be read.

    `whole` is true when nothing was wrong; otherwise `value` is what is left after the faulty
    pieces were taken out, good enough to look for further faults but never to publish or sign.
    """

    document: Document
    value: T | None
    whole: bool
    dropped: tuple[Path, ...]
    diagnostics: tuple[Diagnostic, ...]
    remains: Any = field(default=None, repr=False)

    def as_written(self, path: Path) -> Path:
        """The path in the file of something at a path of `value`."""
        return path if self.whole else real_path(path, self.remains)

    def place(self, path: Path, *, key: bool = False) -> Place:
        """Where in the file something at a path of `value` stands."""
        return self.document.place(self.as_written(path), key=key)


def shape(document: Document, model: type[T], *, record: str | None = None) -> Shaped[T]:
    """Read a document as a model, collecting every fault of shape."""
    if not isinstance(document.data, dict):
        return Shaped(document, None, whole=False, dropped=(), diagnostics=document.problems)
    remains: Any = document.data
    faults: list[_Fault] = []
    dropped: list[Path] = [d.path for d in document.problems]
    value: T | None = None
    for attempt in range(_ROUNDS):
        try:
            value = model.model_validate(_compact(remains) if attempt else remains)
            break
        except ValidationError as error:
            details = error.errors(include_url=False)
        if attempt == 0:
            causes = [one for one in details if not _follows(one, details)]
            faults = [_fault(detail, document.data, model) for detail in causes]
        gone = _faulty_paths(details, remains, seen=dropped)
        if not gone:
            break
        dropped += gone
        for path in gone:
            remains = _cut(remains, path)
    taken = {d.line for d in document.problems}
    found = [_diagnostic(fault, document, record) for fault in _one_a_cause(faults)]
    fresh = tuple(d for d in found if d.line not in taken)
    whole = not faults and not document.problems and value is not None
    diagnostics = document.problems + fresh
    return Shaped(document, value, whole, tuple(dropped), diagnostics, remains)


def _follows(detail: ErrorDetails, details: Sequence[ErrorDetails]) -> bool:
    """True for a list called too short only because its faulty members are not counted."""
    if detail["type"] != "too_short":
        return False
    loc = detail["loc"]
    return any(len(one["loc"]) > len(loc) and one["loc"][: len(loc)] == loc for one in details)


def _one_a_cause(faults: Sequence[_Fault]) -> Iterator[_Fault]:
    seen: set[tuple[Path, str]] = set()
    for fault in faults:
        key = (fault.path, fault.name)
        if key not in seen:
            seen.add(key)
            yield fault


def _diagnostic(fault: _Fault, document: Document, record: str | None) -> Diagnostic:
    title, why, fix = CODES[fault.code]
    place: Place = document.place(fault.path, key=fault.on_key)
    blanks = {"name": fault.name, "known": fault.known, "fix": fault.fix}
    return Diagnostic(
        code=fault.code,
        level=Level.ERROR,
        file=document.file,
        line=place.line,
        column=place.column,
        record=record,
        field=field_name(fault.path),
        message=fault.message or title,
        why=why,
        fix=fix.format(**blanks),
        path=fault.path,
    )


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


def _written(value: object) -> str:
    text = str(value) if not isinstance(value, bool) else str(value).lower()
    return text if len(text) <= 40 else text[:37] + "..."  # noqa: PLR2004  fits one line


def _fault(detail: ErrorDetails, data: object, model: type[BaseModel]) -> _Fault:
    kind, path, given = detail["type"], real_path(detail["loc"], data), detail["input"]
    name = str(path[-1]) if path else ""
    if kind == "missing" and path and isinstance(path[-1], int):
        fix = "Write as many values as the field takes."
        return _Fault("WM074", path[:-1], "More values are wanted in this list.", fix=fix)
    if kind == "missing":
        return _Fault("WM072", path, f"`{name}` is missing.", name=name)
    if kind == "extra_forbidden":
        known = fields_at(model, path[:-1])
        best = _suggestion(name, known)
        hint = f' Did you mean "{best}"?' if best else ""
        message = f'There is no field called "{name}" here.{hint}'
        fix_known = best or ", ".join(known)
        return _Fault("WM012", path, message, name=name, known=fix_known, on_key=True)
    if given is None or kind == "blank_text":
        return _Fault("WM073", path, f"`{name}` is blank.", name=name)
    return _value_fault(detail, path, given)


def _value_fault(detail: ErrorDetails, path: Path, given: object) -> _Fault:
    kind = detail["type"]
    shown = _written(given)
    if kind in {"enum", "literal_error"}:
        wanted = str(detail.get("ctx", {}).get("expected", "")).replace("'", "")
        words = wanted.replace(" or ", ", ").split(", ")
        best = _suggestion(shown, words)
        hint = f' Did you mean "{best}"?' if best else ""
        on_key = detail["loc"][-1] == "[key]"
        known = best or ", ".join(words)
        return _Fault(
            "WM075", path, f'"{shown}" is not a word for this.{hint}', known=known, on_key=on_key
        )
    if kind in {"day_form", "day_unreal"}:
        reason = (
            "is not a day in the calendar" if kind == "day_unreal" else "is not written as a date"
        )
        return _Fault("WM076", path, f'"{shown}" {reason}.')
    if kind == "level_range":
        return _Fault("WM077", path, f"{shown} is off the scale of 0 to 4.")
    if kind == "range_order":
        return _Fault("WM079", path, "low, likely and high do not rise in order.")
    is_too_long = kind in {"string_too_long", "too_long"} and isinstance(given, str)
    if kind.startswith("string_pattern") or is_too_long:
        return _Fault(
            "WM078", path, f'"{shown}" is not written in the agreed form.', fix=_form(detail)
        )
    if kind.startswith(("step_", "answer_")):
        return _Fault(
            "WM069", path, detail["msg"][:1].upper() + detail["msg"][1:] + ".", fix="Add it."
        )
    if kind == "shape":
        return _Fault(
            "WM074", path, f"This cannot be read here: {detail['msg']}.", fix=detail["msg"] + "."
        )
    fix = _KINDS.get(kind, detail["msg"] + ".")
    return _Fault("WM074", path, f'"{shown}" is of another kind than this field takes.', fix=fix)


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


def _suggestion(word: str, known: Sequence[str]) -> str | None:
    """The one name clearly meant, or None when two are about as near."""
    near = difflib.get_close_matches(word, known, n=2, cutoff=0.7)
    if not near:
        return None
    ratios = [difflib.SequenceMatcher(None, word, name).ratio() for name in near]
    clear = len(near) == 1 or ratios[0] - ratios[1] > 0.08  # noqa: PLR2004  a clear winner
    return near[0] if clear else None


def _faulty_paths(
    details: Sequence[ErrorDetails], remains: object, *, seen: Sequence[Path]
) -> list[Path]:
    """What has to go for the rest to be read: the faulty piece, or what cannot stand without it."""
    gone: list[Path] = []
    for detail in details:
        path = real_path(detail["loc"], remains)
        if detail["type"] == "missing" or path in seen:
            path = path[:-1]
        if path and path not in gone:
            gone.append(path)
    return gone


def _cut(data: Any, path: Path) -> Any:  # noqa: ANN401  plain data of any shape
    """A copy of the data without what stands at the path."""
    step, rest = path[0], path[1:]
    if isinstance(data, dict) and step in data:
        if not rest:
            return {key: value for key, value in data.items() if key != step}
        return {key: _cut(value, rest) if key == step else value for key, value in data.items()}
    if isinstance(data, list) and isinstance(step, int) and step < len(data):
        changed = _cut(data[step], rest) if rest else _GONE
        return [*data[:step], changed, *data[step + 1 :]]
    return data


def _compact(data: Any) -> Any:  # noqa: ANN401  plain data of any shape
    """The data without the marks of what is gone."""
    if isinstance(data, dict):
        return {key: _compact(value) for key, value in data.items()}
    if isinstance(data, list):
        return [_compact(member) for member in data if member is not _GONE]
    return data


def fields_at(model: type[BaseModel], path: Path) -> list[str]:
    """The field names that may stand at a path of a model, in the order declared."""
    kinds: list[Any] = [model]
    for step in path:
        kinds = [inner for kind in kinds for inner in _inside(kind, step)]
    names: list[str] = []
    for kind in kinds:
        for leaf in _models(kind):
            names += [info.alias or name for name, info in leaf.model_fields.items()]
    return list(dict.fromkeys(names))


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
