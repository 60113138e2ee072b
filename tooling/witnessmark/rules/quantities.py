"""Record checks: quantities outside worksheets can be read."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.library import Library, MachineFolder
from witnessmark.model.quantity import QuantityFault, convert, parse_quantity, parse_use
from witnessmark.model.remains import Path
from witnessmark.model.trace import steps_of
from witnessmark.rules.report import Report
from witnessmark.weighing.case import Case


def check_quantities(case: Case, library: Library, report: Report) -> Iterator[Diagnostic]:
    """A number that begins `look_again.or_after` is a measure of use; rubber has a thickness."""
    del library
    again = case.decision.look_again
    if again and again.or_after and again.or_after[0].isdigit():
        yield from _unread(again.or_after, parse_use, ("look_again", "or_after"), report)
    if again and again.expects:
        for number, written in enumerate(again.expects):
            yield from _unread(written, parse_quantity, ("look_again", "expects", number), report)
    yield from _outcomes(case, report)
    for path, step in steps_of(case.decision):
        if step.rubber_left:
            yield from _unread(step.rubber_left, _thickness, (*path, "rubber_left"), report)


def _outcomes(case: Case, report: Report) -> Iterator[Diagnostic]:
    """What a second look measured can be read, and held against what was expected."""
    is_list = isinstance(case.decision.outcome, tuple)
    for index, outcome in enumerate(case.decision.outcomes):
        start: Path = ("outcome", index) if is_list else ("outcome",)
        sizes = [((*start, "expected", n), one) for n, one in enumerate(outcome.expected or ())]
        if outcome.measured:
            sizes.append(((*start, "measured"), outcome.measured))
        for path, written in sizes:
            like = outcome.expected[0] if outcome.expected else written
            yield from _unread(written, partial(_alike, like=like), path, report)


def _alike(written: str, *, like: str) -> object:
    """A quantity that measures the same as another one that can be read."""
    found = parse_quantity(written)
    try:
        unit = parse_quantity(like).unit
    except QuantityFault:
        return found
    return convert(found, unit)


def check_measured(library: Library) -> Iterator[Diagnostic]:
    """Masses of parts and measurements of findings have a number and a unit, museum-wide."""
    for folder in library.folders:
        yield from check_measured_in(folder)


def check_measured_in(folder: MachineFolder) -> Iterator[Diagnostic]:
    """Masses of parts and measurements of findings in one folder have a number and a unit."""
    shaped, log = folder.machine, folder.findings
    for a, assembly in enumerate(shaped.value.assemblies if shaped and shaped.value else ()):
        for p, part in enumerate(assembly.parts):
            path: Path = ("assemblies", a, "parts", p, "mass")
            if shaped and part.mass:
                yield from _unread(part.mass, _mass, path, Report(shaped))
    for number, finding in enumerate(log.value.findings if log and log.value else ()):
        given = {"measurement": finding.measurement, "limit": finding.limit}
        for name, written in given.items():
            if log and written:
                yield from _unread(written, parse_quantity, ("findings", number, name), Report(log))


def _mass(written: str) -> object:
    return convert(parse_quantity(written), "kg")


def _thickness(written: str) -> object:
    return convert(parse_quantity(written), "mm")


def _unread(
    written: str, read: Callable[[str], object], path: Path, report: Report
) -> Iterator[Diagnostic]:
    try:
        read(written)
    except QuantityFault as fault:
        yield report.at(path, "WM071", fault.message, fix=fault.fix)
