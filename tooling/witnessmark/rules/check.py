"""Checking a whole museum: every record check and every rule, in file order."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from witnessmark.model.diagnostics import Diagnostic, in_order
from witnessmark.model.hygiene import fit_to_print
from witnessmark.model.library import DecisionFile, Library, MachineFolder
from witnessmark.model.shape import Shaped
from witnessmark.rules.agreement import check_seals, check_sheets
from witnessmark.rules.checked import Checked, is_under
from witnessmark.rules.claims import check_stock
from witnessmark.rules.elicitation import check_elicitation
from witnessmark.rules.house_rules import check_house_rules
from witnessmark.rules.judging import check_judging
from witnessmark.rules.own_rules import check_own_rules
from witnessmark.rules.quantities import check_measured_in, check_quantities
from witnessmark.rules.references import check_references
from witnessmark.rules.report import Report
from witnessmark.rules.resting_check import check_resting
from witnessmark.rules.rulebook import RuleBook
from witnessmark.rules.rulebook_check import check_rules, check_rules_in, check_rules_of_museum
from witnessmark.rules.states import check_acceptance, check_states
from witnessmark.rules.stock import (
    check_finding_file,
    check_labels,
    check_machine_file,
    check_names,
    check_people,
    check_pictures,
    check_policies,
)
from witnessmark.rules.texts import check_texts
from witnessmark.weighing.case import Case, work_out


@dataclass(frozen=True)
class Found:
    """What was found in one machine's folder, and the worked-out cases of its records."""

    diagnostics: tuple[Diagnostic, ...]
    cases: tuple[Case, ...]


def check(library: Library, *, rulebook: RuleBook, under: str = "") -> Checked:
    """Check the museum; what is found and worked out is of what lies under a path, or of all."""
    machine = under[len(library.root) + 1 :].partition("/")[0]
    wanted = (folder for folder in library.folders if machine in ("", folder.name))
    folders = (check_folder(folder, library, rulebook) for folder in wanted)
    return put_together(library, rulebook, folders, under=under)


def put_together(
    library: Library, rulebook: RuleBook, folders: Iterable[Found], *, under: str = ""
) -> Checked:
    """A whole check, with what was found in each folder."""
    found = list(check_house(library, rulebook))
    cases: list[Case] = []
    for one in folders:
        found += one.diagnostics
        cases += one.cases
    inside = [fit_to_print(d) for d in found if is_under(d.file, under)]
    records = sum(is_under(entry.file, under) for entry in library.decisions)
    by_id = sorted(cases, key=lambda case: case.decision.id)
    return Checked(records, tuple(in_order(inside)), tuple(by_id))


def check_folder(folder: MachineFolder, library: Library, rulebook: RuleBook) -> Found:
    """Findings on one machine's folder, its records included."""
    found = list(check_machine(folder, library, rulebook))
    cases = []
    for entry in folder.decisions:
        told, case = check_decision(entry, library, rulebook)
        found += told
        cases += [case] if case else []
    return Found(tuple(found), tuple(cases))


def check_house(library: Library, rulebook: RuleBook) -> Iterator[Diagnostic]:
    """Findings on what lies above the machines' folders."""
    yield from library.problems
    around = (library.museum, library.people_file, library.stores_file)
    for one in (*around, *library.policy_files.values()):
        yield from _texts(one)
    yield from check_policies(library)
    yield from check_elicitation(library)
    yield from check_people(library)
    yield from check_rules_of_museum(library, rulebook)
    yield from check_own_rules(library)
    yield from check_house_rules(library, book=rulebook.rules)


def check_machine(
    folder: MachineFolder, library: Library, rulebook: RuleBook
) -> Iterator[Diagnostic]:
    """Findings on a machine's own two files."""
    for one in (folder.machine, folder.findings):
        yield from _texts(one)
    yield from check_machine_file(folder, library)
    yield from check_finding_file(folder, library)
    yield from check_measured_in(folder)
    yield from check_rules_in(folder, library, rulebook)


def _texts(one: Shaped[Any] | None) -> Iterator[Diagnostic]:
    """What is wrong with the shape and the texts of a file that is no decision."""
    if one:
        yield from one.diagnostics
        yield from check_texts(one, Report(one))


def check_decision(
    entry: DecisionFile, library: Library, rulebook: RuleBook
) -> tuple[list[Diagnostic], Case | None]:
    """Findings on one decision, with its worked-out case if it can be read."""
    report = Report(entry.shaped, entry.id)
    found = [*check_labels(entry, library, report), *entry.shaped.diagnostics]
    if entry.value is None:
        return found, None
    case = work_out(entry.value, entry.machine, library)
    seen = _of_decision(entry, case, library, rulebook, report)
    found += said_once(d for d in seen if not report.is_follow_on(d))
    return found, case


def check_one(entry: DecisionFile, library: Library, *, rulebook: RuleBook) -> list[Diagnostic]:
    """What a check of the museum says of one decision's file, without checking the others."""
    found, _ = check_decision(entry, library, rulebook)
    return in_order(fit_to_print(d) for d in found if d.file == entry.file)


SAME_CAUSE = {"WM150": "WM060", "WM104": "WM064"}
"""A rule, and the record check that has said the same more exactly when both speak."""


def said_once(diagnostics: Iterable[Diagnostic]) -> list[Diagnostic]:
    """The findings of a record less each rule's that a record check makes on the same option."""
    found = list(diagnostics)
    said = {(d.code, d.path[:2]) for d in found}
    return [d for d in found if (SAME_CAUSE.get(d.code), d.path[:2]) not in said]


def _of_decision(
    entry: DecisionFile, case: Case, library: Library, rulebook: RuleBook, report: Report
) -> Iterator[Diagnostic]:
    yield from check_names(entry, library, report)
    in_library: tuple[Callable[[Case, Library, Report], Iterator[Diagnostic]], ...] = (
        check_references,
        check_states,
        check_acceptance,
        check_stock,
        check_pictures,
        check_quantities,
        check_seals,
    )
    for one in in_library:
        yield from one(case, library, report)
    yield from check_texts(entry.shaped, report)
    yield from check_judging(case, report)
    yield from check_sheets(case, report)
    yield from check_resting(case, library, rulebook, report)
    yield from check_rules(case, library, rulebook, report)
