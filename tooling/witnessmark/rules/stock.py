"""Record checks across the museum: labels, ids, photos, like parts and policies."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from functools import lru_cache

from witnessmark.errors import WitnessmarkError
from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.model.library import DecisionFile, Library, MachineFolder
from witnessmark.model.machine import Photo
from witnessmark.model.policy import Policy
from witnessmark.model.remains import Path
from witnessmark.model.trace import Traces, labels_of
from witnessmark.model.words import Kept
from witnessmark.rules.report import Report
from witnessmark.weighing.case import Case, weighting_of

PICTURE = re.compile(r"photos/[A-Za-z0-9][A-Za-z0-9._-]*\.(svg|png|jpe?g|webp)")

NO_WORDS = re.compile(
    r"(?:img|dsc[fn]?|pict?|pxl|mvi|photo|foto|image|picture|drawing|sketch|untitled|scan|alt)?"
    r"[\s_.#-]*[\d\s_.-]*(?:\.\w{2,4})?|[\w-]+\.(?:svg|png|jpe?g|webp|heic|tiff?)|tb[acd]|todo|-",
    re.IGNORECASE,
)
"""A file's name, a camera's number or a stand-in (W3C, Techniques for WCAG 2.2, F30)."""


def check_names(entry: DecisionFile, library: Library, report: Report) -> Iterator[Diagnostic]:
    """The id fits the file name and is claimed once."""
    decision = entry.value
    if decision is None:
        return
    if decision.id != entry.named:
        message = f"The record says {decision.id}, its file name says {entry.named}."
        yield report.at(("id",), "WM043", message)
    first = library.traces.by_id[decision.id]
    if first.file != entry.file:
        yield report.at(("id",), "WM041", f"{decision.id} is already the id of {first.file}.")


def check_labels(entry: DecisionFile, library: Library, report: Report) -> Iterator[Diagnostic]:
    """A label names one object: one part taken off, wherever in the museum it is written."""
    owners = label_owners(library.traces)
    for one in labels_of(entry.value) if entry.value else ():
        mine = (entry.machine, one.part, entry.id, entry.file)
        first = owners[one.label.casefold()]
        if first[:3] != mine[:3] and not _is_same_object(first, mine):
            message = f"The label {one.label} already names {first[1]} in {first[3]}."
            yield report.at(one.path, "WM042", message)


@lru_cache(maxsize=8)
def label_owners(traces: Traces) -> Mapping[str, tuple[str, str, str, str]]:
    """What each label names first: machine, part, decision and file."""
    owners: dict[str, tuple[str, str, str, str]] = {}
    for trace in traces.all:
        for one in trace.labels:
            mine = (trace.machine, one.part, trace.id, trace.file)
            owners.setdefault(one.label.casefold(), mine)
    return owners


def _is_same_object(first: tuple[str, ...], mine: tuple[str, ...]) -> bool:
    """One decision's options may propose one label for one part; a refit names it again."""
    return first[0] == mine[0] and first[1] == mine[1] and mine[1].startswith("refit ")


def check_machine_file(folder: MachineFolder, library: Library) -> Iterator[Diagnostic]:
    """A machine's file: ids once, pictures there, like parts as one part with a count."""
    machine = folder.machine.value if folder.machine else None
    if folder.machine is None or machine is None:
        return
    report = Report(folder.machine)
    addresses = Counter(address for address, _, _ in machine.parts())
    for a, assembly in enumerate(machine.assemblies):
        for p, part in enumerate(assembly.parts):
            address = f"{assembly.id}/{part.id}"
            if addresses[address] > 1:
                message = f'The part "{address}" stands {addresses[address]} times.'
                yield report.at(("assemblies", a, "parts", p, "id"), "WM040", message)
        drawings = Counter(part.drawing for part in assembly.parts if part.drawing)
        for drawing, count in sorted(drawings.items()):
            if count >= 3:  # noqa: PLR2004  three like parts, DESIGN of the fabric score
                message = f"{count} parts of {assembly.name} share the drawing {drawing}."
                where: Path = ("assemblies", a, "id")
                yield report.at(where, "WM088", message, level=Level.WARNING)
    for number, photo in enumerate(machine.photos):
        yield from picture(photo, ("photos", number), folder.name, library, report)


