"""Record checks of texts: mixed alphabets, markup that nobody reads, contacts where all can read.

Quick looks at the whole text come first; a record is walked only where one of them finds something.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel

from witnessmark.model.decision import Decision
from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.model.field_notes import is_public, note_of
from witnessmark.model.findings import Finding
from witnessmark.model.hygiene import shown
from witnessmark.model.remains import Path
from witnessmark.model.shape import Shaped
from witnessmark.rules.report import Report

# Source: Unicode Technical Standard 39 (confusables), the letters of Cyrillic and Greek that are
# drawn like Latin ones; signs of quantities (mu, omega, delta) are left out on purpose.
_ALIKE = "АВЕЅІЈКМНОРСТХУаеіјорсухѕԁһΑΒΕΖΗΙΚΜΝΟΡΤΥΧονρυχ"
_MIXED = re.compile(f"[A-Za-z][{_ALIKE}]|[{_ALIKE}][A-Za-z]")
# Every repeat below has an end, so that no text, however made, is looked through twice over.
_WORD = re.compile(r"[\w-]+")
_MARKUP = re.compile(r"!?\[[^\[\]\n]{0,200}\]\s?\([^)]{0,300}\)")
_MAIL = re.compile(r"(?<![\w.+-])[\w.+-]{1,64}@(?:[\w-]{1,63}\.){1,5}[A-Za-z]{2,20}")
# Common practice, no source: a plus or a nought, then groups that make nine digits or more.
# What may not stand before is looked at after the first sign: then the engine leaps from one such
# sign to the next, which takes a fifth of the time (measured).
_BEFORE = r"[\w.,/+-]"
_PHONE = re.compile(
    rf"(?:\+(?<!{_BEFORE}\+)[0-9]{{1,3}}|\((?<!{_BEFORE}\()0|0(?<!{_BEFORE}0))"
    r"[0-9]{0,5}\)?(?:[ -]?\(?[0-9]{2,5}\)?){2,4}(?!\w)"
)
# The form of a British postcode (BS 7666); from memory.
_POSTCODE = re.compile(r"\b[A-Z]{1,2}[0-9][A-Z0-9]? [0-9][A-Z]{2}\b")
_CONTACTS = {"an e-mail address": _MAIL, "a telephone number": _PHONE, "a postcode": _POSTCODE}
_FEWEST_DIGITS = 9
_KINDS = bytes.maketrans(b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ", b"9" * 10 + b"A" * 26)
"""Every digit as 9 and every capital as A."""
_ASCII = bytes(range(128))
_LETTERS = frozenset(_ALIKE)


def check_texts(shaped: Shaped[Any], report: Report) -> Iterator[Diagnostic]:
    """What is doubtful in the texts of one file."""
    text = shaped.document.text
    if shaped.value is None:
        return
    if not text.isascii() and _may_mix(text) and _MIXED.search(text):
        yield from _mixed(shaped.value, report)
    if "](" in text or "] (" in text:
        yield from _markup(shaped.value, report)
    is_closed = isinstance(shaped.value, Decision) and shaped.value.publish is not True
    if not is_closed and _may_hold_contacts(text):
        yield from _contacts(shaped.value, report)


def _may_mix(text: str) -> bool:
    """True when a letter that only looks Latin stands somewhere; quicker than a search."""
    beyond = text.encode("utf-8", "replace").translate(None, _ASCII).decode("utf-8")
    return not _LETTERS.isdisjoint(beyond)


def _may_hold_contacts(text: str) -> bool:
    """True when a contact may stand somewhere; most texts are settled without a search."""
    if "@" in text:
        return True
    raw = text.encode("ascii", "replace")
    if b" 9AA" in raw.translate(_KINDS):
        return True
    # The digits of a seal are as many as those of a number, so a search has to tell them apart.
    is_long = b"9" * _FEWEST_DIGITS in raw.translate(_KINDS, b" -()")
    return is_long and _is_met(_PHONE, text)


def _mixed(value: BaseModel, report: Report) -> Iterator[Diagnostic]:
    for path, text, _ in _texts(value, (), is_open=True):
        for match in _WORD.finditer(text):
            found = _MIXED.search(match[0])
            if found:
                letter = next(sign for sign in found[0] if sign in _ALIKE)
                message = f'"{match[0]}" mixes two alphabets: U+{ord(letter):04X} only looks Latin.'
                yield report.at(path, "WM047", message, level=Level.WARNING)


def _markup(value: BaseModel, report: Report) -> Iterator[Diagnostic]:
    for path, text, _ in _texts(value, (), is_open=True):
        for match in _MARKUP.finditer(text):
            if match[0].startswith("!"):
                message = f'"{shown(match[0])}" is written like a picture, and texts hold none.'
                fix = "Put the picture under photos, or take it out."
                yield report.at(path, "WM048", message, fix=fix)
            else:
                message = f'"{shown(match[0])}" is written like a link, and is shown as typed.'
                yield report.at(path, "WM048", message, level=Level.WARNING)


def _contacts(value: BaseModel, report: Report) -> Iterator[Diagnostic]:
    for path, text, is_shown in _texts(value, (), is_open=True):
        kinds = [kind for kind, pattern in _CONTACTS.items() if _is_met(pattern, text)]
        if is_shown and kinds:
            message = f"What looks like {' and '.join(kinds)} stands where everybody can read it."
            yield report.at(path, "WM049", message, level=Level.WARNING)


def _is_met(pattern: re.Pattern[str], text: str) -> bool:
    matches = pattern.finditer(text)
    if pattern is not _PHONE:
        return any(True for _ in matches)
    return any(sum(sign.isdigit() for sign in match[0]) >= _FEWEST_DIGITS for match in matches)


def _texts(value: object, path: Path, *, is_open: bool) -> Iterator[tuple[Path, str, bool]]:
    """Every text below a value with its path, and whether the site may show it."""
    if isinstance(value, str):
        yield path, value, is_open
    elif isinstance(value, BaseModel):
        is_hidden = isinstance(value, Finding) and not value.public
        for name, info in type(value).model_fields.items():
            written = info.alias or name
            may_show = is_open and not is_hidden and is_public(note_of(type(value), written))
            yield from _texts(getattr(value, name), (*path, written), is_open=may_show)
    elif isinstance(value, dict):
        for key, member in value.items():
            yield from _texts(member, (*path, str(getattr(key, "value", key))), is_open=is_open)
    elif isinstance(value, tuple | list):
        for number, member in enumerate(value):
            yield from _texts(member, (*path, number), is_open=is_open)
