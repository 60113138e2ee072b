"""witnessmark new machine: a machine with its parts, so that decisions can be about them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import click

from witnessmark.cli.asking import given_or_asked, is_a_talk, one_of
from witnessmark.cli.opening import AS_OF, Opened, day_or_today, open_museum
from witnessmark.cli.printing import folded, plural
from witnessmark.errors import RefusedError, UnknownNameError
from witnessmark.model.diagnostics import Level
from witnessmark.model.files import NOT_MACHINES
from witnessmark.model.machine import Machine
from witnessmark.model.new_decision import slug
from witnessmark.model.new_machine import (
    HOW_A_PART_IS_WRITTEN,
    NewMachine,
    NewPart,
    machine_text,
    part_in,
)
from witnessmark.model.shape import shape
from witnessmark.model.source import read
from witnessmark.model.words import Kept
from witnessmark.repository.writing import create_text
from witnessmark.rules.check import check
from witnessmark.rules.rulebook_check import load_shipped

_LOOK_AGAIN = timedelta(days=365)  # common practice, no source: whether it should run, once a year


@click.command("machine")
@click.argument("name", required=False)
@click.option("--what", help="What it is and did, in a sentence or two.")
@click.option("--built", help="The year, as far as it is known.")
@click.option("--kept", type=click.Choice([w.value for w in Kept]), help="Default: reserve.")
@click.option("--decided", help="Where it was decided that it runs: minutes, a letter, a day.")
@click.option("--shows", help="What running shows that standing cannot.")
@click.option("--matters", help="Why it matters.")
@click.option("--state", help="The state against which work is judged, as in its last season.")
@click.option("--part", "parts", multiple=True, metavar="LINE", help=f"{HOW_A_PART_IS_WRITTEN}.")
@click.option("--museum", type=click.Path(), metavar="DIR", help="The museum folder.")
@AS_OF
@click.pass_context
def machine_command(
    ctx: click.Context,
    /,
    name: str | None,
    museum: str | None,
    *,
    parts: tuple[str, ...],
    as_of: date | str | None,
    **given: str | None,
) -> None:
    r"""Enter a machine, with its parts as it stands today; what is not given is asked for.

    The folder is named after it. The file can be changed in any editor afterwards.

    \b
    Example:
      witnessmark new machine "The steam hammer" --what "A hammer of 1898" --kept on-display
        --matters "The only one left" --state "As it last worked" --part "Ram / Guides, wear, 2"
    """
    opened = open_museum(museum or ctx.obj or "decisions")
    today = day_or_today(as_of, opened.library)
    machine = _asked(name, given, parts, today)
    folder = slug(machine.name.lower().removeprefix("the "))
    _refuse_taken(opened, folder)
    path = f"{opened.library.root}/{folder}/machine.yml"
    text = machine_text(machine)
    _refuse_faulty(opened, folder, path, text)
    create_text(opened.folder.parent / path, text)
    click.echo(f"{path} written: {machine.name}, {plural(len(machine.parts), 'part')}.")
    text = (
        "Read it through, above all origin and made_to of each part: they decide what a loss "
        f"counts. Then `witnessmark finding {folder} ...` or `witnessmark new --machine {folder}`."
    )
    click.echo("\n".join(folded(text, first="  ", rest="  ")))


def _asked(
    name: str | None,
    given: dict[str, str | None],
    lines: tuple[str, ...],
    today: date,
) -> NewMachine:
    called = given_or_asked(name, "What is the machine called?", flag="NAME")
    if not slug(called):
        raise UnknownNameError(f'"{called}" has no letters a to z.', remedy="Give another name.")
    what = given_or_asked(given["what"], "What is it, in a sentence or two?", flag="--what")
    built = given_or_asked(given["built"], "Built when?", flag="--built", default="")
    kept, decided, shows = _how_kept(given)
    matters = given_or_asked(given["matters"], "Why does it matter?", flag="--matters")
    state = given_or_asked(given["state"], "Against which state is work judged?", flag="--state")
    return NewMachine(
        name=called,
        what=what,
        built=built,
        day=today,
        kept=kept,
        decided=decided,
        shows=shows,
        look_again=today + _LOOK_AGAIN,
        statement=matters,
        state=state,
        parts=tuple(_parts(lines)),
    )


def _how_kept(given: dict[str, str | None]) -> tuple[Kept, str, str]:
    """The way it is kept and, where it runs, where that was decided and what it shows."""
    ways = [way.value for way in Kept]
    kept = given_or_asked(
        given["kept"], f"How is it kept ({', '.join(ways)})?", flag="--kept", default="reserve",
        fault_of=one_of(ways, what="way of keeping called"),
    )  # fmt: skip
    runs = kept == Kept.RUNNING.value
    decided = given["decided"] or ""
    shows = given["shows"] or ""
    if runs:
        decided = given_or_asked(
            given["decided"], "Where was it decided that it runs?", flag="--decided"
        )
        shows = given_or_asked(
            given["shows"], "What does running show that standing cannot?", flag="--shows",
            default="",
        )  # fmt: skip
    return Kept.named(kept), decided, shows


def _parts(lines: tuple[str, ...]) -> list[NewPart]:
    found = [part_in(line) for line in lines]
    if not found and is_a_talk():
        click.echo(f"The parts, one a line. {HOW_A_PART_IS_WRITTEN}")
        while line := given_or_asked(
            None, "Part (blank: no more)", flag="--part", default="", fault_of=_part_fault
        ):
            found.append(part_in(line))
    if not found:
        raise UnknownNameError(
            "A machine has at least one part.", remedy=f"Give --part: {HOW_A_PART_IS_WRITTEN}."
        )
    return found


def _part_fault(line: str) -> str | None:
    try:
        part_in(line)
    except UnknownNameError as fault:
        return str(fault)
    return None


def _refuse_taken(opened: Opened, folder: str) -> None:
    if folder in NOT_MACHINES or (opened.folder / folder).exists():
        raise RefusedError(
            f"There is a folder {opened.library.root}/{folder} already.",
            remedy="Give the machine a name that tells it apart, such as its number.",
        )


def _refuse_faulty(opened: Opened, folder: str, path: str, text: str) -> None:
    """Say what a check would find an error in, before anything is written."""
    shaped = shape(read(path, text.encode()), Machine)
    files = {**opened.library.machine_files, folder: shaped}
    checked = check(
        replace(opened.library, machine_files=files), rulebook=load_shipped(), under=path
    )
    for fault in checked.diagnostics:
        if fault.level is Level.ERROR:
            raise RefusedError(f"{fault.field}: {fault.message}", remedy=fault.fix)
