"""witnessmark weigh: scores with their facts, values, winner and verdict."""

from __future__ import annotations

import json
import sys
from datetime import date
from pathlib import Path

import click

from witnessmark.cli.opening import AS_OF, MUSEUM, find_decision, open_museum, read_text
from witnessmark.cli.printing import visible
from witnessmark.exchange.weighing_json import case_as_json
from witnessmark.exchange.weighing_text import render_case, render_case_briefly
from witnessmark.weighing.case import work_out
from witnessmark.weighing.figures import weighing_figures
from witnessmark.weighing.matrix import weigh_matrix


@click.command("weigh")
@click.argument("decision", required=False, metavar="[ID]")
@click.option(
    "--matrix",
    type=click.Path(dir_okay=False),
    metavar="FILE.json",
    help="Weigh bare numbers from a JSON file instead; prints JSON.",
)
@click.option(
    "--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True
)
@click.option("--brief", is_flag=True, help="Print only the sentences and the table of figures.")
@MUSEUM
@AS_OF
def command(
    *,
    decision: str | None,
    matrix: str | None,
    form: str,
    brief: bool,
    museum: str,
    as_of: date | str | None,
) -> None:
    """Show how the options of a decision score and weigh.

    Every figure comes with the facts it was computed from. A number never decides; it shows what
    follows from the facts and from what the museum says it values.

    Example: witnessmark weigh 2024-003
    """
    del as_of  # a decision is read as on its own day; the option stands for scripts
    if matrix is not None:
        figures = weighing_figures(weigh_matrix(read_text(Path(matrix), what="a JSON file")))
        click.echo(json.dumps(figures, indent=2))
        return
    if decision is None:
        raise click.UsageError("Name a decision, such as 2024-003, or give --matrix FILE.json.")
    library = open_museum(museum).library
    entry = find_decision(library, decision)
    if entry.value is None:
        raise TypeError("find_decision gives readable decisions only")
    case = work_out(entry.value, entry.machine, library)
    if form == "json":
        click.echo(json.dumps(case_as_json(case), indent=2, ensure_ascii=False))
    else:
        click.echo(visible(render_case_briefly(case) if brief else render_case(case)))
    if not entry.shaped.whole:
        click.echo(f"\n{entry.file} has faults; figures are from what could be read.", err=True)
        sys.exit(1)
