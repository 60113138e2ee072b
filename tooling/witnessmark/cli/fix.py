"""witnessmark fix: slips that can be put right in one way only, shown first."""

from __future__ import annotations

import difflib
import re
import sys
from collections.abc import Iterator
from pathlib import Path

import click

from witnessmark.cli.opening import MUSEUM, find_decision_file
from witnessmark.cli.printing import folded, plural, visible
from witnessmark.errors import UnknownNameError
from witnessmark.model.corrections import MENDABLE
from witnessmark.repository.disk import find_museum, read_museum
from witnessmark.repository.writing import replace_text
from witnessmark.rules.correcting import Mended, Mending, mend
from witnessmark.rules.rulebook_check import load_shipped

RECORD = re.compile(r"[0-9]{4}-[0-9]{3}")
BOM = "\ufeff"


@click.command("fix")
@click.argument("path", default="", required=False)
@click.option("--yes", is_flag=True, help="Write without asking.")
@click.option(
    "--code", "codes", multiple=True, metavar="CODE", help="Only slips of this code, as WM012."
)
@MUSEUM
def command(path: str, *, yes: bool, codes: tuple[str, ...], museum: str) -> None:
    """Put right what can be put right in one way only, after showing it.

    PATH is a museum folder, a machine folder, a file, or the id of a decision. Mended are names and
    words with one clear meaning, texts that need quotes, tabs, other spellings of a day, decimal
    commas; and a draft gets the fields it lacks, blank, with what they mean. Comments, order and
    layout stay. A record that is agreed, or later, is never touched.

    Exit code: 0 nothing to mend or all written, 1 slips shown and not written, 2 could not run.

    Example: witnessmark fix 2026-014
    """
    where = find_decision_file(path, museum) if RECORD.fullmatch(path) else Path(path or museum)
    folder = find_museum(where)
    below = where.resolve().relative_to(folder).as_posix()
    under = "" if below == "." else f"{folder.name}/{below}"
    wanted = _known(codes) if codes else MENDABLE
    mending = mend(read_museum(folder), rulebook=load_shipped(), under=under, codes=wanted)
    for line in _shown(mending):
        click.echo(line)
    if not mending.files:
        click.echo("Nothing here can be put right in one way only.")
        return
    if not (yes or _asked(mending)):
        click.echo("Nothing is written. Add --yes to write.")
        sys.exit(1)
    for one in mending.files:
        _write(folder, one)


def _known(codes: tuple[str, ...]) -> frozenset[str]:
    unknown = sorted(set(codes) - MENDABLE)
    if unknown:
        raise UnknownNameError(
            f"No slip of {unknown[0]} is mended by this verb.",
            remedy=f"Use one of: {', '.join(sorted(MENDABLE))}.",
        )
    return frozenset(codes)


def _shown(mending: Mending) -> Iterator[str]:
    for one in mending.files:
        for slip in one.slips:
            text = f"{one.before.file}, line {slip.line}: {slip.code}: {slip.message}"
            yield from folded(text, first="", rest="  ")
        yield visible(_difference(one))
    for file, reason in mending.closed:
        yield from folded(f"{file} is left alone. {reason}", first="", rest="  ")


def _difference(one: Mended) -> str:
    file = one.before.file
    rows = difflib.unified_diff(
        one.before.text.splitlines(), one.after.text.splitlines(), file, file, lineterm=""
    )
    return "\n" + "\n".join(rows) + "\n"


def _asked(mending: Mending) -> bool:
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        return False
    slips = sum(len(one.slips) for one in mending.files)
    return click.confirm(f"Write {plural(slips, 'mend')} in {plural(len(mending.files), 'file')}?")


def _write(folder: Path, one: Mended) -> None:
    """Write one file in one move, unless somebody else has changed it since it was read.

    Raises:
        RefusedError: it is no longer what was read.
    """
    path = Path(folder.parent, one.before.file)
    start = BOM if path.read_bytes().startswith(BOM.encode()) else ""
    replace_text(path, start + one.after.text, was=one.before.text)
    click.echo(f"{one.before.file}: {plural(len(one.slips), 'slip')} mended.")
