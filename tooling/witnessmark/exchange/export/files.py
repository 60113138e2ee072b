"""All files of an export, by format and by their path in the folder it is written to."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from witnessmark.exchange.export.csv_files import csv_files
from witnessmark.exchange.export.json_lines import json_lines_files
from witnessmark.exchange.export.linked import linked_files
from witnessmark.exchange.export.parquet import parquet_files
from witnessmark.exchange.export.published import Published

FORMATS: Mapping[str, Callable[[Sequence[Published]], dict[str, bytes]]] = {
    "csv": csv_files,
    "jsonl": json_lines_files,
    "parquet": parquet_files,
    "jsonld": linked_files,
}


def export_files(museums: Sequence[Published], formats: Sequence[str]) -> dict[str, bytes]:
    """The files of one format or several; no two formats share a path.

    Raises:
        WitnessmarkError: a format needs a library, or a web address, that is not there.
    """
    found: dict[str, bytes] = {}
    for name in dict.fromkeys(formats):
        found |= FORMATS[name](museums)
    return found
