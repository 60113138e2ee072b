"""Record checks: every name in a decision leads somewhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from witnessmark.model.decision import Decision
from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.library import Library
from witnessmark.model.remains import Path
from witnessmark.model.spelling import hint
from witnessmark.model.trace import steps_of
from witnessmark.model.words import Do
from witnessmark.rules.report import Report
from witnessmark.weighing.case import Case


def check_references(case: Case, library: Library, report: Report) -> Iterator[Diagnostic]:
    """Parts, findings, people, policy, lots, places and other decisions that do not exist."""
    decision, machine = case.decision, case.machine_id
    places = set(case.ground.places) if case.ground else None
    if places is not None:
        yield from _parts(decision, places, report)
    for index, name in enumerate(decision.findings):
        if library.finding(machine, name) is None:
            known = [finding.id for finding in library.findings_of(machine)]
            message = f'No finding "{name}" stands in the log of {machine}.{hint(name, known)}'
            yield report.at(("findings", index), "WM031", message)
    yield from _people(decision, library, report)
    yield from _policy(decision, library, report)
    yield from _steps(decision, library, report)
    yield from _decisions(decision, library, report)
    yield from _inside(decision, report)


def _parts(decision: Decision, places: set[str], report: Report) -> Iterator[Diagnostic]:
    known = sorted(places)
    for path, address in _addresses(decision):
        if address not in places:
            meant = hint(address, known)
            yield report.at(path, "WM030", f'There is no part "{address}" on this machine.{meant}')
    assemblies = {address.partition("/")[0] for address in decision.about}
    for path, address in _addresses(decision):
        inside = path[0] in {"options", "work"}
        if inside and address in places and address.partition("/")[0] not in assemblies:
            message = f"{address} is not in an assembly that `about` names."
            yield report.at(path, "WM044", message)


def _addresses(decision: Decision) -> Iterator[tuple[Path, str]]:
    for index, address in enumerate(decision.about):
        yield ("about", index), address
    for index, hazard in enumerate(decision.listed_hazards):
        yield from _step_addresses(("hazards", index), hazard.part, hazard.parts)
    for index, sheet in enumerate(decision.worksheets):
        for number, address in enumerate(sheet.bears_on):
            yield ("worksheets", index, "bears_on", number), address
    for path, step in steps_of(decision):
        yield from _step_addresses(path, step.part, step.parts)
    for index, option in enumerate(decision.options):
        for number, consequence in enumerate(option.listed_consequences):
            path = ("options", index, "consequences", number)
            yield from _step_addresses(path, consequence.part, consequence.parts)


def _step_addresses(
    path: Path, part: str | None, parts: Iterable[str]
) -> Iterator[tuple[Path, str]]:
    if part:
        yield (*path, "part"), part
    for number, address in enumerate(parts):
        yield (*path, "parts", number), address


def _people(decision: Decision, library: Library, report: Report) -> Iterator[Diagnostic]:
    if not library.people:
        return
    known = sorted(library.people)
    for path, name in _named(decision):
        if name not in library.people:
            message = f'"{name}" is not in the register of people.{hint(name, known)}'
            yield report.at(path, "WM032", message)


def _named(decision: Decision) -> Iterator[tuple[Path, str]]:
    yield ("proposed_by",), decision.proposed_by
    if decision.judged_by:
        yield ("judged_by", "by"), decision.judged_by.by
    for index, signature in enumerate(decision.agreed):
        yield ("agreed", index, "by"), signature.by
    for index, waiver in enumerate(decision.waivers):
        yield ("waivers", index, "approver"), waiver.approver
    if decision.accepted_risk:
        yield ("accepted_risk", "by"), decision.accepted_risk.by
    for index, heard in enumerate(decision.heard):
        yield ("heard", index, "by"), heard.by
    if decision.work and decision.work.new_loss:
        yield ("work", "new_loss", "by"), decision.work.new_loss.by
    yield from _judges(decision)
    is_list = isinstance(decision.outcome, tuple)
    for index, outcome in enumerate(decision.outcomes):
        yield ("outcome", index, "by") if is_list else ("outcome", "by"), outcome.by


def _judges(decision: Decision) -> Iterator[tuple[Path, str]]:
    for index, option in enumerate(decision.options):
        for aspect, judged in option.judged.items():
            path: Path = ("options", index, "judged", aspect.value)
            if judged.by:
                yield (*path, "by"), judged.by
            for number, second in enumerate(judged.second):
                yield (*path, "second", number, "by"), second.by


def _policy(decision: Decision, library: Library, report: Report) -> Iterator[Diagnostic]:
    path: Path = ("policy",)
    if decision.policy not in library.policies:
        known = sorted(library.policies)
        message = f'There is no policy "{decision.policy}".{hint(decision.policy, known)}'
        yield report.at(path, "WM033", message)
        return
    valid = library.policy_valid(decision)
    if valid != decision.policy and decision.departs_from_policy is None:
        newest = f"the newest valid then was {valid}" if valid else "none was valid then"
        message = f"The record was opened on {decision.opened}; {newest}, not {decision.policy}."
        yield report.at(path, "WM033", message)


def _steps(decision: Decision, library: Library, report: Report) -> Iterator[Diagnostic]:
    stores = library.stores_file.value if library.stores_file else None
    places = {place.id for place in stores.places} if stores else set()
    for path, step in steps_of(decision):
        if step.place and stores and step.place not in places:
            message = f'There is no store place "{step.place}".{hint(step.place, sorted(places))}'
            yield report.at((*path, "place"), "WM039", message)
        if step.do is Do.FIT_OLD_STOCK and stores and step.source not in library.lots:
            meant = hint(step.source or "", sorted(library.lots))
            yield report.at((*path, "from"), "WM034", f'There is no lot "{step.source}".{meant}')
        if step.do is Do.FIT_FROM_DONOR:
            yield from _donor(path, step.source or "", library, report)


def _donor(path: Path, source: str, library: Library, report: Report) -> Iterator[Diagnostic]:
    machine, _, address = source.partition("/")
    whole = library.machines.get(machine)
    parts = {listed for listed, _, _ in whole.parts()} if whole else set()
    if address not in parts:
        meant = hint(source, [f"{machine}/{listed}" for listed in sorted(parts)])
        message = f'No part "{source}" is known; a donor is machine/assembly/part.{meant}'
        yield report.at((*path, "from"), "WM034", message)


def _decisions(decision: Decision, library: Library, report: Report) -> Iterator[Diagnostic]:
    for path, name in _other_decisions(decision):
        if name == decision.id:
            yield report.at(path, "WM035", "A record cannot point to itself.")
        elif name not in library.traces.by_id:
            meant = hint(name, sorted(library.traces.by_id))
            yield report.at(path, "WM035", f'There is no decision "{name}".{meant}')


def _other_decisions(decision: Decision) -> Iterator[tuple[Path, str]]:
    for index, name in enumerate(decision.follows):
        yield ("follows", index), name
    for index, departure in enumerate(decision.departs_from):
        yield ("departs_from", index, "decision"), departure.decision
    if decision.replaced_by:
        yield ("replaced_by",), decision.replaced_by
    if decision.replaces:
        yield ("replaces",), decision.replaces


def _inside(decision: Decision, report: Report) -> Iterator[Diagnostic]:
    """Names that must stand in the record itself: the chosen option, worksheets, hazards, ids."""
    # A name may be that of a member which was taken out for a fault or blank of its own.
    unsure = {path[0] for path in report.shaped.dropped if 0 < len(path) <= len(("options", 0))}
    options = [option.id for option in decision.options]
    if decision.choice and decision.choice.option not in options and "options" not in unsure:
        meant = hint(decision.choice.option, options)
        message = f'There is no option "{decision.choice.option}" in this record.{meant}'
        yield report.at(("choice", "option"), "WM036", message)
    sheets = [sheet.id for sheet in decision.worksheets]
    hazards = [hazard.id for hazard in decision.listed_hazards]
    for index, option in enumerate(decision.options):
        for number, name in enumerate(option.relies_on):
            if name not in sheets and "worksheets" not in unsure:
                path: Path = ("options", index, "relies_on", number)
                message = f'There is no worksheet "{name}" in this record.{hint(name, sheets)}'
                yield report.at(path, "WM037", message)
        for name in option.answers:
            if name not in hazards and "hazards" not in unsure:
                message = f'There is no hazard "{name}" in this record.{hint(name, hazards)}'
                yield report.at(("options", index, "answers", name), "WM038", message, key=True)
    for field, names in (("options", options), ("worksheets", sheets), ("hazards", hazards)):
        yield from _twice(field, names, report)


def _twice(field: str, names: list[str], report: Report) -> Iterator[Diagnostic]:
    for index, name in enumerate(names):
        if name in names[:index]:
            message = f'The id "{name}" stands twice under {field}.'
            yield report.at((field, index, "id"), "WM040", message)
