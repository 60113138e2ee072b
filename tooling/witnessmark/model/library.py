"""A whole museum as read: every file with its typed record, and look-ups by name."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Protocol, TypeVar

from pydantic import BaseModel

from witnessmark.model.decision import Decision
from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.model.findings import Finding, Findings
from witnessmark.model.machine import Machine
from witnessmark.model.museum import Museum
from witnessmark.model.people import People, Person
from witnessmark.model.policy import Policy
from witnessmark.model.shape import Shaped, shape
from witnessmark.model.source import read
from witnessmark.model.stores import Lot, Stores

M = TypeVar("M", bound=BaseModel)
DECISION_FILE = re.compile(r"(?P<machine>[^/]+)/(?P<id>[0-9]{4}-[0-9]{3})(-[^/]*)?\.ya?ml")
POLICY_FILE = re.compile(r"policy/(?P<id>[^/]+)\.ya?ml")
MACHINE_FILE = re.compile(r"(?P<machine>[^/]+)/(?P<kind>machine|findings)\.ya?ml")
NOT_MACHINES = frozenset({"policy", "schema"})


@dataclass(frozen=True)
class Folder:
    """What lies in a museum folder, as the disk layer found it.

    `files` are the contents by path below the museum folder; `names` are all other paths found
    (pictures); `refused` are paths that were not read, each with the reason and the remedy.
    """

    name: str
    files: Mapping[str, bytes]
    names: frozenset[str] = frozenset()
    refused: Mapping[str, tuple[str, str]] = field(default_factory=dict)


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


@dataclass(frozen=True, eq=False)
class Library:
    """One museum, read whole; equal only to itself, so that what is derived may be remembered."""

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
        found = sorted(self.machine_files.items())
        return {name: shaped.value for name, shaped in found if shaped.value is not None}

    @cached_property
    def policies(self) -> Mapping[str, Policy]:
        """Policies by id, the file's name."""
        found = sorted(self.policy_files.items())
        return {name: shaped.value for name, shaped in found if shaped.value is not None}

    @cached_property
    def by_id(self) -> Mapping[str, DecisionFile]:
        """Decisions by id; where two claim one id, the first file in order."""
        return {entry.id: entry for entry in reversed(self.decisions)}

    @cached_property
    def _findings(self) -> Mapping[tuple[str, str], Finding]:
        return {
            (machine, finding.id): finding
            for machine, shaped in self.finding_files.items()
            if shaped.value
            for finding in shaped.value.findings
        }

    def finding(self, machine: str, name: str) -> Finding | None:
        """One finding of a machine's log."""
        return self._findings.get((machine, name))

    def findings_of(self, machine: str) -> tuple[Finding, ...]:
        """The log of a machine, in the order written."""
        shaped = self.finding_files.get(machine)
        return shaped.value.findings if shaped and shaped.value else ()

    def decisions_of(self, machine: str) -> Iterator[Decision]:
        """The decisions of a machine that could be read, by id."""
        for entry in self.decisions:
            if entry.machine == machine and entry.value:
                yield entry.value

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
    return Library(
        root=root,
        museum=read_as("museum.yml", Museum),
        people_file=optional("people.yml", People),
        stores_file=optional("stores.yml", Stores),
        policy_files=policies,
        machine_files=machines,
        finding_files=findings,
        decisions=tuple(sorted(decisions, key=lambda entry: (entry.id, entry.file))),
        names=folder.names,
        problems=tuple(_folder_problems(folder)),
    )


def _folder_problems(folder: Folder) -> Iterator[Diagnostic]:
    for path, (reason, remedy) in sorted(folder.refused.items()):
        yield _about_file("WM090", f"{folder.name}/{path}", reason, remedy)
    for path, why in _NEEDED.items():
        if path not in folder.files and path not in folder.refused:
            fix = f"Write {path}; the documentation shows a short one."
            yield _about_file("WM091", f"{folder.name}/{path}", f"{path} is missing.", fix, why=why)
    for path in sorted(folder.files):
        yield from _stray(folder, path)


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
