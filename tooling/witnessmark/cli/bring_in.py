"""witnessmark import: parts, findings or old decisions from a CSV file."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

import click

from witnessmark.cli.opening import MUSEUM
from witnessmark.cli.printing import folded, plural, visible
from witnessmark.errors import UnknownNameError
from witnessmark.exchange.incoming import decisions, findings, parts
from witnessmark.exchange.incoming.column_map import (
    ColumnMap,
    map_of_headers,
    not_taken,
    read_map,
    refuse_strange_columns,
)
from witnessmark.exchange.incoming.examples import EXAMPLES
from witnessmark.exchange.incoming.table import MOST_BYTES, Table, read_table
from witnessmark.exchange.incoming.taking import Lay, Taken, take
from witnessmark.model.files import Folder
from witnessmark.repository.disk import find_museum, read_museum
from witnessmark.repository.writing import as_text, new_folder, replace_text
from witnessmark.rules.rulebook_check import load_shipped


class Kind(NamedTuple):
    """One kind of list: its fields, and what lays a row of it into the museum."""

    fields: Sequence[str]
    lay: Lay


KINDS: Mapping[str, Kind] = {
    "parts": Kind(parts.FIELDS, parts.lay_part),
    "findings": Kind(findings.FIELDS, findings.lay_finding),
    "decisions": Kind(decisions.FIELDS, decisions.lay_decision),
}


@click.command("import")
@click.argument("kind", type=click.Choice(list(KINDS)))
@click.argument("file", type=click.Path(path_type=Path), required=False)
@click.option(
    "--map",
    "map_file",
    type=click.Path(path_type=Path),
    metavar="MAP",
    help="What each column is.",
)
@click.option("--yes", is_flag=True, help="Write without asking.")
@click.option(
    "--example",
    is_flag=False,
    flag_value="both",
    type=click.Choice(["both", "csv", "map"]),
    help="Print an example list and its map (or one of them), and stop.",
)
@MUSEUM
def command(
    kind: str,
    file: Path | None,
    *,
    map_file: Path | None,
    yes: bool,
    example: str | None,
    museum: str,
) -> None:
    """Bring in rows of a list; every row is accounted for before anything is written.

    FILE is CSV in UTF-8 with ; or , between the cells. The map says which column holds which of our
    fields, in the list's own words; it may be left out where the headers are our field names.
    Parts go into machine.yml, findings into findings.yml, old decisions become drafts with their
    blanks named. Nothing that is there is overwritten.

    Exit code: 0 every row is taken, 1 a row is left out or nothing was written, 2 could not run.

    Example: witnessmark import parts crane.csv --map crane-map.yml
    """
    if example:
        click.echo(_example(kind, example), nl=False)
        return
    if file is None:
        raise click.UsageError("Name a CSV file, or ask for --example.")
    folder = find_museum(Path(museum))
    table, found = _read(KINDS[kind], file, map_file)
    before = read_museum(folder)
    taken = take(
        before,
        table,
        found,
        lay=KINDS[kind].lay,
        source=file.name,
        rulebook=load_shipped(),
    )
    for line in _account(taken, tuple(not_taken(table.headers, found))):
        click.echo(line)
    is_written = bool(taken.texts) and (yes or _asked(taken))
    if is_written:
        _write(folder, taken.texts, before)
    else:
        click.echo(
            "Nothing is written. Add --yes to write." if taken.texts else "Nothing to write."
        )
    sys.exit(0 if is_written and all(row.placed for row in taken.rows) else 1)


def _example(kind: str, which: str) -> str:
    one = EXAMPLES[kind]
    if which != "both":
        return one.csv if which == "csv" else one.map
    return f"# {kind}.csv\n{one.csv}\n# {kind}-map.yml\n{one.map}"


def _read(kind: Kind, file: Path, map_file: Path | None) -> tuple[Table, ColumnMap]:
    given = read_map(_bytes(map_file), file=map_file.name, fields=kind.fields) if map_file else None
    separator = given.separator if given else None
    table = read_table(_bytes(file), file=file.name, separator=separator)
    found = given or map_of_headers(table.headers, fields=kind.fields, file=file.name)
    refuse_strange_columns(found, table.headers, file=file.name)
    return table, found


def _bytes(path: Path) -> bytes:
    """The bytes of a file, and one more than are read where it is too large."""
    try:
        with path.open("rb") as file:
            return file.read(MOST_BYTES + 1)
    except OSError as error:
        raise UnknownNameError(
            f"{path} cannot be read: {error.strerror}.", remedy="Name a file that is there."
        ) from None


def _account(taken: Taken, left: Sequence[str]) -> Iterator[str]:
    """Every row in its order, then the counts, the columns left out, and what a check warns of."""
    for row in taken.rows:
        what = f"taken: {row.placed.told}" if row.placed else f"left out: {row.reason}"
        yield from folded(f"row {row.number:<4} {what}", first="", rest="         ")
        if row.placed and row.placed.blanks:
            blanks = f"blanks to fill: {', '.join(row.placed.blanks)}"
            yield from folded(blanks, first="         ", rest="         ")
    placed = sum(row.placed is not None for row in taken.rows)
    out = len(taken.rows) - placed
    yield f"\n{plural(len(taken.rows), 'row')}: {placed} taken, {out} left out."
    if left:
        yield visible(f"Columns that no field takes: {', '.join(left)}.")
    for one in taken.warned:
        yield from folded(
            f"{one.file}: {one.code}: {one.message}", first="A check will say: ", rest="  "
        )


def _asked(taken: Taken) -> bool:
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        return False
    return click.confirm(f"Write {plural(len(taken.texts), 'file')}?")


def _write(folder: Path, texts: Mapping[str, str], before: Folder) -> None:
    """Write each file in one move, unless somebody else has changed it since it was read.

    Raises:
        RefusedError: one is no longer what was read; those before it are written, and said.
    """
    for name, text in sorted(texts.items()):
        path, old = folder / name, before.files.get(name)
        new_folder(path.parent)
        replace_text(path, text, was=None if old is None else as_text(old))
        click.echo(f"{folder.name}/{name} written.")
