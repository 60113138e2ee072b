"""witnessmark parts: where every removed original lies."""

from __future__ import annotations

import json
from datetime import date

import click

from witnessmark.cli.opening import AS_OF, MUSEUM, day_or_today, open_museum
from witnessmark.cli.printing import visible
from witnessmark.exchange.label_sheet import render_labels
from witnessmark.exchange.parts_report import parts_as_json, render_parts
from witnessmark.rules.removed import removed_parts


@click.command("parts")
@click.argument("query", nargs=-1)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "html"]),
    default="text",
    show_default=True,
    help="html is a sheet of labels to print; only text and json name store places.",
)
@AS_OF
@MUSEUM
def command(query: tuple[str, ...], form: str, as_of: date | str | None, museum: str) -> None:
    """Show every original that came off a machine, and where it is.

    QUERY is any words of its label, machine, part, place or decision; without them, all are shown.
    Store places are private: they stand in text and json for the house, and on no page or label.

    Example: witnessmark parts quay-crane bush
    """
    library = open_museum(museum).library
    on = day_or_today(as_of, library)
    found = removed_parts(library, on=on, query=" ".join(query))
    if form == "json":
        click.echo(json.dumps(parts_as_json(found, on=on), indent=2, ensure_ascii=False))
    elif form == "html":
        click.echo(render_labels(library, found), nl=False)
    else:
        click.echo(visible(render_parts(found)))
