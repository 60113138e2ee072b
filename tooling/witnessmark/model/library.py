"""A whole museum as read: every file with its typed record, and look-ups by name."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any, Protocol, TypeVar

from pydantic import BaseModel

from witnessmark.model.decision import Decision
from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.model.file_names import unfit_names
from witnessmark.model.files import DECISION_FILE, MACHINE_FILE, POLICY_FILE
from witnessmark.model.files import Folder as Folder  # noqa: PLC0414  looked for here too
from witnessmark.model.findings import Finding, Findings
from witnessmark.model.machine import Machine
from witnessmark.model.museum import Museum
from witnessmark.model.people import People, Person
from witnessmark.model.policy import Policy
from witnessmark.model.shape import Shaped, shape
from witnessmark.model.source import read
from witnessmark.model.stores import Lot, Stores
from witnessmark.model.trace import Trace, Traces, trace_of

M = TypeVar("M", bound=BaseModel)


@dataclass(frozen=True)
class DecisionFile:
    """One decision as read, with the machine whose folder it lies in."""

    machine: str
    named: str
    shaped: Shaped[Decision]

    @property
    def file(self) -> str:
        """The file's name, below the museum folder's parent."""
        return self.shaped.document.file

    @property
    def id(self) -> str:
        """The id the record gives itself, or else the one its file name gives."""
        return self.shaped.value.id if self.shaped.value else self.named

    @property
    def value(self) -> Decision | None:
        """The decision, as far as it could be read."""
        return self.shaped.value


@dataclass(frozen=True)
class MachineFolder:
    """What lies in one machine's folder, as read; decisions by id, then by file."""

    name: str
    machine: Shaped[Machine] | None
    findings: Shaped[Findings] | None
    decisions: tuple[DecisionFile, ...]

    @property
    def traces(self) -> tuple[Trace, ...]:
        """Its decisions as others see them."""
        whole = self.machine.value if self.machine else None
        return tuple(_trace(entry, whole) for entry in self.decisions)


def _trace(entry: DecisionFile, whole: Machine | None) -> Trace:
    if entry.value is None:
        return Trace(entry.file, entry.machine, entry.id)
    return trace_of(entry.value, file=entry.file, machine=entry.machine, whole=whole)


class _Read(Mapping[str, M]):
    """The records of some files, as far as they could be read, by name; looked up when asked."""

    def __init__(self, files: Mapping[str, Shaped[M]]) -> None:
        self._files = files

    def __getitem__(self, name: str) -> M:
        value = self._files[name].value
        if value is None:
            raise KeyError(name)
        return value

    def __iter__(self) -> Iterator[str]:
        return (name for name in sorted(self._files) if self._files[name].value is not None)

    def __len__(self) -> int:
        return sum(1 for _ in self)


@dataclass(frozen=True, eq=False)
class Library:
    """One museum, read whole; equal only to itself, so that what is derived may be remembered.

    A museum may also be read a folder at a time: then `known` are the traces of all its decisions,
    `decisions` is empty, and `machine_files` and `finding_files` read what they are asked for.
    """

    root: str
    museum: Shaped[Museum]
    people_file: Shaped[People] | None
    stores_file: Shaped[Stores] | None
    policy_files: Mapping[str, Shaped[Policy]]
    machine_files: Mapping[str, Shaped[Machine]]
    finding_files: Mapping[str, Shaped[Findings]]
    decisions: tuple[DecisionFile, ...]
    names: frozenset[str]
    problems: tuple[Diagnostic, ...] = field(default=())
    known: Traces | None = None

    @cached_property
    def traces(self) -> Traces:
        """Every decision of the museum as others see it."""
        if self.known is not None:
            return self.known
        return Traces(tuple(_trace(e, self.machines.get(e.machine)) for e in self.decisions))

    @cached_property
    def folders(self) -> tuple[MachineFolder, ...]:
        """The machines' folders by name, each with its records."""
        found: dict[str, list[DecisionFile]] = {}
        for entry in self.decisions:
            found.setdefault(entry.machine, []).append(entry)
        return tuple(
            MachineFolder(
                name,
                self.machine_files.get(name),
                self.finding_files.get(name),
                tuple(found.get(name, ())),
            )
            for name in sorted({*self.machine_files, *self.finding_files, *found})
        )

    @cached_property
    def people(self) -> Mapping[str, Person]:
        """Role-holders by id."""
        found = self.people_file.value.people if self.people_file and self.people_file.value else ()
        return {person.id: person for person in found}

    @cached_property
    def lots(self) -> Mapping[str, Lot]:
        """Lots of old stock by id."""
        found = self.stores_file.value.lots if self.stores_file and self.stores_file.value else ()
        return {lot.id: lot for lot in found}

    @cached_property
    def machines(self) -> Mapping[str, Machine]:
        """Machines by id, the folder's name."""
        return _Read(self.machine_files)

    @cached_property
    def policies(self) -> Mapping[str, Policy]:
        """Policies by id, the file's name."""
        found = sorted(self.policy_files.items())
        return {name: shaped.value for name, shaped in found if shaped.value is not None}

    @cached_property
    def by_id(self) -> Mapping[str, DecisionFile]:
        """Decisions by id; where two claim one id, the first file in order."""
        return {entry.id: entry for entry in reversed(self.decisions)}

    def finding(self, machine: str, name: str) -> Finding | None:
        """One finding of a machine's log; the last, where several have the name."""
        log = reversed(self.findings_of(machine))
        return next((finding for finding in log if finding.id == name), None)

    def findings_of(self, machine: str) -> tuple[Finding, ...]:
        """The log of a machine, in the order written."""
        shaped = self.finding_files.get(machine)
        return shaped.value.findings if shaped and shaped.value else ()

    def decisions_of(self, machine: str) -> Iterator[Decision]:
        """The decisions of a machine that could be read, by id."""
        return (entry.value for entry in self._by_machine.get(machine, ()) if entry.value)

    @cached_property
    def _by_machine(self) -> Mapping[str, Sequence[DecisionFile]]:
        found: dict[str, list[DecisionFile]] = {}
        for entry in self.decisions:
            found.setdefault(entry.machine, []).append(entry)
        return found

    def policy_valid(self, decision: Decision) -> str | None:
        """The id of the newest policy valid when the decision was opened."""
        valid = [
            (policy.valid_from, name)
            for name, policy in self.policies.items()
            if policy.valid_from <= decision.opened
        ]
        return max(valid)[1] if valid else None


