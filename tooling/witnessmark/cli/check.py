"""witnessmark check: every record against the shapes, the arithmetic and the rules."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

import click

from witnessmark.cli.findings_text import render_findings
from witnessmark.cli.opening import AS_OF, Opened, day_or_today, open_museum
from witnessmark.cli.printing import plural, tally
from witnessmark.cli.watching import Look, watch
from witnessmark.exchange.findings_hosts import (
    findings_as_markdown,
    findings_for_github,
    findings_for_gitlab,
)
from witnessmark.exchange.findings_json import findings_as_json
from witnessmark.exchange.findings_junit import findings_as_junit
from witnessmark.exchange.findings_sarif import findings_as_sarif
from witnessmark.model.diagnostics import Diagnostic, in_order
from witnessmark.model.library import Library
from witnessmark.model.shape import Shaped
from witnessmark.repository.changes import changes
from witnessmark.repository.disk import find_museum
from witnessmark.rules.check import Checked, check, is_under
from witnessmark.rules.correcting import told
from witnessmark.rules.due import overdue
from witnessmark.rules.plain_language import advice
from witnessmark.rules.rulebook_check import load_shipped

MOST_SHOWN = 20


@click.command("check")
@click.argument("path", default="decisions", required=False)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "md", "github", "gitlab", "sarif", "junit"]),
    default="text",
    show_default=True,
    help="How to print what is found.",
)
@click.option(
    "--most",
    type=click.IntRange(min=0),
    default=MOST_SHOWN,
    show_default=True,
    help="Messages printed as text at the most; 0 for all.",
)
@click.option(
    "--watch", "with_watch", is_flag=True, help="Check again at each change; Ctrl-C ends."
)
@click.option("--advice", "with_advice", is_flag=True, help="Also print notes on plain language.")
@click.option("--due", "with_due", is_flag=True, help="Also warn of what is due by the day.")
@AS_OF
def command(
    path: str,
    form: str,
    most: int,
    *,
    with_watch: bool,
    with_advice: bool,
    with_due: bool,
    as_of: date | str | None,
) -> None:
    """Check a museum, a machine's folder or one record.

    PATH is a museum folder, a machine folder or a record; the whole museum is read, and what lies
    under PATH is reported. No record fails because time has passed, unless --due asks for it;
    advice on language is notes, which never count.

    github prints workflow commands, gitlab a Code Quality report, sarif, junit and md what most
    hosts and editors read; all of them the gravest first.

    Exit code: 0 nothing found, 1 an error or a warning, 2 could not run.

    Example: witnessmark check decisions/quay-crane
    """
    asked = _Asked(path, with_advice, as_of if with_due else None, with_due)
    if with_watch and form != "text":
        raise click.UsageError("--watch prints text only; leave --format out.")
    if with_watch:
        sys.exit(_watch(asked, most=most))
    opened, checked = asked.look()
    if form == "text":
        print_text(checked, opened.library, most=most)
    else:
        click.echo(_for_programs(form, checked, opened), nl=False)
    sys.exit(checked.exit_code)


@dataclass(frozen=True)
class _Asked:
    """What is asked of each check: where, and what is told beside the faults."""

    path: str
    with_advice: bool
    as_of: date | str | None
    with_due: bool

    def look(self) -> tuple[Opened, Checked]:
        """The museum as it is now, and what is found in it."""
        opened = open_museum(self.path)
        checked = check(opened.library, rulebook=load_shipped(), under=opened.under)
        checked = told(checked, opened.library)
        if self.with_advice:
            checked = _with(checked, advice(opened.library), opened)
        if self.with_due:
            # Only --due asks for the day; without it the option stands so that scripts may give it.
            on = day_or_today(self.as_of, opened.library)
            checked = _with(checked, overdue(opened.library, on=on), opened)
        return opened, checked


def _watch(asked: _Asked, *, most: int) -> int:
    def look() -> Look:
        opened, checked = asked.look()
        return Look(checked, texts_of(opened.library))

    folder = find_museum(Path(asked.path))
    return watch(look, changes(folder), say=click.echo, most=most)


def _with(checked: Checked, further: Iterable[Diagnostic], opened: Opened) -> Checked:
    """What was found, with further findings under the path."""
    found = (one for one in further if is_under(one.file, opened.under))
    return replace(checked, diagnostics=tuple(in_order([*checked.diagnostics, *found])))


def _for_programs(form: str, checked: Checked, opened: Opened) -> str:
    """What was found in one of the formats that programs read."""
    if form == "github":
        return findings_for_github(checked)
    if form == "md":
        return findings_as_markdown(checked)
    if form == "junit":
        return findings_as_junit(checked, records=_files(opened))
    if form == "sarif":
        found: object = findings_as_sarif(checked, texts=texts_of(opened.library))
    else:
        found = findings_for_gitlab(checked) if form == "gitlab" else findings_as_json(checked)
    return json.dumps(found, indent=2, ensure_ascii=False) + "\n"


def _files(opened: Opened) -> list[str]:
    """The records under the path that was asked for."""
    files = (entry.file for entry in opened.library.decisions)
    return [file for file in files if is_under(file, opened.under)]


def print_text(checked: Checked, library: Library, *, most: int) -> None:
    """Print findings by file, the gravest first, then the count."""
    for block in render_findings(checked.diagnostics, texts_of(library), most=most):
        click.echo(block)
    found = ", ".join(tally(checked.diagnostics)) or "nothing found"
    click.echo(f"{plural(checked.records, 'record')} read: {found}.")


def texts_of(library: Library) -> Mapping[str, str]:
    """The text of every file by the name diagnostics use."""
    shaped: list[Shaped[Any] | None] = [library.museum, library.people_file, library.stores_file]
    shaped += [*library.policy_files.values(), *library.machine_files.values()]
    shaped += [*library.finding_files.values(), *(entry.shaped for entry in library.decisions)]
    return {one.document.file: one.document.text for one in shaped if one}
