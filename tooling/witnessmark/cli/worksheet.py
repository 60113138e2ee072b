"""witnessmark worksheet: the cited calculations."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import click

from witnessmark.cli.printing import render_paragraph, visible
from witnessmark.cli.worksheet_form import render_form
from witnessmark.errors import RefusedError
from witnessmark.worksheets.describe import describe_run, describe_sheet, explain_limit
from witnessmark.worksheets.faults import SheetRefuses
from witnessmark.worksheets.registry import built_names, find_sheet
from witnessmark.worksheets.run import Run, run

FORMAT = click.option(
    "--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True
)


@click.group("worksheet")
def command() -> None:
    r"""List, show and run the cited calculations.

    \b
    Example:
      witnessmark worksheet run bearing-clearance \
        bore="65.74 mm" journal="65 mm" limit="0.5 mm"
    """


@command.command("list")
@FORMAT
def list_(form: str) -> None:
    """List the sheets that can be run.

    Example: witnessmark worksheet list
    """
    sheets = {name: find_sheet(name) for name in built_names()}
    if form == "json":
        click.echo(json.dumps({name: sheet.title for name, sheet in sheets.items()}, indent=2))
        return
    for name, sheet in sheets.items():
        click.echo(f"{name:<22} {sheet.title}")


@command.command("show")
@click.argument("sheet")
@FORMAT
def show(sheet: str, form: str) -> None:
    """Show what a sheet takes and gives, its equation, limits and sources, with an example.

    Example: witnessmark worksheet show bearing-clearance
    """
    told: dict[str, Any] = describe_sheet(find_sheet(sheet))
    if form == "json":
        click.echo(json.dumps(told, indent=2, ensure_ascii=False))
        return
    click.echo("\n".join(render_form(told)))


@command.command("run")
@click.argument("sheet")
@click.argument("given", nargs=-1, metavar="[NAME=VALUE]...")
@FORMAT
def run_(sheet: str, given: tuple[str, ...], form: str) -> None:
    r"""Run a sheet on values with their units; repeat a name for repeated inputs.

    \b
    Example:
      witnessmark worksheet run bearing-clearance \
        bore="65.74 mm" journal="65 mm" limit="0.5 mm"
    """
    found = find_sheet(sheet)
    try:
        reached = run(found, _given(given))
    except SheetRefuses as refusal:
        lines = [f"{fault.name or sheet}: {fault.message} {fault.fix}" for fault in refusal.faults]
        raise RefusedError(
            "\n  ".join(lines), remedy=f"`witnessmark worksheet show {sheet}` prints the form."
        ) from None
    if form == "json":
        click.echo(json.dumps(describe_run(reached), indent=2, ensure_ascii=False))
        return
    click.echo("\n".join(_result(reached)))


def _given(words: tuple[str, ...]) -> dict[str, str | list[str]]:
    """Name and value pairs; a repeated name becomes a list."""
    given: dict[str, list[str]] = {}
    for word in words:
        name, sign, value = word.partition("=")
        if not sign:
            raise click.UsageError(f'"{word}" is not name=value. Write it like bore="65.74 mm".')
        given.setdefault(name.strip(), []).append(value.strip())
    return {name: values[0] if len(values) == 1 else values for name, values in given.items()}


def _result(reached: Run) -> Iterator[str]:
    for name, result in reached.results.items():
        value = result.value if isinstance(result.value, str) else f"{result.value:.6g}"
        band = "" if result.plus_minus is None else f" ± {result.plus_minus:.2g}"
        unit = "" if result.unit == "1" else f" {result.unit}"
        yield visible(f"{name:<20} {value}{band}{unit}")
    if reached.verdict:
        yield f"{'verdict':<20} {reached.verdict.word}"
    for limit in reached.limits:
        yield render_paragraph(explain_limit(limit), indent="  ")
    for caution in reached.cautions:
        yield render_paragraph(f"caution: {caution}", indent="  ")
    for assumption in reached.assumptions:
        yield render_paragraph(f"assumed: {assumption}", indent="  ")
    yield render_paragraph(f"source: {reached.source}", indent="  ")
