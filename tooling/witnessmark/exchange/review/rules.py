"""Rules newly broken and mended between two sides, by code, record and field."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from witnessmark.exchange.review.sides import Side
from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.model.differences import Plain, named
from witnessmark.weighing.changes.change import Change, Kind, Weight

_TOLD_WITH_SEALS = frozenset({"WM080", "WM081"})
_WEIGHTS = {Level.ERROR: Weight.PERSON, Level.WARNING: Weight.LOOK, Level.NOTE: Weight.NOTE}
Key = tuple[str, str, str]


def rule_changes(base: Side, head: Side) -> Iterator[Change]:
    """Findings that only one side has."""
    before, after = _found(base), _found(head)
    old, new = Counter(key for key, _ in before), Counter(key for key, _ in after)
    for key, diagnostic in _only(after, new - old):
        place = f"{diagnostic.file}:{diagnostic.line}"
        says = f"{diagnostic.code}: {diagnostic.message}"
        yield Change.of(
            Kind.RULE_NEW, key[1], diagnostic.field, says, place=place,
            weight=_WEIGHTS[diagnostic.level], remarks=(diagnostic.fix,),
        )  # fmt: skip
    for key, diagnostic in _only(before, old - new):
        says = f"{diagnostic.code}: {diagnostic.message}"
        yield Change.of(Kind.RULE_MENDED, key[1], diagnostic.field, says)


def still_open(base: Side, head: Side) -> int:
    """How many findings stand on both sides."""
    old, new = Counter(key for key, _ in _found(base)), Counter(key for key, _ in _found(head))
    return sum((old & new).values())


def _only(
    found: list[tuple[Key, Diagnostic]], wanted: Counter[Key]
) -> Iterator[tuple[Key, Diagnostic]]:
    left = wanted.copy()
    for key, diagnostic in found:
        if left[key] > 0:
            left[key] -= 1
            yield key, diagnostic


def _found(side: Side) -> list[tuple[Key, Diagnostic]]:
    data = {e.file: e.shaped.document.data for e in side.library.decisions}
    return [(_key(d, data), d) for d in side.checked.diagnostics if d.code not in _TOLD_WITH_SEALS]


def _key(diagnostic: Diagnostic, data: Mapping[str, Plain]) -> Key:
    record = diagnostic.record or diagnostic.file
    return diagnostic.code, record, stable_field(diagnostic, data.get(diagnostic.file))


def stable_field(diagnostic: Diagnostic, record: Plain) -> str:
    """The field with ids in place of list positions, so that a member put in before moves none."""
    here = record
    steps: list[str] = []
    for step in diagnostic.path:
        if isinstance(step, int) and isinstance(here, list) and step < len(here):
            steps.append(_member(here, step, steps[-1] if steps else ""))
            here = here[step]
        else:
            steps.append(str(step))
            here = here.get(step) if isinstance(here, dict) else None
    return ".".join(steps) or diagnostic.field


def _member(members: list[Plain], index: int, kind: str) -> str:
    if all(isinstance(member, dict) for member in members):
        return list(named(members, kind))[index]
    return str(members[index])
