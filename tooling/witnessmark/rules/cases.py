"""The cases of rules: pieces of a record, each laid over a small museum that keeps every rule.

A piece takes the place of the record's own fields. Where both hold a list of things with an id,
such as options, the thing of the same id keeps what the piece does not speak of, and one of a new
id is added; everything else is replaced whole. A piece with the id of another decision of the base
museum is laid over that one. Lines count in the piece.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import TYPE_CHECKING, Any, TypeVar

from pydantic import BaseModel

from witnessmark.model.decision import Decision
from witnessmark.model.findings import Findings
from witnessmark.model.library import DecisionFile, Folder, Library, assemble
from witnessmark.model.machine import Machine
from witnessmark.model.museum import Museum
from witnessmark.model.shape import Shaped, shape
from witnessmark.model.source import Document, read
from witnessmark.rules.asking import breaches
from witnessmark.rules.facts import (
    Asking,
    asking_of_museum,
    askings_of_decision,
    askings_of_findings,
    askings_of_machine,
)
from witnessmark.rules.rule import Rule, Scope
from witnessmark.weighing.case import work_out

if TYPE_CHECKING:
    from witnessmark.rules.rule import Path

M = TypeVar("M", bound=BaseModel)

BASE = "case_base"
MACHINE = "shore-press"
DECISION = "2024-002"
ELSEWHERE = 0
"""Stands for the line of a complaint about something that the piece does not say."""


class CaseFault(Exception):  # noqa: N818  a fault of the rule's author, like RuleFault
    """A case cannot be read as a record; says why."""


@cache
def base_museum() -> Library:
    """The museum that every case is laid over; read from the package once."""
    return assemble(Folder(BASE, dict(_files(files(__package__) / BASE))))


def _files(folder: Traversable, above: str = "") -> Iterator[tuple[str, bytes]]:
    for entry in sorted(folder.iterdir(), key=lambda entry: entry.name):
        name = f"{above}{entry.name}"
        if entry.is_dir():
            yield from _files(entry, f"{name}/")
        elif name.endswith(".yml"):
            yield name, entry.read_bytes()


@dataclass(frozen=True)
class LaidOver:
    """A case as a record of the base museum: what rules are asked of, and the way back to lines."""

    askings: tuple[Asking, ...]
    piece: Document
    whole: Any

    def line(self, path: Path) -> int:
        """The line of the piece that a path of the whole record leads to."""
        found = _path_in(self.piece.data, self.whole, path)
        return self.piece.place(found, key=True).line if found else ELSEWHERE


def lay_over(text: str, *, scope: Scope) -> LaidOver:
    """The case over the base museum's decision, machine, findings or museum, as the scope asks.

    Raises:
        CaseFault: the case is not a piece of such a record.

    """
    base = base_museum()
    piece = read("case", text.encode())
    if scope is Scope.MUSEUM:
        museum = _over(piece, base.museum, Museum)
        asking = asking_of_museum(dataclasses.replace(base, museum=museum))
        return LaidOver((asking,), piece, museum.document.data)
    if scope is Scope.MACHINE:
        machine = _over(piece, base.machine_files[MACHINE], Machine)
        library = dataclasses.replace(base, machine_files={**base.machine_files, MACHINE: machine})
        return LaidOver(tuple(askings_of_machine(MACHINE, library)), piece, machine.document.data)
    if scope is Scope.FINDING:
        log = _over(piece, base.finding_files[MACHINE], Findings)
        library = dataclasses.replace(base, finding_files={**base.finding_files, MACHINE: log})
        return LaidOver(tuple(askings_of_findings(MACHINE, library)), piece, log.document.data)
    return _decision_over(piece, base)


def _decision_over(piece: Document, base: Library) -> LaidOver:
    entry = _base_of(piece, base)
    shaped = _over(piece, entry.shaped, Decision)
    if shaped.value is None:
        raise CaseFault("the case leaves no decision")
    others = (other for other in base.decisions if other is not entry)
    changed = DecisionFile(entry.machine, shaped.value.id, shaped)
    library = dataclasses.replace(base, decisions=(*others, changed))
    case = work_out(shaped.value, entry.machine, library)
    return LaidOver(tuple(askings_of_decision(case, library)), piece, shaped.document.data)


def _base_of(piece: Document, base: Library) -> DecisionFile:
    """The base decision that the piece names by its id, or else the one that most cases change."""
    named = piece.data.get("id", DECISION) if isinstance(piece.data, dict) else DECISION
    return base.by_id.get(str(named), base.by_id[DECISION])


def lines_complained_of(text: str, *, rule: Rule) -> tuple[int, ...]:
    """The lines of a case that a rule complains of, in order.

    Raises:
        CaseFault: the case cannot be read.
        RuleFault: the rule gave no answer.

    """
    return tuple(line for line, _ in complaints(text, rule=rule))


def complaints(text: str, *, rule: Rule) -> tuple[tuple[int, str], ...]:
    """What a rule says of a case: the line of each complaint and its words, in order of lines.

    Raises:
        CaseFault: the case cannot be read.
        RuleFault: the rule gave no answer.

    """
    case = lay_over(text, scope=rule.scope)
    found = breaches([rule], case.askings)
    return tuple(sorted((case.line(breach.path), breach.message) for breach in found))


def _over(piece: Document, base: Shaped[M], model: type[M]) -> Shaped[M]:
    if piece.problems:
        first = piece.problems[0]
        raise CaseFault(f"line {first.line} of the case: {first.message}")
    if not isinstance(piece.data, dict):
        raise CaseFault("a case is some fields of a record")
    whole = _merged(base.document.data, piece.data)
    shaped = shape(dataclasses.replace(base.document, data=whole), model)
    if not shaped.whole:
        what = shaped.diagnostics[0]
        raise CaseFault(f"the case is no such record: {what.field}: {what.message}")
    return shaped


def _merged(base: Any, piece: Any) -> Any:  # noqa: ANN401  plain data of any shape
    if not isinstance(base, dict):
        return piece
    known = {name: _joined(base.get(name), value) for name, value in piece.items()}
    return {**base, **known}


def _joined(base: Any, piece: Any) -> Any:  # noqa: ANN401  plain data of any shape
    """Things with an id laid over one another; anything else is the piece alone."""
    if not (_have_ids(base) and _have_ids(piece)):
        return piece
    over = {member["id"]: member for member in piece}
    kept = [_merged(member, over.pop(member["id"], {})) for member in base]
    return [*kept, *over.values()]


def _have_ids(value: object) -> bool:
    members = value if isinstance(value, list) else []
    return bool(members) and all(isinstance(one, Mapping) and "id" in one for one in members)


def _path_in(piece: Any, whole: Any, path: Path) -> Path:  # noqa: ANN401  plain data of any shape
    """How far the piece says what stands at a path of the whole, as a path of the piece."""
    found: list[str | int] = []
    for step in path:
        inner = _child(whole, step)
        here = _same_id(piece, inner) if isinstance(step, int) and _have_ids(piece) else step
        if here is None or not _has(piece, here):
            break
        found.append(here)
        piece, whole = piece[here], inner
    return tuple(found)


def _same_id(members: list[Any], wanted: Any) -> int | None:  # noqa: ANN401  plain data of any shape
    name = wanted["id"] if isinstance(wanted, dict) and "id" in wanted else None
    return next((n for n, member in enumerate(members) if member["id"] == name), None)


def _has(holder: object, step: str | int) -> bool:
    if isinstance(holder, dict):
        return step in holder
    return isinstance(holder, list) and isinstance(step, int) and 0 <= step < len(holder)


def _child(holder: Any, step: str | int) -> Any:  # noqa: ANN401  plain data of any shape
    return holder[step] if _has(holder, step) else None