def check_finding_file(folder: MachineFolder, library: Library) -> Iterator[Diagnostic]:
    """A machine's log: ids once, and every part, person and finding it names is there."""
    if folder.findings is None or folder.findings.value is None:
        return
    report = Report(folder.findings)
    machine = folder.machine.value if folder.machine else None
    findings = folder.findings.value.findings
    ids = [finding.id for finding in findings]
    places = {address for address, _, _ in machine.parts()} if machine else set()
    for index, finding in enumerate(findings):
        path: Path = ("findings", index)
        if finding.id in ids[:index]:
            yield report.at((*path, "id"), "WM040", f"The finding {finding.id} stands twice.")
        if finding.part and machine and finding.part not in places:
            message = f'There is no part "{finding.part}" on this machine.'
            yield report.at((*path, "part"), "WM030", message)
        if library.people and finding.by not in library.people:
            message = f'"{finding.by}" is not in the register of people.'
            yield report.at((*path, "by"), "WM032", message)
        if finding.photo:
            where: Path = (*path, "photo")
            yield from _named_picture(finding.photo, where, folder.name, library, report)
        for number, other in enumerate(finding.answers):
            if other not in ids:
                message = f'There is no finding "{other}" in this log.'
                yield report.at((*path, "answers", number), "WM031", message)


def check_pictures(case: Case, library: Library, report: Report) -> Iterator[Diagnostic]:
    """Every picture of a decision lies in its machine's photos folder."""
    decision = case.decision
    for number, photo in enumerate(decision.photos):
        yield from picture(photo, ("photos", number), case.machine_id, library, report)
    for number, photo in enumerate(decision.work.photos if decision.work else ()):
        yield from picture(photo, ("work", "photos", number), case.machine_id, library, report)


def picture(
    photo: Photo, path: Path, machine: str, library: Library, report: Report
) -> Iterator[Diagnostic]:
    """What is wrong with the name of one picture."""
    yield from _named_picture(photo.file, (*path, "file"), machine, library, report)
    if NO_WORDS.fullmatch(photo.alt.strip()):
        message = f'"{photo.alt.strip()}" does not say what the picture shows.'
        yield report.at((*path, "alt"), "WM055", message, level=Level.WARNING)


def _named_picture(
    name: str, path: Path, machine: str, library: Library, report: Report
) -> Iterator[Diagnostic]:
    if not PICTURE.fullmatch(name):
        message = f'"{name}" is not the name of a picture in photos/.'
        small = name.lower()
        fix = f'Rename the file to "{small}".' if PICTURE.fullmatch(small) else ""
        yield report.at(path, "WM045", message, fix=fix)
    elif f"{machine}/{name}" not in library.names:
        message = f"{name} is not in the folder of {machine}."
        yield report.at(path, "WM045", message)


def check_policies(library: Library) -> Iterator[Diagnostic]:
    """Weights sum to 1, lie in their ranges, and the ranges leave room."""
    for shaped in library.policy_files.values():
        report = Report(shaped)
        for kept in shaped.value.weights if shaped.value else ():
            found = _weights(shaped.value, kept, report) if shaped.value else ()
            yield from (one for one in found if not report.is_follow_on(one))


def _weights(policy: Policy, kept: Kept, report: Report) -> Iterator[Diagnostic]:
    try:
        weighting_of(policy, kept)
    except WitnessmarkError as fault:
        path: Path = ("weights", kept.value)
        message = f"{kept.value}: {fault.message}"
        yield report.at(path, "WM093", message, fix=fault.remedy, key=True)
        return
    for criterion, (low, high) in policy.ranges.get(kept, {}).items():
        if not low <= policy.weights[kept].get(criterion, 0) <= high:
            message = f"The weight of {criterion.value} is outside its range."
            where: Path = ("ranges", kept.value, criterion.value)
            yield report.at(where, "WM093", message, key=True)


def check_people(library: Library) -> Iterator[Diagnostic]:
    """People and lots: each id once, terms in order."""
    if library.people_file and library.people_file.value:
        report = Report(library.people_file)
        ids = [person.id for person in library.people_file.value.people]
        for index, person in enumerate(library.people_file.value.people):
            if person.id in ids[:index]:
                message = f'The id "{person.id}" stands twice.'
                yield report.at(("people", index, "id"), "WM040", message)
            for number, held in enumerate(person.roles):
                if held.to and held.to < held.since:
                    message = f"The role ends on {held.to}, before it begins."
                    path: Path = ("people", index, "roles", number, "to")
                    yield report.at(path, "WM056", message)
    if library.stores_file and library.stores_file.value:
        report = Report(library.stores_file)
        for field in ("lots", "places"):
            names = [thing.id for thing in getattr(library.stores_file.value, field)]
            for index, name in enumerate(names):
                if name in names[:index]:
                    yield report.at((field, index, "id"), "WM040", f'The id "{name}" stands twice.')
