"""witnessmark schema: the JSON Schemas that let an editor help while a record is written."""

from __future__ import annotations

from pathlib import Path

import click

from witnessmark.cli.opening import MUSEUM
from witnessmark.errors import WitnessmarkError
from witnessmark.exchange.schema import schema_files
from witnessmark.repository.disk import find_museum
from witnessmark.repository.writing import replace_text


@click.command("schema")
@MUSEUM
def command(museum: str) -> None:
    """Write schema/*.json into the museum, for editors that check and complete while you type.

    One schema for each kind of file, in JSON Schema 2020-12, and in draft-07 for older editors.
    A record names its schema in its first line, by a path beside it, so no network is needed:

    # yaml-language-server: $schema=../schema/decision.schema.json

    Example: witnessmark schema --museum decisions
    """
    folder = find_museum(Path(museum)) / "schema"
    try:
        folder.mkdir(exist_ok=True)
    except OSError as error:
        raise WitnessmarkError(
            f"{folder} could not be made: {error.strerror}.", remedy="Look at what lies there."
        ) from None
    files = schema_files()
    for name, text in sorted(files.items()):
        replace_text(folder / name, text)
    click.echo(f"{len(files)} schemas written to {folder.parent.name}/schema/.")
