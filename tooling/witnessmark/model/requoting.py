"""Texts that YAML misreads because they stand bare: what could be written instead."""

from __future__ import annotations

import re
from collections.abc import Iterator

from pydantic import BaseModel

from witnessmark.model.build import Path, Plain
from witnessmark.model.decimal_commas import with_points
from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.edits import Edit, as_block, at, in_quotes, put
from witnessmark.model.hygiene import HARD_SPACES
from witnessmark.model.mend import is_cut_short
from witnessmark.model.respelling import other_kinds
from witnessmark.model.shape_faults import fields_at
from witnessmark.model.source import Document, Spot, read

TAB_WIDTHS = (2, 4, 8)
_TAB_INDENT = re.compile(r"^ *\t[ \t]*(?=\S)", re.MULTILINE)
_HARD_INDENT = re.compile(rf"^[ \t{HARD_SPACES}]*[{HARD_SPACES}][ \t{HARD_SPACES}]*", re.MULTILINE)
_DECIMALS = re.compile(r"[^,]*(?:[0-9],[0-9]+[^,]*)+")
_LEADING_ZERO = re.compile(r"0[0-9]+")


def whole_text(document: Document, found: Diagnostic) -> Iterator[Edit]:
    """The text that a colon, a sign or a ` #` breaks, as a block or in quotes."""
    spot = document.spot(found.path)
    value = at(document.data, found.path)
    if spot is None or spot.style != "" or value is None:
        return
    end = _end_of_text(document, found, spot)
    if end > spot.end:
        value = document.text[spot.start : end]
    elif not isinstance(value, str):
        return
    data = put(document.data, found.path, value)
    block = as_block(document, spot, str(value))
    if block is not None:
        yield Edit(spot.start, end, block, data)
    yield Edit(spot.start, end, in_quotes(str(value)), data)


def _end_of_text(document: Document, found: Diagnostic, spot: Spot) -> int:
    """Where the text ends that its author meant: past a remark that is the rest of it."""
    line_end = spot.start + len(document.text[spot.start :].partition("\n")[0].rstrip())
    rest = document.text[spot.end : line_end]
    remark = rest.lstrip()
    is_rest = _index(document, found) >= spot.end or (
        remark.startswith("#")
        and is_cut_short(document.text[spot.start : line_end - len(remark)], remark)
    )
    return line_end if is_rest else spot.end


def in_quotes_as_it_is(document: Document, found: Diagnostic) -> Iterator[Edit]:
    """A bare word in quotes, so that no reader takes it for a number."""
    spot = document.spot(found.path)
    value = at(document.data, found.path)
    if spot and spot.style == "" and isinstance(value, str):
        yield Edit(spot.start, spot.end, in_quotes(value), document.data)


def one_word(document: Document, found: Diagnostic) -> Iterator[Edit]:
    """A word that readers take differently: in quotes, or as the true or false it stands for."""
    yield from in_quotes_as_it_is(document, found)
    yield from other_kinds(document, found)


def text_with_commas(
    document: Document, found: Diagnostic, model: type[BaseModel]
) -> Iterator[Edit]:
    """A text inside { } that falls apart at its commas, put in quotes; or a decimal comma."""
    group = at(document.data, found.path[:-1])
    braces = document.spot(found.path[:-1])
    if braces is None or not isinstance(group, dict):
        return
    index = _index(document, found)
    spots = {name: document.spot((*found.path[:-1], name), key=True) for name in group}
    before = [name for name, spot in spots.items() if spot and spot.start < index]
    after = [spot.start for spot in spots.values() if spot and spot.start > index]
    if not before:
        return
    path: Path = (*found.path[:-1], before[-1])
    spot = document.spot(path)
    end = document.text.rfind(",", index, min(after)) if after else braces.end - 1
    if spot and spot.style == "" and spot.start < index < end:
        yield from _joined(document, path, spot, end, model)


def _joined(
    document: Document, path: Path, spot: Spot, end: int, model: type[BaseModel]
) -> Iterator[Edit]:
    raw = document.text[spot.start : end].strip()
    if _DECIMALS.fullmatch(raw):
        changed = with_points(raw)
        if changed:
            said = _read_alone(changed)
            yield Edit(spot.start, end, changed, put(document.data, path, said))
        return
    names = {piece.strip() for piece in raw.split(",")[1:]}
    if "\n" not in raw and names.isdisjoint(fields_at(model, path[:-1])):
        yield Edit(spot.start, end, in_quotes(raw), put(document.data, path, raw))


def _read_alone(text: str) -> Plain:
    data = read("", f"alone: {text}\n".encode()).data
    return data.get("alone") if isinstance(data, dict) else None


def spaces_for_tabs(document: Document) -> Iterator[Edit]:
    """Spaces for the tabs that set lines in, where every usual width is read alike."""
    for width in TAB_WIDTHS:
        text = _spaced(document.text, width)
        data = read(document.file, text.encode()).data
        if data is not None:
            yield Edit(0, len(document.text), text, data)


def _spaced(text: str, width: int) -> str:
    return _TAB_INDENT.sub(lambda match: match[0].replace("\t", " " * width), text)


def plain_spaces(document: Document) -> Iterator[Edit]:
    """Ordinary spaces for the invisible ones at the start of lines."""
    text = _HARD_INDENT.sub(lambda match: " " * len(match[0]), document.text)
    yield Edit(0, len(document.text), text, document.data)


def leading_zeros(document: Document) -> Iterator[Path]:
    """Where a bare text is digits after a nought, which other readers take for a number."""
    for path, value in _texts(document.data, ()):
        if _LEADING_ZERO.fullmatch(value):
            spot = document.spot(path)
            if spot and spot.style == "":
                yield path


def _texts(data: Plain, path: Path) -> Iterator[tuple[Path, str]]:
    if isinstance(data, str):
        yield path, data
    elif isinstance(data, dict):
        for name, value in data.items():
            yield from _texts(value, (*path, name))
    elif isinstance(data, list):
        for number, value in enumerate(data):
            yield from _texts(value, (*path, number))


def _index(document: Document, found: Diagnostic) -> int:
    """The place of a finding, counted in characters from 0."""
    start = 0
    for _ in range(found.line - 1):
        start = document.text.find("\n", start) + 1
    return start + found.column - 1
