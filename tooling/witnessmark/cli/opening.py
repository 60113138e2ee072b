"""Opening a museum for a verb: which folder, which day, which record."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

import click

from witnessmark.errors import UnknownNameError
from witnessmark.repository.collection import without_collection
from witnessmark.repository.disk import find_museum, read_museum

if TYPE_CHECKING:
    from witnessmark.model.library import DecisionFile, Library


@dataclass(frozen=True)
class Opened:
    """A museum as read, with its folder and the path that was asked for, as diagnostics name it."""

    folder: Path
    library: Library
    under: str


def open_museum(path: str | Path) -> Opened:
    """The museum at or above a path.

    Raises:
        UnknownNameError: there is nothing at the path.
        NoMuseumError: no museum.yml at it or above it.
    """
    from witnessmark.model.library import assemble  # most of the program, which few verbs need

    folder, under = find_path(path)
    with without_collection():
        return Opened(folder, assemble(read_museum(folder)), under)


def find_path(path: str | Path) -> tuple[Path, str]:
    """The museum folder at or above a path, and the path as diagnostics name it; empty for all.

    Raises:
        UnknownNameError: there is nothing at the path.
        NoMuseumError: no museum.yml at it or above it.
    """
    start = Path(path)
    folder = find_museum(start)
    below = start.resolve().relative_to(folder).as_posix()
    return folder, "" if below == "." else f"{folder.name}/{below}"


def find_decision(library: Library, name: str) -> DecisionFile:
    """The decision of an id.

    Raises:
        UnknownNameError: the museum has none of that id, or it cannot be read.
    """
    entry = library.by_id.get(name)
    if entry is None:
        from witnessmark.model.spelling import hint

        meant = hint(name, sorted(library.by_id)).strip() or "Use an id such as 2024-003."
        raise UnknownNameError(f'There is no decision "{name}" in this museum.', remedy=meant)
    if entry.value is None:
        raise UnknownNameError(
            f"{entry.file} cannot be read as a decision yet.",
            remedy=f"Run `witnessmark check {entry.file}` and mend what it names.",
        )
    return entry


def find_decision_file(name: str, museum: str | Path) -> Path:
    """The file of a decision, whether or not it can be read as one.

    Raises:
        UnknownNameError: the museum has none of that id.
    """
    opened = open_museum(museum)
    for entry in opened.library.decisions:
        if name in {entry.named, entry.id}:
            return Path(opened.folder.parent, entry.file)
    raise UnknownNameError(
        f'There is no decision "{name}" in this museum.', remedy="Name its file, or another museum."
    )


def read_text(path: Path, *, what: str) -> str:
    """The text of a file named on the command line; `what` says what kind is wanted.

    Raises:
        UnknownNameError: it cannot be read, or is not UTF-8 text.
    """
    try:
        return path.read_text(encoding="utf-8")
    except OSError as error:
        raise UnknownNameError(
            f"{path} cannot be read: {error.strerror}.", remedy=f"Name {what}."
        ) from None
    except UnicodeDecodeError:
        raise UnknownNameError(f"{path} is not UTF-8 text.", remedy="Save it as UTF-8.") from None


class DayParam(click.ParamType[date | str]):
    """A day on the command line: YYYY-MM-DD, or demo for the museum's own demonstration day."""

    name = "date"

    def convert(
        self, value: object, param: click.Parameter | None, ctx: click.Context | None
    ) -> date | str:
        """Read the day, or say how one is written."""
        if isinstance(value, date):
            return value
        if value == "demo":
            return "demo"
        try:
            return date.fromisoformat(str(value))
        except ValueError:
            self.fail(f'"{value}" is not a day. Write it YYYY-MM-DD, or demo.', param, ctx)


AS_OF = click.option(
    "--as-of",
    type=DayParam(),
    metavar="DATE",
    help="Read the museum as on this day (YYYY-MM-DD, or demo). Default: today.",
)
MUSEUM = click.option(
    "--museum",
    type=click.Path(),
    default="decisions",
    show_default=True,
    metavar="DIR",
    help="The museum folder.",
)


def day_or_today(as_of: date | str | None, library: Library) -> date:
    """The day asked for, the museum's demonstration day, or today in the museum's time zone."""
    museum = library.museum.value
    if as_of == "demo":
        if museum is None or museum.demo_as_of is None:
            raise UnknownNameError(
                "This museum has no demo_as_of.", remedy="Give a day as YYYY-MM-DD."
            )
        return museum.demo_as_of
    if isinstance(as_of, date):
        return as_of
    zone = ZoneInfo(museum.time_zone) if museum else UTC
    return datetime.now(tz=zone).date()
