"""What differs between two versions of a record, told by ids and never by list position.

A record is first put in a form in which two ways of writing the same thing are equal: defaults left
out, `part` and `parts` joined, a range that equals its likely level dropped. Members of lists are
known by their id or by what names them; order counts only where it means something.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel

from witnessmark.model.judgement import plain

Plain = Any
"""JSON-shaped values: dict, list, str, bool, None."""

Path = tuple[str, ...]
"""Names of fields, and ids of list members, from the record inwards."""

_NAMED_BY: Mapping[str, tuple[str, ...]] = {
    "steps": ("do", "parts", "from"),
    "as_done": ("do", "parts", "from"),
    "consequences": ("parts", "becomes"),
    "controls": ("order", "what"),
    "agreed": ("role", "by"),
    "waivers": ("rule",),
    "explained": ("rule",),
    "dissent": ("who",),
    "departs_from": ("decision",),
    "photos": ("file",),
    "outcome": ("date",),
    "sources": ("what",),
    "losses": ("what",),
    "second": ("by",),
    "heard": ("role", "by"),
    "interests": ("who",),
    "roles": ("role", "from"),
    "kept": ("from",),
    "elicited": ("question", "who", "when"),
}
"""What tells the members of a list apart that have no id."""

_IN_ORDER = frozenset({"steps", "as_done", "worksheets"})
_SETS = frozenset(
    {
        "about", "findings", "who", "bears_on", "relies_on", "follows", "recorded_by",
        "approver_roles", "interchanges_with", "answers", "thanks",
    }
)  # fmt: skip
_JOINED = {"part": "parts", "label": "labels"}


@dataclass(frozen=True)
class Difference:
    """One place where two versions differ; None where one of them has nothing there."""

    path: Path
    before: Plain
    after: Plain


def normal_form(record: BaseModel) -> Plain:
    """A typed record as plain data in which equal meaning is equal data."""
    return settled(plain(record.model_dump(by_alias=True, exclude_defaults=True)))


def settled(value: Plain) -> Plain:
    """Plain data with the ways of writing that mean the same made one."""
    if isinstance(value, list):
        return [settled(member) for member in value]
    if not isinstance(value, dict):
        return value
    found = {name: settled(member) for name, member in value.items()}
    if "likely" in found:
        found = {n: m for n, m in found.items() if n not in _ENDS or m != found["likely"]}
    for one, many in _JOINED.items():
        if one in found:
            found[many] = [found.pop(one), *found.get(many, [])]
    return found


_ENDS = frozenset({"low", "high"})


def differences(before: Plain, after: Plain, *, path: Path = ()) -> Iterator[Difference]:
    """Every place where two settled records differ, in the order of the later one."""
    if before == after:
        return
    if isinstance(before, dict) and isinstance(after, dict):
        yield from _in_fields(before, after, path)
        return
    if isinstance(before, list) and isinstance(after, list):
        if _is_named([*before, *after]):
            yield from _in_members(before, after, path)
            return
        if path and path[-1] in _SETS and sorted(map(str, before)) == sorted(map(str, after)):
            return
    yield Difference(path, before, after)


def _in_fields(
    before: Mapping[str, Plain], after: Mapping[str, Plain], path: Path
) -> Iterator[Difference]:
    for name in dict.fromkeys([*after, *before]):
        yield from differences(before.get(name), after.get(name), path=(*path, name))


def _is_named(members: Sequence[Plain]) -> bool:
    return bool(members) and all(isinstance(member, dict) for member in members)


def _in_members(before: list[Plain], after: list[Plain], path: Path) -> Iterator[Difference]:
    kind = path[-1] if path else ""
    old, new = named(before, kind), named(after, kind)
    yield from _in_fields(old, new, path)
    if kind in _IN_ORDER:
        stayed = [name for name in old if name in new]
        now = [name for name in new if name in old]
        if stayed != now:
            yield Difference((*path, "order"), stayed, now)


def named(members: Sequence[Plain], kind: str) -> dict[str, Plain]:
    """List members by id, or by what names them; a number tells like ones apart."""
    found: dict[str, Plain] = {}
    for member in members:
        name = _name(member, kind)
        same = sum(1 for taken in found if taken == name or taken.startswith(f"{name} #"))
        found[f"{name} #{same + 1}" if same else name] = member
    return found


def _name(member: Mapping[str, Plain], kind: str) -> str:
    if member.get("id"):
        return str(member["id"])
    parts = [member.get(field) for field in _NAMED_BY.get(kind, ())]
    words = [", ".join(map(str, p)) if isinstance(p, list) else str(p) for p in parts if p]
    return " ".join(words) or kind
