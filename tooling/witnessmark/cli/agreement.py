"""witnessmark agreement: how alike people judge, from the museum's records or from a table."""

from __future__ import annotations

import json
from pathlib import Path

import click

from witnessmark.cli.opening import MUSEUM, open_museum, read_text
from witnessmark.cli.printing import visible
from witnessmark.exchange.agreement_report import agreement_as_json, render_agreement
from witnessmark.weighing.agreement import (
    Ratings,
    agreement_figures,
    agreement_of,
    ratings_of_library,
    read_ratings,
)


@click.command("agreement")
@click.option(
    "--table",
    type=click.Path(dir_okay=False),
    metavar="FILE.csv",
    help="Take the scores from a table instead: unit, rater, score and, if any, decision.",
)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    help="Default: text for the museum, JSON for a table.",
)
@MUSEUM
def command(table: str | None, form: str | None, museum: str) -> None:
    """Show how alike people judge when they judge alone.

    Every value with a second judgement counts. Below ten decisions the figures are called too few
    to say, and every figure comes with the number it rests on and an interval.

    Example: witnessmark agreement
    """
    ratings = _ratings(table, museum)
    agreement = agreement_of(ratings)
    if (form or ("json" if table else "text")) == "text":
        click.echo(visible(render_agreement(agreement, ratings)))
        return
    # A table's answer has the five keys of the contract and no others.
    figures = agreement_figures(agreement) if table else agreement_as_json(agreement, ratings)
    click.echo(json.dumps(figures, indent=2, ensure_ascii=False))


def _ratings(table: str | None, museum: str) -> Ratings:
    if table is None:
        return ratings_of_library(open_museum(museum).library)
    return read_ratings(read_text(Path(table), what="a CSV file"), name=Path(table).name)
