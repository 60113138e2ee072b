"""witnessmark stock: what is left of the old stock."""

from __future__ import annotations

import json
from datetime import date

import click

from witnessmark.cli.opening import AS_OF, MUSEUM, day_or_today, open_museum
from witnessmark.cli.printing import visible
from witnessmark.exchange.parts_report import render_stock, stock_as_json
from witnessmark.rules.stock_account import stock_accounts


@click.command("stock")
@click.option(
    "--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True
)
@AS_OF
@MUSEUM
def command(form: str, as_of: date | str | None, museum: str) -> None:
    """Show each lot of old stock: draws by decision, what is left, and how long it lasts.

    How long it lasts is reckoned from the draws since the lots were counted, with the range that
    nine in ten such counts would hold. A lot nobody has decided on is owed a decision.

    Example: witnessmark stock --format json
    """
    library = open_museum(museum).library
    on = day_or_today(as_of, library)
    found = stock_accounts(library, on=on)
    if form == "json":
        click.echo(json.dumps(stock_as_json(found, on=on), indent=2, ensure_ascii=False))
    else:
        click.echo(visible(render_stock(found)))
