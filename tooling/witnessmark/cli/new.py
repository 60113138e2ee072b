"""witnessmark new: a decision as a draft, with everything written that can be known."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

import click

from witnessmark.cli.asking import is_a_talk
from witnessmark.cli.new_asked import Wanted, ask_all
from witnessmark.cli.new_form import fill_from_form, print_form
from witnessmark.cli.new_machine import machine_command
from witnessmark.cli.new_written import write_draft
from witnessmark.cli.opening import AS_OF, MUSEUM, Opened, day_or_today, open_museum
from witnessmark.errors import RefusedError, UnknownNameError
from witnessmark.model.question_sorts import SORTS
from witnessmark.model.words import Basis, Grade


@dataclass(frozen=True)
class _FormWish:
    """What is asked about the printed form: an empty one, or one that was filled in."""

    empty: bool
    filled: Path | None
    out: Path


@click.group("new", invoke_without_command=True)
@click.option("--machine", metavar="NAME", help="Which machine: its id or its name.")
@click.option("--part", "parts", multiple=True, metavar="PART", help="An address or name; again.")
@click.option("--finding", "findings", multiple=True, metavar="ID", help="What it rests on; again.")
@click.option("--question", help="What has to be decided, as one would ask it aloud.")
@click.option("--aim", help="What the machine should be able to do afterwards.")
@click.option("--aim-because", help="Why that is wanted.")
@click.option("--title", help="A working title. Default: made from machine and part.")
@click.option("--by", metavar="PERSON", help="Who proposes it: an id from people.yml.")
@click.option("--sort", type=click.Choice(list(SORTS)), help="Decides the hazards to begin with.")
@click.option(
    "--option", "options", multiple=True, metavar="'KIND: TITLE'",
    help="One thing that could be done, beside leaving it as found; again.",
)  # fmt: skip
@click.option("--found", metavar="TEXT", help="Also add a finding that says this, and rest on it.")
@click.option("--basis", type=click.Choice([w.value for w in Basis]), help="With --found.")
@click.option("--grade", type=click.Choice([w.value for w in Grade]), help="With --found.")
@click.option("--dry-run", is_flag=True, help="Show the draft and write nothing.")
@click.option("--form", "is_form", is_flag=True, help="Write a form to print instead.")
@click.option(
    "--from-form", type=click.Path(path_type=Path), metavar="FILE", help="Write it from a form."
)
@click.option(
    "--out", type=click.Path(path_type=Path), default="decision-form", show_default=True,
    metavar="NAME", help="With --form: the files' name, without its ending.",
)  # fmt: skip
@AS_OF
@MUSEUM
@click.pass_context
def command(
    ctx: click.Context,
    /,
    museum: str,
    *,
    is_form: bool,
    from_form: Path | None,
    out: Path,
    dry_run: bool,
    as_of: date | str | None,
    **given: Any,  # noqa: ANN401  each option has its own type
) -> None:
    r"""Write a new decision as a draft; what is not given as a flag is asked for.

    It looks up the machine, its parts, its open findings and earlier decisions like it, and writes
    the hazards that are usual for such a question, leaving it as found, and the options you name.
    Blanks are left for what only you know; `witnessmark check` then says what is still wanted.

    A machine is entered with `witnessmark new machine NAME`.

    \b
    Example:
      witnessmark new
      witnessmark new --machine quay-crane --part upper-bush --question "What should carry it now?"
      witnessmark new --form
      witnessmark new --from-form decision-form.txt
    """
    if ctx.invoked_subcommand is not None:
        ctx.obj = museum
        return
    opened = open_museum(museum)
    today = day_or_today(as_of, opened.library)
    if is_form:
        print_form(opened, given["machine"], out)
    elif from_form is not None:
        fill_from_form(opened, from_form, today=today, dry_run=dry_run)
    else:
        _new_decision(opened, given, today, dry_run)


def _new_decision(opened: Opened, given: dict[str, Any], today: date, dry_run: bool) -> None:  # noqa: FBT001
    if not opened.library.machines:
        raise RefusedError(
            "This museum has no machine yet, and a decision is about one.",
            remedy="Enter it first: witnessmark new machine NAME.",
        )
    if given["found"] and not (given["basis"] and given["grade"]):
        raise UnknownNameError(
            "A finding says how it is known and how much it presses.",
            remedy="Give --basis and --grade with --found.",
        )
    wanted = ask_all(opened, Wanted(**given), today=today, talks=is_a_talk())
    write_draft(opened, wanted, today=today, dry_run=dry_run)


command.add_command(machine_command)
