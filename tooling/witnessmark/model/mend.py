"""How a text that libyaml gives up on can be read on: what is wrong, and a copy that goes further.

Every mend keeps the length of the text: a sign that misleads the reader is replaced by a stand-in
from the private use area (refused in files, so never ambiguous) and put back in the values. A mend
is only a candidate: the one that lets the reader get further is taken for the cause.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import islice

from witnessmark.model import source_codes as codes
from witnessmark.model.hygiene import others, shown
from witnessmark.model.nodes import MOST_DEPTH, Fault, walk

MOST_MENDS = 20
_PRIVATE = 0xE000
_SIGNS = "@`%*&!|>?-,[]{}:#\"'\\"
_BACK = {_PRIVATE + ord(sign): sign for sign in _SIGNS}
_MOST_SILENT = 40  # further slips of the same kind on the same line need no message of their own
_VALUE_START = re.compile(r"\s*(?:- +)*(?:[^\s\"'\[{#][^:\n]*:\s+)?([\"'\[{])")
_INSIDE_QUOTE = re.compile(r"[:,\[{]\s*([\"'])")
_ONE_WORD_KEY = re.compile(r"\s*(?:- +)*[\"']?([^\s:]+)[\"']?$")
_TAB_INDENT = re.compile(r"^ *\t[ \t]*(?=\S)", re.MULTILINE)
_BEFORE_VALUE = re.compile(r"^.*(?:[:,]\s+|[\[{]|- )(?=\S)")
_QUANTITY = re.compile(r"[-+]?\d\S*(?: \u00b1 \S+)?(?: \S+)?")
_MISLEADING = re.compile(r":(?=\s)|(?<=[ \t])#")
_REMARK = re.compile(r"(?<=[ \t])#")
_DASHES = re.compile(r"[ \t]*(?:- +)*")
_LOOK_BACK = 50
_MOST_REMARKS = 5
# Trying mends reads the text again: about 10 MB in all, a second or two, however long the file.
_MOST_WALKED = 10_000_000
_FEWEST_TRIES = 40


@dataclass(frozen=True, kw_only=True)
class Mend:
    """One possible cause: its code, place and words, and the copy of the text it leads to."""

    code: str
    index: int
    text: str
    message: str
    fix: str | None = None


@dataclass(frozen=True)
class Mended:
    """A text that can be read as far as possible, what was mended, and what could not be."""

    text: str
    mends: tuple[Mend, ...]
    fault: Fault | None


def mended(text: str) -> Mended:
    """The text made readable cause by cause, at most twenty of them."""
    mends: list[Mend] = []
    fault = walk(text).fault
    tries = max(_FEWEST_TRIES, _MOST_WALKED // (len(text) + 1))
    for _ in range(MOST_MENDS + _MOST_SILENT):
        if fault is None or len(mends) >= MOST_MENDS or tries <= 0:
            break
        mend, fault, tries = _first_that_helps(text, fault, tries)
        if mend is None:
            break
        text = mend.text
        if not (mends and _is_same_cause(mends[-1], mend)):
            mends.append(mend)
    return Mended(text, tuple(mends), fault)


def restored(text: str) -> str:
    """The text with every stand-in put back."""
    return text.translate(_BACK)


def quoted(text: str) -> str:
    """The text as its author wrote it, short and with everything unseen written out."""
    return shown(restored(text))


def with_stand_in(text: str, index: int) -> str:
    """The text with the sign at one place hidden from the reader."""
    return text[:index] + chr(_PRIVATE + ord(text[index])) + text[index + 1 :]


def line_of(text: str, index: int) -> str:
    """The line a place is on, without its end."""
    start = _line_start(text, index)
    return text[start:].partition("\n")[0].rstrip("\r")


def unreadable(text: str, fault: Fault) -> Mend:
    """What to say where nothing closer is known."""
    line = quoted(line_of(text, fault.at).strip())
    if "did not find expected key" in fault.problem or "'-' indicator" in fault.problem:
        message = f'"{line}" is set in differently from the lines it belongs with'
        return Mend(code=codes.INDENT, index=fault.at, text=text, message=message)
    if "nesting depth" in fault.problem:
        message = f"more than {MOST_DEPTH} levels are nested here"
        return Mend(code=codes.DEEP, index=fault.at, text=text, message=message)
    where = f'at "{line}"' if line else "at the end"
    message = f"this cannot be read as YAML {where}: {fault.problem or 'it is not YAML'}"
    return Mend(code=codes.UNREADABLE, index=fault.at, text=text, message=message)


def _first_that_helps(text: str, fault: Fault, tries: int) -> tuple[Mend | None, Fault | None, int]:
    """The first mend that lets the reader get further, the next fault, and the tries left."""
    for mend in islice(_candidates(text, fault), max(tries, 0)):
        tries -= 1
        after = walk(mend.text).fault
        is_same = after is not None and (after.at, after.problem) == (fault.at, fault.problem)
        if after is None or (not is_same and after.at > mend.index):
            return mend, after, tries
    return None, fault, tries


def _is_same_cause(last: Mend, mend: Mend) -> bool:
    same_line = "\n" not in last.text[min(last.index, mend.index) : max(last.index, mend.index)]
    return same_line and last.code == mend.code


def _candidates(text: str, fault: Fault) -> Iterator[Mend]:
    yield from _tabs(text, fault)
    yield from _second_document(text, fault)
    yield from _colon(text, fault)
    yield from _escape(text, fault)
    yield from _no_colon(text, fault)
    yield from _lost(text, fault)
    yield from _quote_run_on(text, fault)
    yield from _starting_sign(text, fault)
    yield from _odd_quote(text, fault)
    yield from _text_after(text, fault)
    yield from _bracket(text, fault)


def _tabs(text: str, fault: Fault) -> Iterator[Mend]:
    """Tabs that set lines in: all of them are one cause, each read as one space."""
    tabs = [match.end() - len(match[0].lstrip(" ")) for match in _TAB_INDENT.finditer(text)]
    if not tabs or "\t" not in _indent(line_of(text, fault.at)):
        return
    line = quoted(line_of(text, tabs[0]))
    yield Mend(
        code=codes.TAB,
        index=tabs[0],
        text=_TAB_INDENT.sub(lambda match: " " * len(match[0]), text),
        message=f'the line "{line}" is set in with a tab{others(text, tabs)}',
    )


def _second_document(text: str, fault: Fault) -> Iterator[Mend]:
    if "<document start>" in fault.problem and fault.at > 0:
        message = "the record has ended above this line, and more text follows"
        yield Mend(code=codes.SECOND, index=fault.at, text=text[: fault.at], message=message)


def _colon(text: str, fault: Fault) -> Iterator[Mend]:
    """A colon in a text, or a line that looks like a field of its own and continues another."""
    if text[fault.at : fault.at + 1] != ":":
        return
    before = text[_line_start(text, fault.at) : fault.at]
    if not before.strip():
        message = "the line starts with a colon, so the field has no name"
        copy = _as_remark(text, fault.at)
        yield Mend(code=codes.KEY, index=fault.at, text=copy, message=message)
    elif not _ONE_WORD_KEY.fullmatch(before):
        yield _colon_in_text(text, fault, before)
    elif not fault.context:
        yield from _runs_into_key(text, fault.at)
    elif _is_next_in_brackets(text, fault):
        message = f'"{quoted(before.strip())}" comes after a line with no comma at its end'
        yield _hiding(text, fault.at, codes.UNREADABLE, message)
    elif "\n" not in text[fault.start : fault.at]:
        yield _colon_in_text(text, fault, before)


def _is_next_in_brackets(text: str, fault: Fault) -> bool:
    """True when a line goes on with brackets that were opened to go over several lines."""
    opening = line_of(text, fault.start)
    line = line_of(text, fault.at)
    spans_lines = opening.rstrip().endswith(("{", "[", ","))
    return spans_lines and not line.lstrip().startswith("- ") and _depth(line) > _depth(opening)


def _colon_in_text(text: str, fault: Fault, before: str) -> Mend:
    words = quoted(before.rpartition(": ")[2].strip())
    message = f'the colon after "{words}" is read as the end of a field\'s name'
    fix = 'Put the text in "double quotes".' if fault.context else None
    name, _, value = line_of(text, fault.at).partition(": ")
    if ": " in before and not fault.context:
        fix = f"{name.strip()}: >-\n  {value}"
    return replace(_hiding(text, fault.at, codes.COLON, message), fix=fix)


def _runs_into_key(text: str, colon: int) -> Iterator[Mend]:
    """A field that the line above, without a colon or set in less, runs into."""
    start = _line_start(text, colon)
    before = text[start:colon]
    above = text[:start].rstrip()
    last = line_of(above, len(above))
    copy = with_stand_in(text, colon)
    if len(_indent(last)) >= len(_indent(before)):
        culprit = len(above) - len(last.lstrip())
        yield _no_colon_mend(text, culprit, _as_remark(text, culprit))
        yield _no_colon_mend(text, culprit, copy)
        return
    index = start + len(_indent(before))
    name = quoted(before.strip())
    message = f'"{name}" is set in further than the field above, so it is read as part of its text'
    yield Mend(code=codes.INDENT, index=index, text=copy, message=message)


def _no_colon(text: str, fault: Fault) -> Iterator[Mend]:
    if fault.context == "while scanning a simple key":
        yield _no_colon_mend(text, fault.start, _as_remark(text, fault.start))


def _no_colon_mend(text: str, index: int, copy: str) -> Mend:
    line = quoted(line_of(text, index).strip())
    message = f'"{line}" is neither `name: value` nor `- value`'
    if re.match(r"-\S", line):
        message = f'"{line}" needs a space after the dash'
    elif re.match(r"[\w-]+:\S", line):
        message = f'"{line}" needs a space after the colon'
    return Mend(code=codes.UNREADABLE, index=index, text=copy, message=message)


def _lost(text: str, fault: Fault) -> Iterator[Mend]:
    """A ` #` that cut a text short, so that its next line or bracket came out of nowhere."""
    start = _line_start(text, text[: _line_start(text, fault.at)].rstrip().rfind("\n") + 1)
    if fault.context.startswith("while parsing a flow"):
        start = fault.start
    places = [start + match.start() for match in _REMARK.finditer(text[start : fault.at])]
    for index in places[-_MOST_REMARKS:]:
        before = text[_line_start(text, index) : index]
        if before.strip() and is_cut_short(_BEFORE_VALUE.sub("", before), line_of(text[index:], 0)):
            yield lost_text(text, index)


def is_cut_short(before: str, comment: str) -> bool:
    """True when a comment looks like the rest of the text before it, not like a remark on it.

    A remark stands after one word or one quantity, or is set off by two spaces or more.
    """
    if comment[1:2].strip() and not comment.startswith("##"):
        return True
    value = before.strip()
    is_set_off = len(before) - len(before.rstrip()) > 1
    return not is_set_off and " " in value and not _QUANTITY.fullmatch(value)


def lost_text(text: str, index: int) -> Mend:
    """What to say of a ` #` that cuts a text short."""
    rest = quoted(line_of(text, index)[index - _line_start(text, index) :])
    return Mend(
        code=codes.LOST,
        index=index,
        text=with_stand_in(text, index),
        message=f'the rest of this text would be lost: "{rest}"',
    )


def _escape(text: str, fault: Fault) -> Iterator[Mend]:
    index = text.rfind("\\", fault.start, fault.at + 1)
    if fault.context == "while parsing a quoted scalar" and index >= 0:
        yield Mend(
            code=codes.UNREADABLE,
            index=index,
            text=with_stand_in(text, index),
            message=f'"{quoted(text[index : index + 2])}" means nothing inside "double quotes"',
            fix="Write \\\\ for one backslash, or put the text in 'single quotes'.",
        )


def _quote_run_on(text: str, fault: Fault) -> Iterator[Mend]:
    if fault.context == "while scanning a quoted scalar":
        yield _hiding(text, fault.start, codes.UNCLOSED, "this quote is never closed")


def _starting_sign(text: str, fault: Fault) -> Iterator[Mend]:
    """A value that starts with a sign; the start of a whole block is not the cause of its end."""
    if fault.context in ("while parsing a block mapping", "while parsing a block collection"):
        return
    for index in dict.fromkeys((fault.start, fault.at)):
        sign = text[index : index + 1]
        if not sign or sign not in "@`%*&!|>?-,]}" or "flow" in fault.context:
            continue
        code = codes.TAG if sign == "!" else codes.START
        message = f'the value "{quoted(line_of(text[index:], 0))}" starts with {sign}'
        yield Mend(code=code, index=index, text=with_stand_in(text, index), message=message)


def _text_after(text: str, fault: Fault) -> Iterator[Mend]:
    """A closing quote or bracket with more text after it on the same line."""
    start = _line_start(text, fault.at)
    match = _VALUE_START.match(text, start, fault.at)
    if "flow" in fault.context:
        match = next(reversed(list(_INSIDE_QUOTE.finditer(text, start, fault.at))), None)
    if match and text[fault.at - 1 : fault.at] not in ("", "\n"):
        rest = quoted(line_of(text[fault.at :], 0))
        message = f'the text goes on after it has been closed: "{rest}"'
        yield _hiding(text, match.start(1), codes.UNCLOSED, message)


def _odd_quote(text: str, fault: Fault) -> Iterator[Mend]:
    """A quote opened on a line above and closed by accident further down."""
    end = _line_start(text, fault.at) - 1
    for _ in range(_LOOK_BACK):
        if end < 0:
            return
        start = _line_start(text, end)
        match = _VALUE_START.match(text, start, end)
        if match and match[1] in "\"'" and line_of(text, start).count(match[1]) % 2:
            yield _hiding(
                text, match.start(1), codes.UNCLOSED, "this quote is not closed on its line"
            )
        end = start - 1


def _bracket(text: str, fault: Fault) -> Iterator[Mend]:
    """A bracket that is never closed: its text, as far as it seems to go, is read as text."""
    sign = text[fault.start : fault.start + 1]
    if not fault.context.startswith("while parsing a flow") or sign not in ("[", "{"):
        return
    end = _line_start(text, fault.at)
    opening = line_of(text, fault.start)
    if end <= fault.start or _depth(line_of(text, fault.at)) > _depth(opening):
        end += len(line_of(text, fault.at))
    inside = _MISLEADING.sub(lambda match: with_stand_in(match[0], 0), text[fault.start + 1 : end])
    copy = with_stand_in(text, fault.start)
    yield Mend(
        code=codes.UNCLOSED,
        index=fault.start,
        text=copy[: fault.start + 1] + inside + copy[end:],
        message=f"this {sign} is not closed where it should be",
    )


def _as_remark(text: str, index: int) -> str:
    """The text with the rest of a line turned into a comment."""
    return text[:index] + "#" + text[index + 1 :]


def _hiding(text: str, index: int, code: str, message: str) -> Mend:
    """The mend that hides the one sign at the place it tells of."""
    return Mend(code=code, index=index, text=with_stand_in(text, index), message=message)


def _line_start(text: str, index: int) -> int:
    return text.rfind("\n", 0, index) + 1


def _depth(line: str) -> int:
    """How far the first word of a line is set in, past any dashes."""
    match = _DASHES.match(line)
    return match.end() if match else 0


def _indent(line: str) -> str:
    return line[: len(line) - len(line.lstrip(" \t"))]
