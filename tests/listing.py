"""Lists brought into the small museum of the tests, as `import` brings them in."""

from __future__ import annotations

from building import ROOT
from mutating import PUBLIC
from reviewing import rulebook
from witnessmark.cli.bring_in import KINDS
from witnessmark.errors import WitnessmarkError
from witnessmark.exchange.incoming.column_map import map_of_headers, read_map
from witnessmark.exchange.incoming.examples import EXAMPLES
from witnessmark.exchange.incoming.table import read_table
from witnessmark.exchange.incoming.taking import Taken, take
from witnessmark.model.library import Folder

MUSEUM = Folder(ROOT, {file: text.encode() for file, text in PUBLIC.items()})


def taken_or_refused(kind: str, raw: bytes, *, by_map: bool = True) -> Taken | None:
    """What is taken of a list, or None where it is refused, with a remedy.

    Columns are named by the map of our example, or by the headers themselves.
    """
    one = KINDS[kind]
    try:
        found = read_map(EXAMPLES[kind].map.encode(), file="map.yml", fields=one.fields)
        table = read_table(raw, file="list.csv", separator=found.separator if by_map else None)
        if not by_map:
            found = map_of_headers(table.headers, fields=one.fields, file="list.csv")
        told = take(MUSEUM, table, found, lay=one.lay, source="list.csv", rulebook=rulebook())
    except WitnessmarkError as fault:
        refusal: WitnessmarkError = fault
    else:
        assert [row.number for row in table.rows] == [row.number for row in told.rows]
        return told
    assert (True, True) == (bool(str(refusal).strip()), bool(refusal.remedy.strip()))
    return None
