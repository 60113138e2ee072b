"""witnessmark replay: what another policy would have made of past decisions."""

from __future__ import annotations

import json

import click

from witnessmark.cli.opening import MUSEUM, open_museum
from witnessmark.cli.printing import visible
from witnessmark.exchange.replay_report import render_replay, replay_as_json
from witnessmark.model.words import State
from witnessmark.weighing.case import work_out
from witnessmark.weighing.replay import replay, under_policy


@click.command("replay")
@click.option(
    "--policy",
    required=True,
    metavar="ID",
    help="The policy to work them out under: the name of its file, such as 2025-01.",
)
@click.option(
    "--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True
)
@MUSEUM
def command(policy: str, form: str, museum: str) -> None:
    """Work every past decision out under another policy, and show which results would change.

    Past means agreed, done or replaced. Nothing is written; agreed decisions stand as they are.

    Example: witnessmark replay --policy 2025-01
    """
    library = open_museum(museum).library
    anew = under_policy(policy, library=library)
    past = [
        work_out(entry.value, entry.machine, library)
        for _, entry in sorted(library.by_id.items())
        if entry.value and (entry.value.is_settled or entry.value.state is State.REPLACED)
    ]
    replayed = replay(past, under=anew)
    if form == "json":
        click.echo(json.dumps(replay_as_json(policy, replayed), indent=2, ensure_ascii=False))
    else:
        click.echo(visible(render_replay(policy, replayed)))
