"""The program's front door: which verbs there are; each is imported only when it is used."""

from __future__ import annotations

import importlib
import os
import sys
from collections.abc import Mapping

import click

from witnessmark import __version__
from witnessmark.errors import RefusedError, WitnessmarkError

VERBS: Mapping[str, str] = {
    "init": "Begin a new museum.",
    "new": "Write a new decision or enter a machine, with the blanks only you can fill.",
    "check": "Check records against the shapes, the arithmetic and the rules.",
    "fix": "Put right slips that can be mended in one way only.",
    "finding": "Add one finding to a machine's log.",
    "weigh": "Show scores, values, winner and verdict of a decision.",
    "worksheet": "List, show and run the cited calculations.",
    "review": "Tell what changed in meaning between two versions.",
    "sign": "Put one agreement under a record.",
    "verify": "Say how each agreement stands.",
    "explain": "Say what a code or rule means and what to do.",
    "due": "Show what somebody promised to come back to.",
    "parts": "Show where every removed original lies.",
    "stock": "Show what is left of the old stock, and how long it lasts.",
    "work": "Show what was done, what it took and what came of it.",
    "similar": "Find earlier decisions like one, and what was chosen then.",
    "agreement": "Show how alike people judge.",
    "replay": "Work past decisions out under another policy.",
    "schema": "Write the JSON Schemas that editors use.",
    "import": "Bring in parts, findings or old decisions from a CSV file.",
    "publish": "Write the site.",
    "deposit": "Write all that a reader in forty years needs.",
    "export": "Write what is public as tables or linked data.",
    "preview": "Look at one page as it stands, drafts included, while it is written.",
    "serve": "Look at a published site on this computer.",
}

MODULES: Mapping[str, str] = {"import": "bring_in"}
"""The module of a verb whose own name Python keeps for itself."""


class Verbs(click.Group):
    """A group that knows its verbs by name and imports one only when it is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The verbs in the order a record meets them."""
        return list(VERBS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of a verb, imported now."""
        if cmd_name not in VERBS:
            return None
        module = importlib.import_module(f"witnessmark.cli.{MODULES.get(cmd_name, cmd_name)}")
        command = module.command
        if not isinstance(command, click.Command):
            raise TypeError(f"{module.__name__}.command is not a command")
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The list of verbs, without importing any."""
        with formatter.section("Verbs"):
            formatter.write_dl(list(VERBS.items()))


@click.group(cls=Verbs, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="witnessmark")
def witnessmark() -> None:
    """Keep, check, weigh and publish decisions about historic machines.

    Each decision is a YAML file; the tool computes the scores from the facts in it, holds it
    against the museum's rules, and publishes the reasons.

    Example: witnessmark check decisions
    """


def main() -> None:
    """Run the program; failures of its own become one message and an exit code."""
    try:
        witnessmark.main(standalone_mode=False)
    except click.exceptions.Exit as stop:
        sys.exit(stop.exit_code)
    except click.Abort:
        click.echo("Stopped.", err=True)
        sys.exit(2)
    except click.ClickException as fault:
        fault.show()
        sys.exit(2)
    except RefusedError as refusal:
        click.echo(f"Refused: {refusal.message}\n  fix  {refusal.remedy}", err=True)
        sys.exit(1)
    except WitnessmarkError as failure:
        click.echo(f"Could not run: {failure.message}\n  fix  {failure.remedy}", err=True)
        sys.exit(2)
    except BrokenPipeError:
        # A reader such as `head` has closed the pipe; nothing is left to say to it.
        sys.stdout = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115, PTH123
        sys.exit(0)
