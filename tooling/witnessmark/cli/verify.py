"""witnessmark verify: how each agreement stands."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from datetime import date
from typing import Any

import click

from witnessmark.cli.opening import (
    AS_OF,
    MUSEUM,
    Opened,
    day_or_today,
    find_decision,
    open_museum,
)
from witnessmark.cli.printing import plural, visible
from witnessmark.exchange.agreements import Agreement, agreement_words, agreements_of
from witnessmark.model.library import DecisionFile
from witnessmark.model.statement import ALLOWED_SIGNERS
from witnessmark.repository.versions import read_further, read_versions
from witnessmark.weighing.case import work_out


@click.command("verify")
@click.argument("decision", metavar="[ID]", required=False)
@click.option(
    "--base",
    metavar="REVISION",
    help="Take the list of keys from this git revision. Default: the file in the museum folder.",
)
@click.option(
    "--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True
)
@AS_OF
@MUSEUM
def command(
    decision: str | None, base: str | None, form: str, as_of: date | str | None, museum: str
) -> None:
    """Say how each agreement stands: its seal, its words, and its signature where there is one.

    Without a signature that verifies, an agreement is "recorded as agreed by", never signed. Keys
    are those of allowed_signers in the museum folder; a reviewer names the base branch, so that a
    branch cannot vouch for itself.

    Exit code: 0 every agreement holds, 1 one does not, 2 could not run.

    Example: witnessmark verify 2024-003 --base main
    """
    opened = open_museum(museum)
    day = day_or_today(as_of, opened.library)
    entries = [find_decision(opened.library, decision)] if decision else [*opened.library.decisions]
    found = list(_agreements(opened, entries, base))
    unread = [entry.file for entry in entries if entry.value is None]
    if form == "json":
        click.echo(json.dumps([_row(one, day) for one in found], indent=2, ensure_ascii=False))
    else:
        _print(found, day)
    for file in unread:
        click.echo(f"{file} cannot be read as a decision, so it is not verified.", err=True)
    sys.exit(int(bool(unread) or any(not _is_sound(one, day) for one in found)))


def _agreements(
    opened: Opened, entries: list[DecisionFile], base: str | None
) -> Iterator[Agreement]:
    further = read_further(opened.folder)
    allowed = further.get(ALLOWED_SIGNERS)
    if base is not None:
        allowed = read_versions(opened.folder, base=base).allowed_signers
    for entry in entries:
        if entry.value and entry.value.agreed:
            case = work_out(entry.value, entry.machine, opened.library)
            yield from agreements_of(entry, case, opened.library, further=further, allowed=allowed)


def _is_sound(one: Agreement, day: date) -> bool:
    return one.is_sound and one.signature.date <= day


def _sentences(one: Agreement, day: date) -> Iterator[str]:
    yield from agreement_words(one)
    if one.signature.date > day:
        yield f"{one.signature.date} lies after {day}."


def _print(found: list[Agreement], day: date) -> None:
    for one in found:
        mark = "holds" if _is_sound(one, day) else "FAILS"
        click.echo(visible(f"{one.record}  {mark}  {' '.join(_sentences(one, day))}"))
    failing = sum(not _is_sound(one, day) for one in found)
    said = "every one holds" if not failing else f"{failing} of them {_verb(failing)} not hold"
    click.echo(f"{plural(len(found), 'agreement')}: {said if found else 'nothing to verify'}.")


def _verb(count: int) -> str:
    return "does" if count == 1 else "do"


def _row(one: Agreement, day: date) -> dict[str, Any]:
    signed = one.signed
    return {
        "record": one.record,
        "file": one.file,
        "by": one.signature.by,
        "role": one.signature.role.value,
        "date": one.signature.date.isoformat(),
        "seal_holds": one.seal_holds,
        "words_hold": one.words_hold,
        "held_the_role": one.holds_role,
        "signature": None if signed is None else "verifies" if signed.fits else "does not fit",
        "holds": _is_sound(one, day),
        "says": list(_sentences(one, day)),
    }
