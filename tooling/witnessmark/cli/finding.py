"""witnessmark finding: one more finding in a machine's log."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import click

from witnessmark.cli.opening import AS_OF, MUSEUM, DayParam, Opened, day_or_today, open_museum
from witnessmark.cli.printing import folded, visible
from witnessmark.errors import RefusedError, UnknownNameError
from witnessmark.exchange.runs_report import render_runs
from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.model.findings import Finding, Findings
from witnessmark.model.library import Library
from witnessmark.model.new_finding import Given, finding_text, next_id, with_finding
from witnessmark.model.shape import shape
from witnessmark.model.spelling import hint
from witnessmark.model.words import Basis, Grade
from witnessmark.repository.writing import replace_text
from witnessmark.rules.check import check
from witnessmark.rules.rulebook_check import load_shipped
from witnessmark.rules.runs_today import runs_today


@click.command("finding")
@click.argument("machine")
@click.option("--by", required=True, metavar="PERSON", help="Who found it: an id from people.yml.")
@click.option("--what", required=True, help="What was found, as plainly as it was seen.")
@click.option(
    "--basis", required=True, type=click.Choice([w.value for w in Basis]), help="How it is known."
)
@click.option(
    "--grade",
    required=True,
    type=click.Choice([w.value for w in Grade]),
    help="How much it presses; a stop holds the machine until it is answered.",
)
@click.option("--part", help="Where: an address from machine.yml, such as drum/bush.")
@click.option("--date", "found_on", type=DayParam(), metavar="DATE", help="Default: today.")
@click.option("--told-by", help="Who knew it, where --by only writes it down.")
@click.option("--measurement", help='The figure with its unit, such as "0.74 ± 0.01 mm".')
@click.option("--instrument", help="What it was measured with, and how.")
@click.option("--limit", help="The value at which it may not go on.")
@click.option("--limit-from", help="Who or what set that limit.")
@click.option("--cause", help="Why it came to this, or that nobody knows.")
@click.option("--photo", help="A picture in the machine's folder, such as photos/bush.svg.")
@click.option("--put-off-until", type=DayParam(), metavar="DATE", help="Answered by then.")
@click.option("--put-off-because", help="Why the answer may wait.")
@click.option("--answers", multiple=True, metavar="ID", help="An earlier finding this settles.")
@click.option("--public", is_flag=True, help="Let the site show it.")
@click.option("--dry-run", is_flag=True, help="Show the lines and write nothing.")
@AS_OF
@MUSEUM
def command(
    machine: str,
    museum: str,
    *,
    dry_run: bool,
    as_of: date | str | None,
    **given: Any,  # noqa: ANN401  each option has its own type
) -> None:
    """Add one finding to a machine's log, with the next free id; nothing else is touched.

    The log is begun where there is none. Then it is told whether the machine runs today, as far as
    the records say; that is never a certificate.

    Example: witnessmark finding quay-crane --by fitter --basis seen --grade watch --what "It drips"
    """
    opened = open_museum(museum)
    today = day_or_today(as_of, opened.library)
    log = _log(opened.library, machine)
    _refuse_unknown(opened.library, machine, given, log)
    found_on = day_or_today(given["found_on"] or today, opened.library)
    if found_on > today:
        raise RefusedError(f"{found_on} has not come yet.", remedy="Give the day it was found.")
    fields = dict(_fields(given, next_id(log), found_on, opened.library))
    if dry_run:
        click.echo(visible(finding_text(fields)))
        return
    _write(opened, machine, fields, today=today)


def _write(opened: Opened, machine: str, fields: Given, *, today: date) -> None:
    """Write the finding, and say what a check has to say of it and whether the machine runs."""
    old = opened.library.finding_files.get(machine)
    file = old.document.file if old else f"{opened.library.root}/{machine}/findings.yml"
    document = with_finding(old.document if old else None, fields, file=file)
    files = {**opened.library.finding_files, machine: shape(document, Findings)}
    now = replace(opened.library, finding_files=files)
    warned = _warned(now, machine, file)
    before = old.document.text if old else None
    replace_text(Path(opened.folder.parent, file), document.text, was=before)
    click.echo(f"{file}: {fields['id']} written.")
    for found in warned:
        click.echo("\n".join(folded(f"{found.code}: {found.message}", first="  ", rest="    ")))
    click.echo(f"\n{visible(render_runs(runs_today(now, machine, on=today)))}")


def _warned(library: Library, machine: str, file: str) -> list[Diagnostic]:
    """What a check would warn of in the newest finding.

    Raises:
        RefusedError: it would find an error there.
    """
    place = ("findings", len(library.findings_of(machine)) - 1)
    checked = check(library, rulebook=load_shipped(), under=file)
    found = [one for one in checked.diagnostics if one.path[:2] == place]
    for fault in found:
        if fault.level is Level.ERROR:
            raise RefusedError(f"{fault.code}: {fault.message}", remedy=fault.fix)
    return found


def _log(library: Library, machine: str) -> tuple[Finding, ...]:
    """The findings there are.

    Raises:
        UnknownNameError: there is no such machine.
        RefusedError: the log cannot be read whole, so nobody knows which ids are taken.
    """
    if machine not in library.machine_files:
        meant = hint(machine, sorted(library.machine_files)).strip()
        remedy = meant or f"Use one of: {', '.join(sorted(library.machine_files))}."
        raise UnknownNameError(f'There is no machine "{machine}" here.', remedy=remedy)
    shaped = library.finding_files.get(machine)
    is_blank = shaped and shaped.document.data == {"witnessmark": 1, "findings": None}
    if shaped and not shaped.whole and not is_blank:
        file = shaped.document.file
        raise RefusedError(
            f"{file} has faults of its own.", remedy=f"Run `witnessmark check {file}` and mend it."
        )
    return library.findings_of(machine)


def _refuse_unknown(
    library: Library, machine: str, given: Mapping[str, Any], log: tuple[Finding, ...]
) -> None:
    whole = library.machines.get(machine)
    parts = [address for address, _, _ in whole.parts()] if whole else []
    _refuse_name(given["part"], parts, f"part of {machine}", "machine.yml")
    _refuse_name(given["by"], sorted(library.people), "person", "people.yml")
    for name in given["answers"]:
        _refuse_name(name, [finding.id for finding in log], f"finding of {machine}", "its log")
    if bool(given["put_off_until"]) != bool(given["put_off_because"]):
        raise RefusedError(
            "An answer is put off with a day and a reason, and one of them is missing.",
            remedy="Give both --put-off-until and --put-off-because.",
        )


def _refuse_name(name: str | None, known: Sequence[str], what: str, where: str) -> None:
    if name is not None and name not in known:
        remedy = hint(name, known).strip() or f"Use one from {where}."
        raise RefusedError(f'There is no {what} "{name}".', remedy=remedy)


def _fields(
    given: Mapping[str, Any], name: str, found_on: date, library: Library
) -> Iterator[tuple[str, Any]]:
    """The fields that were given, in the order in which a log is read."""
    yield "id", name
    yield "date", found_on.isoformat()
    for field in ("by", "part", "basis", "told_by", "what", "grade", "measurement", "instrument"):
        if given[field] is not None:
            yield field, given[field]
    for field in ("limit", "limit_from", "cause", "photo"):
        if given[field] is not None:
            yield field, given[field]
    if given["put_off_until"]:
        until = day_or_today(given["put_off_until"], library)
        yield "put_off", {"until": until.isoformat(), "because": given["put_off_because"]}
    if given["answers"]:
        yield "answers", given["answers"]
    if given["public"]:
        yield "public", True
