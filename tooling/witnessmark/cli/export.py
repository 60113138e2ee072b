"""witnessmark export: what a museum publishes, as tables and linked data for others."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import click

from witnessmark.cli.check import print_text
from witnessmark.cli.opening import AS_OF, day_or_today, open_museum
from witnessmark.errors import UnknownNameError
from witnessmark.exchange.export import (
    FORMATS,
    Published,
    export_files,
    names_wanted,
    read_published,
)
from witnessmark.publish import public_museum
from witnessmark.publish.public_json import MUSEUM_JSON, public_files
from witnessmark.repository.prepared import prepared
from witnessmark.repository.site import read_pictures, write_site
from witnessmark.rules.check import check
from witnessmark.rules.rulebook_check import load_shipped


@click.command("export")
@click.argument("museum", default="decisions", required=False)
@click.option(
    "--format",
    "formats",
    type=click.Choice(list(FORMATS)),
    multiple=True,
    default=("csv",),
    show_default=True,
    help="May be given several times. parquet needs pyarrow, jsonld the museum's web address.",
)
@click.option("--out", default="export", show_default=True, metavar="DIR", help="Where to write.")
@click.option(
    "--site",
    "sites",
    multiple=True,
    metavar="DIR",
    help="Read the data of a published site instead of a museum. May be given several times.",
)
@AS_OF
def command(
    museum: str,
    formats: tuple[str, ...],
    out: str,
    sites: tuple[str, ...],
    as_of: date | str | None,
) -> None:
    r"""Write what is public as tables (csv, jsonl, parquet) or as linked data (jsonld).

    Only what the site shows is written. The folder is written whole or not at all, and replaced
    the next time. `witnessmark explain questions` has questions to ask of it.

    \b
    Example:
      witnessmark export decisions --format csv --format jsonld --out export
      witnessmark export --site our-site --site their-site --format parquet
    """
    found = [_of_site(Path(site)) for site in sites] or [_of_museum(museum, as_of)]
    files = export_files(found, formats)
    write_site(files, Path(out))
    whole = sum(len(one.decisions) for one in found)
    click.echo(f"{whole} decisions are in {out}, {len(files)} files, as {', '.join(formats)}.")


def _of_museum(path: str, as_of: date | str | None) -> Published:
    """What a museum publishes; with errors in its records nothing is exported."""
    opened = open_museum(path)
    checked = check(opened.library, rulebook=load_shipped())
    if any(diagnostic.level.value == "error" for diagnostic in checked.diagnostics):
        print_text(checked, opened.library, most=20)
        click.echo("Nothing was exported; what was there stands.", err=True)
        sys.exit(1)
    public = public_museum(
        opened.library,
        load_shipped(),
        as_of=day_or_today(as_of, opened.library),
        pictures=prepared(read_pictures(opened.folder, opened.library.names), opened.library),
    )
    return read_published(public_files(public))


def _of_site(folder: Path) -> Published:
    return read_published(dict(_files_of_site(folder)))


def _files_of_site(folder: Path) -> Iterator[tuple[str, bytes]]:
    for path in names_wanted(_bytes(folder / MUSEUM_JSON)):
        yield path, _bytes(folder / path)


def _bytes(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise UnknownNameError(
            f"{path} cannot be read: {error.strerror}.",
            remedy="Name the folder of a published site that has its data.",
        ) from None
