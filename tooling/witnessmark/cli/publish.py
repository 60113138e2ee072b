"""witnessmark publish: the site, whole or not at all."""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import click

from witnessmark.cli.check import print_text
from witnessmark.cli.opening import AS_OF, Opened, day_or_today, find_path, open_museum
from witnessmark.cli.pictures import with_pictures
from witnessmark.errors import UnknownNameError, WitnessmarkError
from witnessmark.exchange.calendar import render_calendar
from witnessmark.exchange.export import linked_beside
from witnessmark.model.library import Library
from witnessmark.publish import OtherFormats, PublicRevision, publicly_due, render
from witnessmark.repository.asking import Request, check_museum, digest_of_museum
from witnessmark.repository.collection import without_collection
from witnessmark.repository.history import History
from witnessmark.repository.kept_file import memory_of, pictures_of
from witnessmark.repository.past import read_past
from witnessmark.repository.picture_store import PictureStore
from witnessmark.repository.record_versions import RecordVersions
from witnessmark.repository.site import (
    Rewritten,
    built_beside,
    keep_unchanged,
    read_pictures,
    write_site,
)
from witnessmark.rules.check import check
from witnessmark.rules.checked import Checked
from witnessmark.rules.rulebook_check import load_shipped


@dataclass(frozen=True)
class _Site:
    """The day of the site, what git keeps of the records, and what stands beside the pages."""

    day: date
    revisions: Mapping[str, PublicRevision]
    versions: RecordVersions
    others: OtherFormats
    store: PictureStore | None


@click.command("publish")
@click.argument("path", default="decisions", required=False)
@click.option("--out", default="site", show_default=True, metavar="DIR", help="Where to write it.")
@click.option(
    "--skin",
    type=click.Choice(["themed", "plain"]),
    default="themed",
    show_default=True,
    help="themed needs mkdocs.yml beside the museum folder; plain opens from disk by double click.",
)
@AS_OF
@click.option("--no-cache", is_flag=True, help="Make every picture ready anew; keep no copies.")
def command(path: str, out: str, skin: str, as_of: date | str | None, *, no_cache: bool) -> None:
    """Check the museum and write its public site.

    Only what is public is written. Records with errors are not published, and the old site stays
    until the new one is whole. A page that says what it said stays the file it was. Without --as-of
    the day is that of the last commit. Copies of pictures are kept in the user's cache folder.

    Example: witnessmark publish decisions --skin plain --out site-plain
    """
    with without_collection():
        before = None if no_cache else digest_of_museum(find_path(path)[0])
        opened = open_museum(path)
        _refuse_errors(opened, before)
        site = _site_of(opened, as_of, keeps=not no_cache)
        build = _build_plain if skin == "plain" else _build_themed
        told = build(opened, Path(out), site)
    if site.store:
        site.store.forget_others()
    click.echo(_files_in_words(told))
    first = "open index.html in it" if skin == "plain" else f"witnessmark serve {out}"
    click.echo(f"The {skin} site, as on {site.day}, is in {out}. To look at it: {first}.")


def _refuse_errors(opened: Opened, before: str | None) -> None:
    """Go on only with a museum without errors."""
    checked = with_pictures(_checked(opened, before), opened)
    if any(diagnostic.level.value == "error" for diagnostic in checked.diagnostics):
        print_text(checked, opened.library, most=20)
        click.echo("Nothing was published; the old site stands.", err=True)
        sys.exit(1)


def _site_of(opened: Opened, as_of: date | str | None, *, keeps: bool) -> _Site:
    past = read_past(opened.folder, zone=_zone(opened.library))
    day = _day(as_of, opened.library, past.history)
    return _Site(
        day=day,
        revisions=_revisions(opened.library, past.history),
        versions=past.versions,
        others=OtherFormats(calendar=_calendar(opened.library, day), linked=linked_beside),
        store=PictureStore(pictures_of(opened.folder)) if keeps else None,
    )


def _build_plain(opened: Opened, target: Path, site: _Site) -> Rewritten:
    pages = render(
        opened.library,
        rulebook=load_shipped(),
        as_of=site.day,
        skin="plain",
        revisions=site.revisions,
        versions=site.versions,
        pictures=read_pictures(opened.folder, opened.library.names),
        others=site.others,
        store=site.store,
    )
    return write_site(pages, target)