class Reading(Protocol):
    """A way of reading one file's content as a model."""

    def __call__(
        self, file: str, content: bytes, model: type[M], *, record: str | None
    ) -> Shaped[M]:
        """The file as read."""


def read_afresh(file: str, content: bytes, model: type[M], *, record: str | None) -> Shaped[M]:
    """A file's content as a model."""
    return shape(read(file, content), model, record=record)


def reading_again() -> Reading:
    """A way of reading that reads a file anew only where its content is another than the last."""
    kept: dict[str, tuple[bytes, Shaped[Any]]] = {}

    def reading(file: str, content: bytes, model: type[M], *, record: str | None) -> Shaped[M]:
        before = kept.get(file)
        if before is None or before[0] != content:
            before = kept[file] = (content, read_afresh(file, content, model, record=record))
        return before[1]

    return reading


def assemble(folder: Folder, *, reading: Reading = read_afresh) -> Library:
    """Read every file of a museum folder into one library; faults are collected, none raised."""
    root = folder.name

    def read_as(path: str, model: type[M], *, record: str | None = None) -> Shaped[M]:
        return reading(f"{root}/{path}", folder.files.get(path, b""), model, record=record)

    def optional(path: str, model: type[M]) -> Shaped[M] | None:
        return read_as(path, model) if path in folder.files else None

    decisions = []
    policies: dict[str, Shaped[Policy]] = {}
    machines: dict[str, Shaped[Machine]] = {}
    findings: dict[str, Shaped[Findings]] = {}
    for path in sorted(folder.files):
        if match := POLICY_FILE.fullmatch(path):
            policies[match["id"]] = read_as(path, Policy)
        elif match := DECISION_FILE.fullmatch(path):
            shaped = read_as(path, Decision, record=match["id"])
            decisions.append(DecisionFile(match["machine"], match["id"], shaped))
        elif match := MACHINE_FILE.fullmatch(path):
            if match["kind"] == "machine":
                machines[match["machine"]] = read_as(path, Machine)
            else:
                findings[match["machine"]] = read_as(path, Findings)
    museum = read_as("museum.yml", Museum)
    if "museum.yml" in folder.refused:
        museum = replace(museum, diagnostics=())  # it is not empty; it was not read
    return Library(
        root=root,
        museum=museum,
        people_file=optional("people.yml", People),
        stores_file=optional("stores.yml", Stores),
        policy_files=policies,
        machine_files=machines,
        finding_files=findings,
        decisions=tuple(sorted(decisions, key=lambda entry: (entry.id, entry.file))),
        names=folder.names,
        problems=tuple(folder_problems(folder)),
    )


def folder_problems(folder: Folder) -> Iterator[Diagnostic]:
    """What is wrong with which files there are; their contents are not looked at."""
    for path, (reason, remedy) in sorted(folder.refused.items()):
        yield _about_file("WM090", f"{folder.name}/{path}", reason, remedy)
    for path, why in _NEEDED.items():
        if path not in folder.files and path not in folder.refused:
            fix = f"Write {path}; the documentation shows a short one."
            yield _about_file("WM091", f"{folder.name}/{path}", f"{path} is missing.", fix, why=why)
    for path in sorted(folder.files):
        yield from _stray(folder, path)
    for path, (reason, remedy) in unfit_names(folder.files, folder.names):
        yield _about_file("WM092", f"{folder.name}/{path}", reason, remedy)


_NEEDED = {
    "people.yml": "Without the register nobody can be known to hold a role.",
    "stores.yml": "Without it, old stock and store places cannot be found.",
}


def _stray(folder: Folder, path: str) -> Iterator[Diagnostic]:
    """A YAML file that no reader looks for, or a decision whose machine is not described."""
    match = DECISION_FILE.fullmatch(path)
    machine_file = f"{match['machine']}/machine.yml" if match else ""
    if match and machine_file not in folder.files and machine_file not in folder.refused:
        yield _about_file(
            "WM091",
            f"{folder.name}/{path}",
            f"{machine_file} is missing, so this decision has no machine.",
            f"Write {folder.name}/{machine_file}, or move the decision to its machine's folder.",
        )
    known = path in {"museum.yml", "people.yml", "stores.yml"}
    known = known or any(p.fullmatch(path) for p in (POLICY_FILE, DECISION_FILE, MACHINE_FILE))
    if not known:
        yield _about_file(
            "WM092",
            f"{folder.name}/{path}",
            "This file's name says neither what it is nor which decision it holds.",
            "Name a decision like 2024-003-bushes.yml and put it in its machine's folder.",
            level=Level.WARNING,
        )


def _about_file(
    code: str, file: str, message: str, fix: str, *, why: str = "", level: Level = Level.ERROR
) -> Diagnostic:
    why = why or "Nothing may be left out of a check unseen."
    return Diagnostic(code, level, file, 1, 1, None, "", message, why, fix)
