"""witnessmark init: a new museum, sound from the first minute."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, date, datetime
from pathlib import Path
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

import click

from witnessmark.cli.asking import given_or_asked, one_of
from witnessmark.cli.opening import DayParam
from witnessmark.errors import RefusedError, UnknownNameError
from witnessmark.exchange.new_museum import HOSTS, NewMuseum, museum_files
from witnessmark.model.museum import Museum
from witnessmark.model.shape import shape
from witnessmark.model.source import read
from witnessmark.repository.writing import create_text

# A place for history that a host makes when it makes an empty folder; nothing a person wrote.
NO_CONTENT = frozenset({".git"})


@click.command("init")
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.option("--name", help="The museum's name, as visitors know it.")
@click.option("--place", help="Where it is, in a few words; may stay blank.")
@click.option("--time-zone", metavar="ZONE", help="Such as Europe/Paris. Default: Etc/UTC.")
@click.option("--currency", metavar="CODE", help="Three letters. Default: EUR.")
@click.option(
    "--host", type=click.Choice(list(HOSTS)), help="Where the files will be kept. Default: github."
)
@click.option(
    "--as-of", type=DayParam(), metavar="DATE", help="The day the policy begins. Default: today."
)
def command(
    folder: Path,
    *,
    as_of: date | str | None,
    **given: str | None,
) -> None:
    """Begin a museum in DIR, which must be empty or not there yet.

    What is not given is asked for. The new museum checks clean and can be published at once; its
    README.md says in plain words what lies where and what to do first.

    Example: witnessmark init our-museum --name "The Mill Lane Museum" --time-zone Europe/Paris
    """
    _refuse_full(folder)
    begun = _asked(given, as_of)
    found = museum_files(begun)
    _refuse_faulty(found["decisions/museum.yml"])
    for path, text in found.items():
        create_text(folder / path, text)
    if begun.host == "other":
        (folder / "ci/witnessmark.sh").chmod(0o755)
    click.echo(_told(folder, begun, len(found)))


def _refuse_full(folder: Path) -> None:
    """Say so where something lies that somebody may need."""
    if folder.exists() and not folder.is_dir():
        raise RefusedError(f"{folder} is a file.", remedy="Name a folder.")
    found = sorted(path.name for path in folder.iterdir()) if folder.is_dir() else []
    if others := [name for name in found if name not in NO_CONTENT]:
        raise RefusedError(
            f"{folder} has something in it: {others[0]}. Nothing was written.",
            remedy="Name a folder that is empty or not there yet.",
        )


def _asked(given: Mapping[str, str | None], as_of: date | str | None) -> NewMuseum:
    asked_name = given_or_asked(given["name"], "What is the museum called?", flag="--name")
    asked_place = given_or_asked(
        given["place"], "Where is it (may stay blank)?", flag="--place", default=""
    )
    zone = given_or_asked(
        given["time_zone"],
        "Time zone?",
        flag="--time-zone",
        default="Etc/UTC",
        fault_of=_zone_fault,
    )
    money = given_or_asked(
        given["currency"], "Currency, three letters?", flag="--currency", default="EUR",
        fault_of=_currency_fault,
    )  # fmt: skip
    kept = given_or_asked(
        given["host"], f"Where will the files be kept ({', '.join(HOSTS)})?", flag="--host",
        default="github", fault_of=one_of(list(HOSTS), what="kind of host"),
    )  # fmt: skip
    return NewMuseum(
        name=" ".join(asked_name.split()),
        place=" ".join(asked_place.split()),
        time_zone=zone,
        currency=money.upper(),
        host=kept,
        day=_day(as_of, zone),
    )


def _zone_fault(answer: str) -> str | None:
    try:
        ZoneInfo(answer)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return f'There is no time zone "{answer}". Write one such as Europe/Paris or Etc/UTC.'
    return None


def _currency_fault(answer: str) -> str | None:
    """Three letters, as ISO 4217 codes have them; which ones exist is not asked."""
    is_code = len(answer) == len("EUR") and answer.isascii() and answer.isalpha()
    return None if is_code else f'"{answer}" is no code of three letters, such as EUR or CHF.'


def _day(as_of: date | str | None, zone: str) -> date:
    if as_of == "demo":
        raise UnknownNameError("A new museum has no demo day.", remedy="Give YYYY-MM-DD.")
    if isinstance(as_of, date):
        return as_of
    return datetime.now(tz=UTC).astimezone(ZoneInfo(zone)).date()


def _refuse_faulty(text: str) -> None:
    """Say what of the answers a check would fault, before anything is written."""
    for fault in shape(read("museum.yml", text.encode()), Museum).diagnostics:
        raise RefusedError(f"{fault.field}: {fault.message}", remedy=fault.fix)


def _told(folder: Path, given: NewMuseum, count: int) -> str:
    return f"""\
{given.name} begins in {folder}: {count} files, and README.md there says what each is.

Next, in that folder (cd {folder}):
  1. look at decisions/people.yml and decisions/policy/{given.policy}.yml, and make them yours
  2. witnessmark check
  3. witnessmark new machine
  4. witnessmark publish --skin plain --out site-plain, and open index.html in it"""
