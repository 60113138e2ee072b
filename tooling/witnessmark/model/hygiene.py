"""Bytes to text, with every character that nobody could see or trust pointed out.

Replacements keep the length of the text, so that every later position is also one in the file.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import islice

from witnessmark.model import source_codes as codes
from witnessmark.model.diagnostics import Diagnostic, Level

DAMAGED = "\ufffd"  # what stands where a character could not be kept (Unicode's own choice)
_LONGEST_SHOWN = 60
_MOST_COUNTED = 50
_MOST_NAMED = 5
_MOST_KINDS = 20
_BOM = b"\xef\xbb\xbf"
_ASCII = bytes(range(128))
_HARMLESS = bytes([9, 10, 13, *range(32, 127), *range(128, 256)])

_CONTROL = "\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029"
# Unicode Standard Annex 9 (bidirectional algorithm), table of directional formatting characters.
_TURNING = "\u202a-\u202e\u2066-\u2069\u200e\u200f\u061c"
_ZERO_WIDTH = "\u200b-\u200d\u2060-\u2064"
# Byte order mark, tag characters, private use and noncharacters: nothing a reader could show.
_UNSEEN = "\ufeff\ufffe\uffff\ue000-\uf8ff\U000e0000-\U000e007f\U000f0000-\U0010ffff"
_HIDDEN = re.compile(f"[{_CONTROL}{_TURNING}{_ZERO_WIDTH}{_UNSEEN}]|\r(?!\n)")
_ONLY_ZERO_WIDTH = re.compile(f"[{_ZERO_WIDTH}]")
_ONLY_TURNING = re.compile(f"[{_TURNING}]")
_ONLY_UNSEEN = re.compile(f"[{_UNSEEN}]")
HARD_SPACES = "\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000"  # Unicode category Zs, bar U+0020
_HARD_SPACE = re.compile(f"[{HARD_SPACES}]")
_HARD_INDENT = re.compile(f"^[ \t]*([{HARD_SPACES}])[ \t{HARD_SPACES}]*", re.MULTILINE)
_CONFLICT = re.compile(r"(<{7}|\|{7}|={7}|>{7})(?=[ \r]|$)")
_CONTROL_NAMES = {"\0": "NUL", "\x07": "BEL", "\x1b": "ESC", "\r": "a lone carriage return"}


@dataclass(frozen=True, kw_only=True)
class Slip:
    """One cause found in a text: where (counted in characters from 0) and what to say of it."""

    code: str
    index: int
    message: str
    fix: str | None = None
    level: Level | None = None
    path: tuple[str | int, ...] = ()


@dataclass(frozen=True)
class Text:
    """A file's characters as written, and a copy of the same length that can be read on."""

    written: str
    working: str
    slips: tuple[Slip, ...] = ()


def shown(text: str) -> str:
    r"""The text with everything unseen written out, short enough for one line.

    >>> shown("a\x1b[2J\u202eb")
    'a\\x1b[2J\\u202eb'
    """
    short = text if len(text) <= _LONGEST_SHOWN else text[: _LONGEST_SHOWN - 1] + "\u2026"
    short = short.replace("\t", "\u2192").replace("\r\n", "\n").replace("\n", " ")
    return _spelt(short)


def hidden_in(text: str) -> str | None:
    """The first character of the text that cannot be seen or trusted, if there is one."""
    match = _HIDDEN.search(text)
    return match[0] if match else None


def fit_to_print(found: Diagnostic) -> Diagnostic:
    """The finding with every hidden character in its sentences written out."""
    if not _HIDDEN.search(found.message + found.fix + found.field):
        return found
    return replace(
        found, message=_spelt(found.message), fix=_spelt(found.fix), field=_spelt(found.field)
    )


def _spelt(text: str) -> str:
    return _HIDDEN.sub(lambda match: _escape(match[0]), text)


def decode(raw: bytes, *, limit: int) -> Text:
    """The text of a file, and what stood in the way of reading its characters."""
    refused = _too_large(raw, limit) or _utf16(raw)
    if refused:
        return Text("", "", (refused,))
    raw = raw.removeprefix(_BOM)
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as fault:
        return _undecoded(raw, fault.start)
    if not _is_suspect(raw):
        return Text(text, text)
    return _cleaned(text, [])


def conflicts(text: str) -> Text:
    """The text with each unfinished merge reported once and its first version kept."""
    if not any(f"{mark * 7}" in text for mark in "<>"):
        return Text(text, text)
    slips: list[Slip] = []
    lines = []
    index, side = 0, ""
    for line in text.split("\n"):
        match = _CONFLICT.match(line)
        mark = match[1][0] if match else ""
        if mark == "<" or (mark and not side):
            slips.append(_conflict(index, mark))
        side = mark or side
        blank = mark or side in ("=", "|")
        lines.append(re.sub(r"[^\r]", " ", line) if blank else line)
        side = "" if mark == ">" else side
        index += len(line) + 1
    return Text(text, "\n".join(lines) if slips else text, tuple(slips))


