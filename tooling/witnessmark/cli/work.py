"""witnessmark work: what was done, what it took, and what came of it."""

from __future__ import annotations

import json

import click

from witnessmark.cli.opening import MUSEUM, find_decision, open_museum
from witnessmark.cli.printing import visible
from witnessmark.exchange.work_report import (
    lessons_as_json,
    render_lessons,
    render_work,
    work_as_json,
)
from witnessmark.model.decision import Decision
from witnessmark.model.library import Library
from witnessmark.rules.work_done import jobs, lessons, sides


@click.command("work")
@click.argument("decision", metavar="[ID]", default="", required=False)
@click.option(
    "--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True
)
@MUSEUM
def command(decision: str, form: str, museum: str) -> None:
    """Show the work done: hours and cost against the estimate, departures, and the outcome.

    In-house and outside work stand side by side. With an ID, what earlier work has to say to that
    decision: of those it follows or departs from, and on the same parts. For the house alone; hours
    and money are not public.

    Example: witnessmark work 2026-004
    """
    library = open_museum(museum).library
    if decision:
        _lessons(library, decision, form)
        return
    done = jobs(library)
    currency = library.museum.value.currency if library.museum.value else "EUR"
    if form == "json":
        data = work_as_json(done, sides(done), currency=currency)
        click.echo(json.dumps(data, indent=2, ensure_ascii=False))
    else:
        click.echo(visible(render_work(done, sides(done), currency=currency)))


def _lessons(library: Library, name: str, form: str) -> None:
    entry = find_decision(library, name)
    value: Decision | None = entry.value
    found = lessons(library, value, machine=entry.machine) if value else ()
    if form == "json":
        click.echo(json.dumps(lessons_as_json(entry.id, found), indent=2, ensure_ascii=False))
    else:
        click.echo(visible(render_lessons(entry.id, found)))
