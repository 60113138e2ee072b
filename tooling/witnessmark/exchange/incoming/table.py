"""A CSV file as rows with their numbers, or a refusal that says how to save it again."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from witnessmark.errors import RefusedError

MOST_BYTES = 1_000_000
MOST_ROWS = 1_000
MOST_COLUMNS = 60
"""Our own limits: a parts list of a whole machine is a tenth of each."""
SEPARATORS = (";", ",")
SAVE_AGAIN = 'Save it again from the spreadsheet as "CSV UTF-8", with ; or , between the cells.'


@dataclass(frozen=True)
class Row:
    """One row below the header, numbered as a spreadsheet shows it: the header is row 1.

    `cells` are the filled cells by header; `fault` says why the row cannot be read, if it cannot.
    """

    number: int
    cells: Mapping[str, str]
    fault: str = ""


@dataclass(frozen=True)
class Table:
    """A file's headers in their order, and every row."""

    headers: tuple[str, ...]
    rows: tuple[Row, ...]
    separator: str


def read_table(raw: bytes, *, file: str, separator: str | None = None) -> Table:
    """The rows of a CSV file (RFC 4180), its separator found unless it is given.

    Raises:
        RefusedError: it is too large, not UTF-8, has no plain header, or may be read in two ways.
    """
    text = _decoded(raw, file)
    found = separator or _separator(text, file)
    lines = _lines(text, found, file)
    headers = tuple(cell.strip() for cell in lines[0])
    _refuse_headers(headers, file)
    if len(lines) - 1 > MOST_ROWS:
        raise RefusedError(
            f"{file} has {len(lines) - 1} rows; at most {MOST_ROWS} are taken at once.",
            remedy="Split it into several files.",
        )
    rows = tuple(_row(number, cells, headers) for number, cells in enumerate(lines[1:], 2))
    return Table(headers, rows, found)


def _decoded(raw: bytes, file: str) -> str:
    if len(raw) > MOST_BYTES:
        raise RefusedError(
            f"{file} has {len(raw):,} bytes; at most {MOST_BYTES:,} are read.",
            remedy="Split it into several files.",
        )
    if b"\0" in raw:
        raise RefusedError(f"{file} is not saved as UTF-8 text.", remedy=SAVE_AGAIN)
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        line = raw.count(b"\n", 0, fault.start) + 1
        raise RefusedError(
            f"{file} is not UTF-8: see byte \\x{raw[fault.start]:02x} on line {line}.",
            remedy=SAVE_AGAIN,
        ) from None
    if not text.strip():
        raise RefusedError(f"{file} is empty.", remedy="Name a file with a header and rows.")
    return text


def _separator(text: str, file: str) -> str:
    """The one separator by which every row has as many cells as the header, if there is one."""
    header = text.lstrip().partition("\n")[0]
    if "\t" in header and not any(sign in header for sign in SEPARATORS):
        raise RefusedError(f"{file} has tabs between its cells.", remedy=SAVE_AGAIN)
    split = {sign: _lines(text, sign, file) for sign in SEPARATORS if sign in header}
    widths = {sign: {len(cells) for cells in lines if cells} for sign, lines in split.items()}
    even = [sign for sign, found in widths.items() if len(found) == 1]
    sure = even if len(even) == 1 else list(split)
    if len(sure) > 1:
        raise RefusedError(
            f"{file} may have ; or , between its cells.",
            remedy='Say which in the map, as in: separator: ";"',
        )
    return sure[0] if sure else ","


def _lines(text: str, separator: str, file: str) -> list[list[str]]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    lines: list[list[str]] = []
    try:
        for cells in reader:
            lines.append(cells)  # noqa: PERF402  so that the fault can name the row
    except csv.Error as fault:
        raise RefusedError(
            f"{file}, row {len(lines) + 1}: {fault}.",
            remedy='Close each quote; a quote inside a cell is written twice, "".',
        ) from None
    return lines


def _refuse_headers(headers: Sequence[str], file: str) -> None:
    twice = sorted({header for header in headers if header and headers.count(header) > 1})
    if twice:
        raise RefusedError(
            f'{file} has two columns called "{twice[0]}".', remedy="Give each a name of its own."
        )
    if len(headers) > MOST_COLUMNS or not any(headers):
        raise RefusedError(
            f"{file} has {len(headers)} columns in its first row.",
            remedy=f"Begin with a row of at most {MOST_COLUMNS} headers.",
        )


def _row(number: int, cells: Sequence[str], headers: Sequence[str]) -> Row:
    filled = [cell.strip() for cell in cells]
    if not any(filled):
        return Row(number, {}, "The row is empty.")
    if len(cells) != len(headers):
        return Row(number, {}, f"It has {len(cells)} cells and the header has {len(headers)}.")
    named = zip(headers, filled, strict=True)
    return Row(number, {header: cell for header, cell in named if header and cell})
