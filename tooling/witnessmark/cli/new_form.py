"""The printed form for `new`: written empty, and read filled, with what has to be said by line."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import click

from witnessmark.cli.new_written import new_finding, put_down
from witnessmark.cli.opening import Opened, read_text
from witnessmark.cli.printing import folded, plural, visible
from witnessmark.errors import UnknownNameError
from witnessmark.exchange.decision_form import (
    Told,
    form_as_html,
    form_as_text,
    read_form,
    record_of,
)
from witnessmark.model.meant import machine_names, meant
from witnessmark.model.new_finding import Given
from witnessmark.repository.writing import create_text

LONGEST_FORM = 200_000


def print_form(opened: Opened, machine: str | None, out: Path) -> None:
    """Write the form as text and as a page to print; neither replaces anything."""
    museum = opened.library.museum.value
    given = {"machine": _machine_name(opened, machine)} if machine else {}
    name = museum.name if museum else opened.folder.name
    text, page = Path(f"{out}.txt"), Path(f"{out}.html")
    create_text(text, form_as_text(name, given=given))
    create_text(page, form_as_html(name, given=given))
    click.echo(f"{text} and {page} written; each prints on one page.")
    click.echo(f"When it is filled in and typed: witnessmark new --from-form {text}")


def _machine_name(opened: Opened, machine: str) -> str:
    names = machine_names(opened.library)
    found = meant(machine, names)
    if found is None:
        raise UnknownNameError(
            f'There is no machine "{machine}" here.', remedy=f"Use one of: {', '.join(names)}."
        )
    return names[found]


def fill_from_form(opened: Opened, path: Path, *, today: date, dry_run: bool) -> None:
    """Write the draft that a filled form makes, or say line by line what stands in its way."""
    text = read_text(path, what="a form saved as plain text")
    if len(text) > LONGEST_FORM:
        raise UnknownNameError(f"{path} is no form: it is too long.", remedy="Name a form's file.")
    read = read_form(text)
    found = record_of(read, opened.library, today=today)
    for block in _blocks(found.told, read.lines):
        click.echo(block)
    if found.draft is None:
        count = sum(one.stops for one in found.told)
        click.echo(
            f"Nothing is written yet: {plural(count, 'thing')} to put right in {path}. "
            "Change the form and run the same again."
        )
        sys.exit(1)
    finding: Given | None = None
    draft = found.draft
    if found.finding:
        finding = new_finding(
            opened.library, found.machine, found.finding, today=draft.opened,
            by=draft.proposed_by, part=draft.about[0],
        )  # fmt: skip
        draft = draft.with_finding(str(finding["id"]))
    put_down(opened, found.machine, draft, found=finding, dry_run=dry_run)


def _blocks(told: tuple[Told, ...], lines: tuple[str, ...]) -> Iterator[str]:
    """What is said of each line, the line itself below it."""
    for one in told:
        kind = "to put right" if one.stops else "note"
        rows = folded(f"line {one.line}, {kind}: {one.what}", first="", rest="  ")
        if one.line <= len(lines) and lines[one.line - 1].strip():
            shown = visible(" ".join(lines[one.line - 1].split()))[:84]
            rows.append(f"{one.line:>5} | {shown}")
        rows += folded(one.why, first="  why  ", rest="       ")
        rows += folded(one.fix, first="  fix  ", rest="       ")
        yield "\n".join(rows) + "\n"