def others(text: str, indexes: list[int]) -> str:
    """The words that name the further lines one cause stands on, if there are any."""
    counted = sorted({text.count("\n", 0, index) + 1 for index in indexes[:_MOST_COUNTED]})[1:]
    if not counted:
        return ""
    named = ", ".join(map(str, counted[:_MOST_NAMED]))
    more = " and more" if len(counted) > _MOST_NAMED or len(indexes) > _MOST_COUNTED else ""
    return f" (also on line{'s' if len(counted) > 1 else ''} {named}{more})"


def name_of(char: str) -> str:
    r"""What a character is called, so that somebody can look for it.

    >>> name_of("\u202e"), name_of("\x1b")
    ('U+202E RIGHT-TO-LEFT OVERRIDE', '\\x1b (ESC)')
    """
    if char < "\xa0":
        name = _CONTROL_NAMES.get(char)
        return _escape(char) + (f" ({name})" if name else "")
    return f"U+{ord(char):04X} {unicodedata.name(char, '')}".strip()


def _conflict(index: int, mark: str) -> Slip:
    message = f'an unfinished merge: "{mark * 7}" still stands here'
    return Slip(code=codes.CONFLICT, index=index, message=message)


def _escape(char: str) -> str:
    return char.encode("unicode_escape").decode("ascii")


def _too_large(raw: bytes, limit: int) -> Slip | None:
    if len(raw) <= limit:
        return None
    message = f"the file has {len(raw):,} bytes; at most {limit:,} are read"
    return Slip(code=codes.LARGE, index=0, message=message)


def _utf16(raw: bytes) -> Slip | None:
    """Two-byte text, known by its mark or by a NUL beside every English letter."""
    head = raw[:64]
    by_pattern = len(head) >= 4 and (not any(head[1::2]) or not any(head[0::2]))  # noqa: PLR2004
    if not (raw.startswith((b"\xff\xfe", b"\xfe\xff")) or (by_pattern and any(head))):
        return None
    return Slip(code=codes.NOT_UTF8, index=0, message="the file is saved as UTF-16, not as UTF-8")


def _undecoded(raw: bytes, start: int) -> Text:
    """The text with a mark for each byte that is no UTF-8; nothing where it is no text at all."""
    text = raw.decode("utf-8", errors="replace")
    index = len(raw[:start].decode("utf-8"))
    line = raw.count(b"\n", 0, start) + 1
    message = f"the file is not UTF-8: see byte \\x{raw[start]:02x} near line {line}"
    slip = Slip(code=codes.NOT_UTF8, index=index, message=message)
    if b"\0" in raw:
        return Text("", "", (Slip(code=codes.NOT_UTF8, index=0, message=message),))
    return _cleaned(text, [slip])


def _is_suspect(raw: bytes) -> bool:
    """True when a slower look at single characters is due; quick, since nearly no file needs it."""
    if raw.translate(None, _HARMLESS):
        return True
    if b"\r" in raw and raw.count(b"\r") != raw.count(b"\r\n"):
        return True
    beyond = raw.translate(None, _ASCII).decode("utf-8")
    return bool(beyond) and bool(_HARD_SPACE.search(beyond) or hidden_in(beyond))


def _cleaned(text: str, slips: list[Slip]) -> Text:
    slips.extend(_hidden(text))
    slips.extend(_hard_spaces(text))
    working = _HIDDEN.sub(lambda match: _stand_in(match[0]), text)
    working = _HARD_INDENT.sub(lambda match: " " * len(match[0]), working)
    return Text(text, working, tuple(slips))


def _stand_in(char: str) -> str:
    if _ONLY_ZERO_WIDTH.match(char):
        return char
    return "\n" if char == "\r" else DAMAGED


def _hidden(text: str) -> Iterator[Slip]:
    """One slip for each kind of hidden character, at its first place."""
    seen: dict[str, list[int]] = {}
    for match in _HIDDEN.finditer(text):
        seen.setdefault(match[0], []).append(match.start())
    for char, indexes in islice(seen.items(), _MOST_KINDS):
        yield hidden_slip(char, index=indexes[0], more=others(text, indexes))


def hidden_slip(char: str, *, index: int, more: str = "") -> Slip:
    """What to say of one hidden character."""
    code, level = codes.CONTROL, None
    if _ONLY_TURNING.match(char):
        code = codes.TURNING
    elif _ONLY_ZERO_WIDTH.match(char):
        code, level = codes.UNSEEN, Level.WARNING
    elif _ONLY_UNSEEN.match(char):
        code = codes.UNSEEN
    message = f"{codes.SOURCE_CODES[code].title} stands here: {name_of(char)}{more}"
    return Slip(code=code, index=index, message=message, level=level)


def _hard_spaces(text: str) -> Iterator[Slip]:
    starts = list(_HARD_INDENT.finditer(text))
    if starts:
        indexes = [match.start(1) for match in starts]
        name = name_of(text[indexes[0]])
        message = f"the line starts with an invisible space: {name}{others(text, indexes)}"
        yield Slip(code=codes.HARD_SPACE, index=indexes[0], message=message)
