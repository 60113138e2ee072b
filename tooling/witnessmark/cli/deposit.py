"""witnessmark deposit: everything for readers who have nothing of ours, in one folder or tar."""

from __future__ import annotations

import json
import os
import sys
import tarfile
from datetime import UTC, date, datetime
from pathlib import Path

import click

from witnessmark.cli.check import print_text
from witnessmark.cli.deposit_kit import agreements_now, gather, kit_of, levels, records_of
from witnessmark.cli.opening import AS_OF, Opened, open_museum
from witnessmark.cli.printing import plural, visible
from witnessmark.errors import RefusedError, UnknownNameError
from witnessmark.exchange.deposit import Old, Sort, compare_deposits, deposit_files
from witnessmark.exchange.deposit.compare_report import compared_data, compared_text
from witnessmark.exchange.deposit.tar import files_in_tar, tar_of
from witnessmark.repository.deposits import (
    is_deposit,
    read_folder,
    read_one_file,
    write_deposit,
    write_one_file,
)
from witnessmark.rules.check import check
from witnessmark.rules.rulebook_check import load_shipped

OUT = {Sort.PUBLIC: "deposit", Sort.SEALED: "deposit-sealed"}
_WARNING = (
    "This deposit is sealed: it holds private fields, records that are not published, and the "
    "whole history. It is for the museum's own store. Do not put it on the web."
)
_NO_PRINTER = (
    "WeasyPrint is not installed, so the reading copy is pages of HTML and no PDF. To have PDF, "
    "install witnessmark with its extra reading-copy."
)


@click.command("deposit")
@click.argument("path", metavar="[MUSEUM]", default="decisions", required=False)
@click.option(
    "--out", metavar="DIR", help="Where to write it. Default: deposit, or deposit-sealed."
)
@click.option("--sealed", is_flag=True, help="For the museum's own store: private fields included.")
@click.option("--tar", "as_tar", is_flag=True, help="Write one file, DIR.tar, instead of a folder.")
@click.option(
    "--compare",
    "old",
    type=click.Path(),
    metavar="OLD",
    help="Write nothing; say what differs from this earlier deposit, a folder or a .tar.",
)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    show_default=True,
    help="How a comparison is told.",
)
@AS_OF
def command(
    path: str,
    *,
    out: str | None,
    sealed: bool,
    as_tar: bool,
    old: str | None,
    form: str,
    as_of: date | str | None,
) -> None:
    r"""Write all that a reader in forty years needs: a BagIt bag that explains itself.

    It holds the records, the site, a reading copy for paper, rules, schemas and seals, and
    README-FIRST.txt. A public deposit holds public fields only. Without --as-of the day is that of
    the last commit, never today, so that the same commit gives the same bytes.

    Exit code: 0 written, or nothing in a comparison needs a person; 1 the records have errors, or
    a decision is gone or a seal no longer matches; 2 could not run.

    \b
    Example:
      witnessmark deposit decisions --out deposit
      witnessmark deposit --compare deposit
    """
    opened = open_museum(path)
    if old is not None:
        _compare(opened, Path(old), form=form, as_of=as_of)
    sort = Sort.SEALED if sealed else Sort.PUBLIC
    target = Path(out or OUT[sort])
    _refuse_wrong_place(target, sort, opened)
    _check(opened, sort)
    gathered = gather(opened, sort, as_of=as_of)
    _for_the_printer(gathered.day)
    kit = kit_of(gathered)
    if not kit.has_pdf:
        click.echo(_NO_PRINTER, err=True)
    files = deposit_files(kit, levels=levels())
    if as_tar:
        target = target.with_name(f"{target.name}.tar")
        write_one_file(tar_of(files, top=target.stem, day=kit.day), target)
    else:
        write_deposit(files, target)
    if kit.is_edited:
        click.echo("Some files differ from the last commit; the deposit says so.", err=True)
    for name, (reason, _) in sorted(gathered.folder.refused.items()):
        click.echo(visible(f"Left out: {name}. {reason}"), err=True)
    if sort is Sort.SEALED:
        click.echo(_WARNING, err=True)
    said = f"The {sort} deposit of {plural(len(kit.decisions), 'decision')}, as on {kit.day}"
    click.echo(visible(f"{said}, is in {target}. Read README-FIRST.txt in it."))


def _for_the_printer(day: date) -> None:
    """The fonts in a PDF bear a time; it must not be that of the making."""
    moment = datetime(day.year, day.month, day.day, tzinfo=UTC)
    os.environ["SOURCE_DATE_EPOCH"] = str(int(moment.timestamp()))


def _refuse_wrong_place(target: Path, sort: Sort, opened: Opened) -> None:
    if target.resolve().is_relative_to(opened.folder):
        raise RefusedError(
            f"{target} lies within the museum's own folder.", remedy="Name a folder outside it."
        )
    if target.is_dir() and is_deposit(target):
        there = Old(read_folder(target)).sort
        if there not in (None, sort):
            raise RefusedError(
                f"{target} holds a {there} deposit, and this one is {sort}.",
                remedy="Name another folder, so that the two are never mistaken for each other.",
            )


def _check(opened: Opened, sort: Sort) -> None:
    """Stop before a public deposit with errors; a museum's own store takes what there is."""
    checked = check(opened.library, rulebook=load_shipped())
    errors = [one for one in checked.diagnostics if one.level.value == "error"]
    if not errors:
        return
    if sort is Sort.PUBLIC:
        print_text(checked, opened.library, most=20)
        click.echo("Nothing was written; an older deposit stands.", err=True)
        sys.exit(1)
    found = plural(len(errors), "error")
    click.echo(f"The records have {found}; they are deposited as they stand.", err=True)


def _compare(opened: Opened, place: Path, *, form: str, as_of: date | str | None) -> None:
    old = _read_old(place)
    if old.sort is None:
        raise UnknownNameError(
            f"{place} is no deposit of ours: its bag-info.txt does not say which sort it is.",
            remedy="Name the folder that holds bagit.txt, or a .tar that `deposit` wrote.",
        )
    gathered = gather(opened, old.sort, as_of=as_of, with_history=False)
    unfit = {(a.decision, a.role) for a, fits in agreements_now(gathered) if not fits}
    compared = compare_deposits(old, records_of(gathered), unfit=unfit)
    if form == "json":
        click.echo(json.dumps(compared_data(compared, old), indent=2, ensure_ascii=False))
    else:
        click.echo("\n".join(visible(line) for line in compared_text(compared, old)))
    sys.exit(int(compared.needs_a_person))


def _read_old(place: Path) -> Old:
    if place.is_dir():
        return Old(read_folder(place))
    try:
        return Old(files_in_tar(read_one_file(place)))
    except tarfile.TarError:
        raise UnknownNameError(
            f"{place} is neither a folder nor a tar.", remedy="Name a deposit."
        ) from None
