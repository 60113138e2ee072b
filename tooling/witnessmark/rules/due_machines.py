"""What is due about machines: open stops, answers put off, old figures, the way of keeping."""

from __future__ import annotations

import calendar
from collections.abc import Iterator
from datetime import date

from witnessmark.model.findings import Finding
from witnessmark.model.library import Library
from witnessmark.model.words import Basis, Grade, Kept
from witnessmark.rules.answered import open_findings
from witnessmark.rules.due_kinds import Due, DueKind

MEASURED_FOR_YEARS = 3
"""After so many years an open figure on a running machine is measured anew. Own judgement."""
Asked = tuple[DueKind, date, str]
"""What a finding asks for, by when, and in words."""
PRESSING = frozenset({Grade.WATCH, Grade.ACT, Grade.STOP})


def due_of_machines(library: Library, *, on: date) -> Iterator[Due]:
    """What the machines and their logs of findings ask for."""
    for machine in sorted(set(library.machine_files) | set(library.finding_files)):
        yield from _of_keeping(library, machine, on)
        yield from _of_findings(library, machine, on)


def _of_keeping(library: Library, machine: str, on: date) -> Iterator[Due]:
    whole = library.machines.get(machine)
    way = whole.kept_from(on) if whole else None
    if whole and way and way.look_again:
        says = f"Look again whether {whole.name} is to be kept {way.how.value}."
        file = library.machine_files[machine].document.file
        path = ("kept", whole.kept.index(way), "look_again")
        yield Due(
            kind=DueKind.KEPT,
            day=way.look_again,
            name=machine,
            says=says,
            file=file,
            path=path,
            written=way.since,
            machine=machine,
        )


def _of_findings(library: Library, machine: str, on: date) -> Iterator[Due]:
    log = library.findings_of(machine)
    newest = {finding.part: finding.id for finding in _measured(log, on)}
    whole = library.machines.get(machine)
    is_running = whole is not None and whole.kept_on(on) is Kept.RUNNING
    for found in open_findings(library, machine, on=on):
        finding = found.finding
        for asked in _asked(finding):
            is_figure = asked[0] is DueKind.MEASURE
            if is_figure and not (is_running and newest.get(finding.part) == finding.id):
                continue
            yield _due(library, machine, finding, asked)


def _measured(log: tuple[Finding, ...], on: date) -> list[Finding]:
    """Findings with a figure, oldest first."""
    found = [one for one in log if one.basis is Basis.MEASURED and one.date <= on]
    return sorted(found, key=lambda one: (one.date, one.id))


def _asked(finding: Finding) -> Iterator[Asked]:
    where = f" ({finding.part})" if finding.part else ""
    what = finding.what.strip()
    if finding.grade is Grade.STOP:
        yield DueKind.STOP, finding.date, f"Nothing answers this stop{where}: {what}"
    if finding.put_off:
        yield DueKind.PUT_OFF, finding.put_off.until, f"Put off until then{where}: {what}"
    if finding.basis is Basis.MEASURED and finding.grade in PRESSING:
        anew = _years_later(finding.date, MEASURED_FOR_YEARS)
        figure = f" {finding.measurement}" if finding.measurement else ""
        says = f"The figure{figure} of {finding.date} is to be measured anew{where}: {what}"
        yield DueKind.MEASURE, anew, says


def _years_later(day: date, years: int) -> date:
    """The same day some years on; the 29th of February becomes the 28th."""
    year = day.year + years
    return date(year, day.month, min(day.day, calendar.monthrange(year, day.month)[1]))


def _due(library: Library, machine: str, finding: Finding, asked: Asked) -> Due:
    kind, day, says = asked
    return Due(
        kind=kind,
        day=day,
        name=f"{machine}/{finding.id}",
        says=says,
        file=library.finding_files[machine].document.file,
        path=("findings", library.findings_of(machine).index(finding)),
        written=finding.date,
        machine=machine,
    )
