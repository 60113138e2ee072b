"""Words, days and numbers written in another way than is read: what could be written instead."""

from __future__ import annotations

import re
from collections.abc import Iterator
from decimal import Decimal

from witnessmark.model.day_spellings import day_readings
from witnessmark.model.decimal_commas import with_points
from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.edits import Edit, at, in_quotes, put, renamed
from witnessmark.model.scalars import OutOfReachError, plain
from witnessmark.model.source import Document
from witnessmark.model.spelling import meant

TRUE_WORDS = frozenset({"yes", "y", "on", "true"})
FALSE_WORDS = frozenset({"no", "n", "off", "false"})
_WORD = re.compile(r'[^"]*"([^"]+)"')
_ZEROS = re.compile(r"0+([1-9][0-9]*|0)")


def other_spellings(document: Document, found: Diagnostic) -> Iterator[Edit]:
    """The one name or word that a message clearly means, in place of the one that is written."""
    winner = meant(found.message)
    written = _WORD.match(found.message)
    if winner is None or written is None or not found.path:
        return
    value = at(document.data, found.path)
    is_name = str(found.path[-1]) == written[1] or not isinstance(value, str)
    group = at(document.data, found.path[:-1])
    spot = document.spot(found.path, key=is_name)
    if not is_name and value != written[1]:
        return
    if spot is None or (is_name and (not isinstance(group, dict) or winner in group)):
        return
    data = renamed(document.data, found.path, winner) if is_name else ""
    data = data or put(document.data, found.path, winner)
    yield Edit(spot.start, spot.end, winner, data)


def other_days(document: Document, found: Diagnostic) -> Iterator[Edit]:
    """Each day that a text may stand for."""
    spot = document.spot(found.path)
    value = at(document.data, found.path)
    if spot and isinstance(value, str | int):
        for day in sorted(map(str, day_readings(str(value)))):
            yield Edit(spot.start, spot.end, day, put(document.data, found.path, day))


def other_kinds(document: Document, found: Diagnostic) -> Iterator[Edit]:
    """A value as text where it is none, or as the number, true or false that its text spells."""
    spot = document.spot(found.path)
    value = at(document.data, found.path)
    if spot is None or spot.style in {"group", "|", ">"} or isinstance(value, dict | list):
        return
    if isinstance(value, bool | int | Decimal):
        raw = document.text[spot.start : spot.end]
        yield Edit(spot.start, spot.end, in_quotes(raw), put(document.data, found.path, raw))
    elif isinstance(value, str):
        for word in _bare(value):
            try:
                said = plain(word)
            except OutOfReachError:
                continue
            yield Edit(spot.start, spot.end, word, put(document.data, found.path, said))


def _bare(text: str) -> Iterator[str]:
    """What the text may be without quotes: true, false, or a number with a point."""
    word = text.strip().lower()
    if word in TRUE_WORDS | FALSE_WORDS:
        yield "true" if word in TRUE_WORDS else "false"
    elif zeros := _ZEROS.fullmatch(word):
        yield zeros[1]
    else:
        yield with_points(text.strip()) or text.strip()


def decimal_points(document: Document, found: Diagnostic) -> Iterator[Edit]:
    """A measured quantity with points for its decimal commas."""
    spot = document.spot(found.path)
    value = at(document.data, found.path)
    changed = with_points(value) if isinstance(value, str) else None
    if spot and changed and spot.style not in {"|", ">"}:
        text = changed if spot.style == "" else in_quotes(changed)
        yield Edit(spot.start, spot.end, text, put(document.data, found.path, changed))