def _checked(opened: Opened, before: str | None) -> Checked:
    """What is found in the whole museum, from memory where nothing it rests on has changed.

    `before` is the digest of the museum before it was opened; without it, nothing is remembered.

    Raises:
        WitnessmarkError: a file was changed between being read for the pages and being checked.

    """
    if before is None:
        return check(opened.library, rulebook=load_shipped())
    answer = check_museum(Request(opened.folder, memory=memory_of(opened.folder)))
    if answer.museum != before:
        raise WitnessmarkError(
            "A file of the museum was changed while it was being read. The old site stands.",
            remedy="Publish again when everything is saved.",
        )
    return answer.checked


def _files_in_words(told: Rewritten) -> str:
    """How much of the old site is still there."""
    if not told.kept:
        return f"{told.written} files were written."
    gone = f" {told.gone} went." if told.gone else ""
    return f"{told.written} files were written, {told.kept} stayed as they were.{gone}"


def _calendar(library: Library, day: date) -> bytes:
    """What is due, cut down to what the public may see, for telephones and desks."""
    return render_calendar(publicly_due(library, as_of=day), library.museum.value).encode()


def _zone(library: Library) -> ZoneInfo:
    museum = library.museum.value
    return ZoneInfo(museum.time_zone if museum else "Etc/UTC")


def _day(as_of: date | str | None, library: Library, history: History) -> date:
    """The day asked for, else SOURCE_DATE_EPOCH, else the day of HEAD, else today."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    if as_of is None and epoch and epoch.isdigit():
        return datetime.fromtimestamp(int(epoch), tz=UTC).astimezone(_zone(library)).date()
    if as_of is None and history.head is not None:
        return history.head.day
    return day_or_today(as_of, library)


def _revisions(library: Library, history: History) -> Mapping[str, PublicRevision]:
    """The last revision of each decision's file, by decision id."""
    return {
        entry.id: PublicRevision(
            name=history.last[entry.file].name, day=history.last[entry.file].day
        )
        for entry in library.decisions
        if entry.file in history.last
    }


def _build_themed(opened: Opened, target: Path, site: _Site) -> Rewritten:
    """Build with mkdocs into a folder beside the target, then swap it in."""
    config_file = opened.folder.parent / "mkdocs.yml"
    if not config_file.is_file():
        raise UnknownNameError(
            f"There is no {config_file}, which the themed skin needs.",
            remedy="Write one (the documentation shows it), or use --skin plain.",
        )
    # Both are read by mkdocs and its theme; the site must not depend on the day it is built.
    day = site.day
    os.environ["SOURCE_DATE_EPOCH"] = str(
        int(datetime(day.year, day.month, day.day, tzinfo=UTC).timestamp())
    )
    os.environ["NO_MKDOCS_2_WARNING"] = "1"
    with built_beside(target) as folder:
        _mkdocs(config_file, folder, opened, site)
        return keep_unchanged(folder, target)


def _mkdocs(config_file: Path, folder: Path, opened: Opened, site: _Site) -> None:
    from mkdocs.commands.build import build
    from mkdocs.config import load_config
    from mkdocs.exceptions import Abort, MkDocsException

    from witnessmark.publish.finder import TOO_LARGE, Finder
    from witnessmark.publish.mkdocs_plugin import WitnessmarkPlugin

    try:
        config = load_config(str(config_file), site_dir=str(folder.absolute()), strict=True)
        for plugin in config.plugins.values():
            if isinstance(plugin, WitnessmarkPlugin):
                plugin.config.museum = str(opened.folder)
                plugin.config.as_of = site.day
                plugin.revisions = site.revisions
                plugin.versions = site.versions
                plugin.others = site.others
                plugin.store = site.store
        build(config)
        ours = (one for one in config.plugins.values() if isinstance(one, WitnessmarkPlugin))
        if any(plugin.finder is Finder.TOO_LARGE for plugin in ours):
            click.echo(TOO_LARGE)
    except (Abort, MkDocsException) as fault:
        raise WitnessmarkError(
            f"mkdocs could not build the site: {fault}.",
            remedy=f"Look at {config_file} and at what mkdocs printed above. The old site stands.",
        ) from None
