"""Checking a whole museum: every record check and every rule, in file order."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from witnessmark.model.diagnostics import Diagnostic, in_order
from witnessmark.model.library import DecisionFile, Library
from witnessmark.rules.agreement import check_seals, check_sheets
from witnessmark.rules.elicitation import check_elicitation
from witnessmark.rules.house_rules import check_house_rules
from witnessmark.rules.judging import check_judging
from witnessmark.rules.own_rules import check_own_rules
from witnessmark.rules.quantities import check_measured, check_quantities
from witnessmark.rules.references import check_references
from witnessmark.rules.report import Report
from witnessmark.rules.resting_check import check_resting
from witnessmark.rules.rulebook import RuleBook
from witnessmark.rules.rulebook_check import check_rules, check_rules_around
from witnessmark.rules.states import check_acceptance, check_states
from witnessmark.rules.stock import (
    check_labels,
    check_machine_files,
    check_names,
    check_people,
    check_pictures,
    check_policies,
    check_stock,
)
from witnessmark.weighing.case import Case, work_out


@dataclass(frozen=True)
class Checked:
    """What a check found: how many decisions were read, every finding, and the worked-out cases."""

    records: int
    diagnostics: tuple[Diagnostic, ...]
    cases: tuple[Case, ...]

    @property
    def exit_code(self) -> int:
        """0 nothing found, 1 an error or a warning."""
        return int(any(diagnostic.counts for diagnostic in self.diagnostics))


def check(library: Library, *, rulebook: RuleBook, under: str = "") -> Checked:
    """Check the museum; findings and the count are of what lies under a path (all, without one)."""
    reports = {entry.file: Report(entry.shaped, entry.id) for entry in library.decisions}
    found: list[Diagnostic] = [*library.problems, *_of_files(library)]
    found += check_rules_around(library, rulebook)
    found += check_own_rules(library)
    found += check_house_rules(library, book=rulebook.rules)
    found += check_labels(library, reports)
    cases = []
    for entry in library.decisions:
        report = reports[entry.file]
        found += entry.shaped.diagnostics
        if entry.value is not None:
            case = work_out(entry.value, entry.machine, library)
            cases.append(case)
            seen = _of_decision(entry, case, library, rulebook, report)
            found += said_once(d for d in seen if not report.is_follow_on(d))
    inside = [d for d in found if is_under(d.file, under)]
    records = sum(is_under(entry.file, under) for entry in library.decisions)
    return Checked(records, tuple(in_order(inside)), tuple(cases))


def check_one(entry: DecisionFile, library: Library, *, rulebook: RuleBook) -> list[Diagnostic]:
    """What a check of the museum says of one decision's file, without checking the others."""
    reports = {other.file: Report(other.shaped, other.id) for other in library.decisions}
    report = reports[entry.file]
    found = [d for d in check_labels(library, reports) if d.file == entry.file]
    found += entry.shaped.diagnostics
    if entry.value is not None:
        case = work_out(entry.value, entry.machine, library)
        seen = _of_decision(entry, case, library, rulebook, report)
        found += said_once(d for d in seen if not report.is_follow_on(d))
    return in_order(found)


SAME_CAUSE = {"WM150": "WM060", "WM104": "WM064"}
"""A rule, and the record check that has said the same more exactly when both speak."""


def said_once(diagnostics: Iterable[Diagnostic]) -> list[Diagnostic]:
    """The findings of a record less each rule's that a record check makes on the same option."""
    found = list(diagnostics)
    said = {(d.code, d.path[:2]) for d in found}
    return [d for d in found if (SAME_CAUSE.get(d.code), d.path[:2]) not in said]


def is_under(file: str, under: str) -> bool:
    """True when a file is the path or lies below it."""
    return not under or file == under or file.startswith(under.rstrip("/") + "/")


def _of_files(library: Library) -> Iterator[Diagnostic]:
    """Findings on everything but decisions."""
    yield from library.museum.diagnostics
    for shaped in (library.people_file, library.stores_file):
        yield from shaped.diagnostics if shaped else ()
    for policy in library.policy_files.values():
        yield from policy.diagnostics
    for machine in library.machine_files.values():
        yield from machine.diagnostics
    for findings in library.finding_files.values():
        yield from findings.diagnostics
    yield from check_machine_files(library)
    yield from check_measured(library)
    yield from check_policies(library)
    yield from check_elicitation(library)
    yield from check_people(library)


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
    yield from check_judging(case, report)
    yield from check_sheets(case, report)
    yield from check_resting(case, library, rulebook, report)
    yield from check_rules(case, library, rulebook, report)
