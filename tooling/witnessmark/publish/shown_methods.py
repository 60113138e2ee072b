"""The worksheets of a decision by method, so that what they share is said and headed once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from witnessmark.publish.public_decision import PublicSheet
from witnessmark.publish.shown_names import listed, within

_NOT_THERE = "none"


@dataclass(frozen=True, slots=True)
class Use:
    """One use of a method, and what it is called where it stands beside the others."""

    name: str
    sheet: PublicSheet


@dataclass(frozen=True, slots=True)
class Method:
    """One method and all its uses; a row is a number's name, kind, values by use, and meaning."""

    first: PublicSheet
    uses: tuple[Use, ...]
    cautions: tuple[str, ...]
    rows: tuple[tuple[str, str, tuple[str, ...], str], ...]


def by_method(sheets: Sequence[PublicSheet]) -> Iterator[Method]:
    """The worksheets in the order written, those of one method together."""
    found: dict[str, list[PublicSheet]] = {}
    for sheet in sheets:
        found.setdefault(sheet.sheet, []).append(sheet)
    for alike in found.values():
        uses = tuple(Use(name, sheet) for name, sheet in zip(_names(alike), alike, strict=True))
        cautions = tuple(dict.fromkeys(text for sheet in alike for text in sheet.cautions))
        rows = (*_rows(alike, "given"), *_rows(alike, "results"))
        yield Method(alike[0], uses, cautions, rows)


def _names(sheets: Sequence[PublicSheet]) -> Iterator[str]:
    """What each use is called; two that would be called the same have their ids added."""
    names = [_called(sheet) for sheet in sheets]
    for name, sheet in zip(names, sheets, strict=True):
        own = sheet.id.replace("-", " ")
        yield name if names.count(name) == 1 else f"{name} ({own})"


def _called(sheet: PublicSheet) -> str:
    """The parts it bears on, and the option it is for; its id where it names neither."""
    rests = sheet.relied_on_by
    for_whom = f"for option{'s' if len(rests) > 1 else ''} {listed(rests)}" if rests else ""
    parts = listed([*sheet.bears_on[:1], *(within(name) for name in sheet.bears_on[1:])])
    return ", ".join(filter(None, (parts, for_whom))) or sheet.id


def _rows(
    sheets: Sequence[PublicSheet], part: str
) -> Iterator[tuple[str, str, tuple[str, ...], str]]:
    """Every number that some use has, with its value under each."""
    tables = [{name: (value, means) for name, value, means in getattr(s, part)} for s in sheets]
    kind = "given" if part == "given" else "result"
    for name in dict.fromkeys(name for table in tables for name in table):
        means = next(table[name][1] for table in tables if name in table)
        values = tuple(table[name][0] if name in table else _NOT_THERE for table in tables)
        yield name, kind, values, means
