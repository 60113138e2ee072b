"""witnessmark similar: earlier decisions like one, and what was chosen then."""

from __future__ import annotations

import json

import click

from witnessmark.cli.opening import MUSEUM, find_decision, open_museum
from witnessmark.cli.printing import visible
from witnessmark.exchange.similar_report import render_similar, similar_as_json
from witnessmark.weighing.case import work_out
from witnessmark.weighing.precedents import earlier_agreed, portrait_of, precedents


@click.command("similar")
@click.argument("decision", metavar="ID")
@click.option(
    "--most", type=click.IntRange(min=1), default=5, show_default=True, help="How many to show."
)
@click.option(
    "--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True
)
@MUSEUM
def command(decision: str, most: int, form: str, museum: str) -> None:
    """Find the earlier decisions most like one, what was chosen then, and why they are alike.

    Only decisions that were agreed and opened earlier count. Alike is measured on the kinds of
    option, the way of keeping, the words of part and material, and the scores of what was chosen.

    Example: witnessmark similar 2024-003
    """
    library = open_museum(museum).library
    entry = find_decision(library, decision)
    asked = entry.value
    if asked is None:
        raise TypeError("find_decision gives readable decisions only")
    past = {
        earlier.id: portrait_of(work_out(earlier.value, earlier.machine, library))
        for earlier in earlier_agreed(asked, library)
        if earlier.value is not None
    }
    found = precedents(portrait_of(work_out(asked, entry.machine, library)), past=past)[:most]
    if form == "json":
        click.echo(json.dumps(similar_as_json(asked, found, library), indent=2, ensure_ascii=False))
    else:
        click.echo(visible(render_similar(asked, found, library)))
