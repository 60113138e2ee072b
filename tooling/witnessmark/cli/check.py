"""witnessmark check: every record against the shapes, the arithmetic and the rules."""

from __future__ import annotations

import json
import sys
from collections.abc import Mapping
from datetime import date
from typing import Any

import click

from witnessmark.cli.opening import AS_OF, open_museum
from witnessmark.cli.printing import plural, render_finding, tally
from witnessmark.exchange.findings_json import findings_as_json
from witnessmark.model.library import Library
from witnessmark.model.shape import Shaped
from witnessmark.rules.check import Checked, check
from witnessmark.rules.rulebook_check import load_shipped

MOST_SHOWN = 20


@click.command("check")
@click.argument("path", default="decisions", required=False)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    show_default=True,
    help="How to print what is found.",
)
@click.option(
    "--most",
    type=click.IntRange(min=0),
    default=MOST_SHOWN,
    show_default=True,
    help="Findings printed as text at the most; 0 for all.",
)
@AS_OF
def command(path: str, form: str, most: int, as_of: date | str | None) -> None:
    """Check a museum, a machine's folder or one record.

    PATH is a museum folder, a machine folder or a record; the whole museum is read, and what lies
    under PATH is reported. No record fails because time has passed.

    Exit code: 0 nothing found, 1 an error or a warning, 2 could not run.

    Example: witnessmark check decisions/quay-crane
    """
    del as_of  # no check depends on the day; the option stands so that scripts may always give it
    opened = open_museum(path)
    checked = check(opened.library, rulebook=load_shipped(), under=opened.under)
    if form == "json":
        click.echo(json.dumps(findings_as_json(checked), indent=2, ensure_ascii=False))
    else:
        print_text(checked, opened.library, most=most)
    sys.exit(checked.exit_code)


def print_text(checked: Checked, library: Library, *, most: int) -> None:
    """Print findings as text, gravest first, then the count."""
    texts = texts_of(library)
    ranked = sorted(checked.diagnostics, key=lambda d: ["error", "warning", "note"].index(d.level))
    shown = ranked if most == 0 else ranked[:most]
    for diagnostic in shown:
        click.echo(render_finding(diagnostic, texts) + "\n")
    if len(shown) < len(ranked):
        click.echo(f"... and {len(ranked) - len(shown)} more; --most 0 shows all.\n")
    found = ", ".join(tally(checked.diagnostics)) or "nothing found"
    click.echo(f"{plural(checked.records, 'record')} read: {found}.")


def texts_of(library: Library) -> Mapping[str, str]:
    """The text of every file by the name diagnostics use."""
    shaped: list[Shaped[Any] | None] = [library.museum, library.people_file, library.stores_file]
    shaped += [*library.policy_files.values(), *library.machine_files.values()]
    shaped += [*library.finding_files.values(), *(entry.shaped for entry in library.decisions)]
    return {one.document.file: one.document.text for one in shaped if one}
