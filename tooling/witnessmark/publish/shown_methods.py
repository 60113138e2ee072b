"""The worksheets of a decision by method, so that what they share is said and headed once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from witnessmark.publish.public_decision import PublicSheet
from witnessmark.publish.shown_names import listed, named

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
        given = _rows("given", [sheet.given for sheet in alike])
        results = _rows("result", [sheet.results for sheet in alike])
        yield Method(alike[0], uses, cautions, (*given, *results))


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
    parts = named(sheet.bears_on)
    return ", ".join(filter(None, (parts, for_whom))) or sheet.id


def _rows(
    kind: str, tables: Sequence[Sequence[tuple[str, str, str]]]
) -> Iterator[tuple[str, str, tuple[str, ...], str]]:
    """Every number that some use has, with its value under each."""
    uses = [{name: (value, means) for name, value, means in table} for table in tables]
    for name in dict.fromkeys(name for use in uses for name in use):
        means = next(use[name][1] for use in uses if name in use)
        values = tuple(use[name][0] if name in use else _NOT_THERE for use in uses)
        yield name, kind, values, means
