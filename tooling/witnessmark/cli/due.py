"""witnessmark due: what somebody promised to come back to."""

from __future__ import annotations

import json
from datetime import date

import click

from witnessmark.cli.opening import AS_OF, MUSEUM, day_or_today, open_museum
from witnessmark.cli.printing import visible
from witnessmark.exchange.calendar import render_calendar
from witnessmark.exchange.due_report import due_as_json, render_due
from witnessmark.rules.due import due

DAYS_AHEAD = 90


@click.command("due")
@click.option(
    "--days",
    type=click.IntRange(min=0, max=36500),
    default=DAYS_AHEAD,
    show_default=True,
    help="How many days ahead to look; what is overdue is always shown.",
)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "ics"]),
    default="text",
    show_default=True,
    help="ics is a calendar (RFC 5545) for the house; it holds private words.",
)
@AS_OF
@MUSEUM
def command(days: int, form: str, as_of: date | str | None, museum: str) -> None:
    """Show what is due: looks, run-outs, waivers, answers put off, open stops and the like.

    Second looks, ends of temporary decisions, waivers and accepted risks, findings put off, reviews
    of the policy and of how a machine is kept, terms that ended, stops that nothing answers, old
    figures, and lots nobody has decided on. Nothing fails because of it; `check --due` warns.

    Example: witnessmark due --days 30
    """
    library = open_museum(museum).library
    on = day_or_today(as_of, library)
    found = due(library, on=on, days=days)
    if form == "json":
        click.echo(json.dumps(due_as_json(found, on=on), indent=2, ensure_ascii=False))
    elif form == "ics":
        click.echo(render_calendar(found, library.museum.value).encode(), nl=False)
    else:
        click.echo(visible(render_due(found, on=on)))
