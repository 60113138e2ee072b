"""Slips that can be put right in one way only: found in a file, edited by marks, read again.

An edit is a candidate until the file has been read again with it: the finding must be gone, and
nothing else may say anything new. Where two candidates would do, neither is taken.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass

from pydantic import BaseModel

from witnessmark.model import source_codes as source
from witnessmark.model.blank_to_fill import blank_to_fill
from witnessmark.model.diagnostics import Diagnostic, Level, field_name
from witnessmark.model.edits import Edit, applied, at, is_same
from witnessmark.model.quantity import QuantityFault, parse_quantity
from witnessmark.model.requoting import (
    in_quotes_as_it_is,
    leading_zeros,
    one_word,
    plain_spaces,
    spaces_for_tabs,
    text_with_commas,
    whole_text,
)
from witnessmark.model.respelling import decimal_points, other_days, other_kinds, other_spellings
from witnessmark.model.shape import shape
from witnessmark.model.source import Document

MISSING, UNKNOWN, OTHER_KIND, NOT_A_WORD, NOT_A_DAY = "WM072", "WM012", "WM074", "WM075", "WM076"
QUANTITIES = frozenset({"WM070", "WM071"})
MISSPELT_NAMES = frozenset(
    {"WM030", "WM031", "WM032", "WM033", "WM034", "WM035", "WM036", "WM037", "WM038", "WM039"}
)
"""Names of parts, findings, people and the like that lead nowhere, where one is clearly meant."""
ROUGH = frozenset({source.LOST, source.COLON, source.START})
_BY_FILE: Mapping[str, Callable[[Document], Iterator[Edit]]] = {
    source.TAB: spaces_for_tabs,
    source.HARD_SPACE: plain_spaces,
}
_BY_PLACE: Mapping[str, Callable[[Document, Diagnostic], Iterator[Edit]]] = {
    **dict.fromkeys(ROUGH, whole_text),
    **dict.fromkeys((UNKNOWN, NOT_A_WORD, *MISSPELT_NAMES), other_spellings),
    source.YES_NO: one_word,
    source.NUMBER: in_quotes_as_it_is,
    NOT_A_DAY: other_days,
    OTHER_KIND: other_kinds,
    **dict.fromkeys(QUANTITIES, decimal_points),
}
_BY_FIELD: Mapping[str, Callable[[Document, Diagnostic, type[BaseModel]], Iterator[Edit]]] = {
    source.NO_VALUE: text_with_commas,
    MISSING: blank_to_fill,
}
MENDABLE = frozenset((*_BY_FILE, *_BY_PLACE, *_BY_FIELD))
MOST = 200
"""Slips mended in one file in one go; a file with more wants a person first (our own limit)."""


@dataclass(frozen=True)
class Correction:
    """One slip put right: what was found, and the document with it mended."""

    found: Diagnostic
    document: Document


def corrections(
    document: Document,
    model: type[BaseModel],
    *,
    codes: Collection[str] = MENDABLE,
    blanks: bool = False,
) -> Iterator[Correction]:
    """Each slip of reading and shape in a file put right, one after the other.

    `blanks` also adds the fields that are missing, for somebody to fill.
    """
    tried: set[tuple[str, str, str]] = set()
    for _ in range(MOST):
        every = [*shape(document, model).diagnostics, *_hidden_numbers(document)]
        wanted = [one for one in every if one.code in codes and (blanks or one.code != MISSING)]
        # A text that falls apart at its commas is mended whole before what is wrong inside it.
        wanted.sort(key=lambda one: one.code != source.NO_VALUE)
        found = next((one for one in wanted if _key(one) not in tried), None)
        if found is None:
            return
        tried.add(_key(found))
        mended = correction_of(document, found, model)
        if mended is not None:
            document = mended
            yield Correction(found, document)


def correction_of(document: Document, found: Diagnostic, model: type[BaseModel]) -> Document | None:
    """The document with one finding put right; None where no edit does, or more than one would."""
    cures: list[Document] = []
    for edit in _candidates(document, found, model):
        after = applied(document, edit)
        if after is not None and _is_cured(after, found, model):
            cures.append(after)
    alike = cures and all(is_same(cures[0].data, one.data) for one in cures)
    return cures[0] if alike else None


def _key(found: Diagnostic) -> tuple[str, str, str]:
    return found.code, field_name(found.path), found.message


def _candidates(document: Document, found: Diagnostic, model: type[BaseModel]) -> Iterator[Edit]:
    if found.code in _BY_FILE:
        yield from _BY_FILE[found.code](document)
    elif found.code in _BY_PLACE:
        yield from _BY_PLACE[found.code](document, found)
    elif found.code in _BY_FIELD:
        yield from _BY_FIELD[found.code](document, found, model)


def _is_cured(after: Document, found: Diagnostic, model: type[BaseModel]) -> bool:
    """True when the finding is gone and its place is as the record wants it."""
    if found.code in QUANTITIES:
        return _is_quantity(str(at(after.data, found.path)))
    shaped = shape(after, model).diagnostics
    if found.code in {source.TAB, source.HARD_SPACE}:
        return not any(one.code == found.code for one in shaped)
    if found.code == MISSING:
        return not any(one.code == MISSING and one.path == found.path for one in shaped)
    return not any(one.path == found.path and one.level is Level.ERROR for one in shaped)


def _is_quantity(text: str) -> bool:
    try:
        parse_quantity(text)
    except QuantityFault:
        return False
    return True


def _hidden_numbers(document: Document) -> Iterator[Diagnostic]:
    """A nought at the start of a bare text, which no check faults but other readers drop."""
    standing = source.SOURCE_CODES[source.NUMBER]
    for path in leading_zeros(document):
        place = document.place(path)
        yield Diagnostic(
            code=source.NUMBER,
            level=Level.NOTE,
            file=document.file,
            line=place.line,
            column=place.column,
            record=None,
            field=field_name(path),
            message=f'"{at(document.data, path)}" loses its nought with other readers',
            why=standing.why,
            fix=standing.fix,
            path=path,
        )
