"""A CEL expression cut into tokens, each with the place it stands at."""

from __future__ import annotations

import re
import sys
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

LONGEST = 2000
"""Characters in one expression; common practice, no source: a longer one is two rules."""

# Source: CEL specification, langdef, "Syntax": RESERVED, and the key words true, false, null, in.
RESERVED = frozenset(
    {"as", "break", "const", "continue", "else", "for", "function", "if", "import", "let", "loop"}
    | {"package", "namespace", "return", "var", "void", "while"}
)
KEYWORDS = frozenset({"true", "false", "null", "in"})

_SPACE = re.compile(r"[ \t\r\n\f]+")
_NUMBER = re.compile(
    r"(?P<double>[0-9]*\.[0-9]+(?:[eE][+-]?[0-9]+)?|[0-9]+[eE][+-]?[0-9]+)"
    r"|(?P<int>0x[0-9a-fA-F]+|[0-9]+)"
)
_WORD = re.compile(r"[_a-zA-Z][_a-zA-Z0-9]*")
_SIGN = re.compile(r"\|\||&&|==|!=|<=|>=|\.\?|[-+*/%!?:.,()\[\]{}<>]")
_QUOTE = re.compile(r"[rR]?(?P<quote>\"\"\"|'''|\"|')")
_ESCAPE = re.compile(
    r"\\(?:([abfnrtv\\?\"'`])"
    r"|[xX]([0-9a-fA-F]{2})|u([0-9a-fA-F]{4})|U([0-9a-fA-F]{8})|([0-3][0-7]{2}))"
)
_PLAIN_ESCAPES = dict(zip("abfnrtv\\?\"'`", "\a\b\f\n\r\t\v\\?\"'`", strict=True))
_SURROGATES = range(0xD800, 0xE000)
_INT64 = range(-(2**63), 2**63 + 1)  # one more: the parser sees the sign of the least one apart


class ExpressionFault(Exception):  # noqa: N818  the name the design gives it
    """An expression cannot be read; `column` counts characters from 1, over line breaks too."""

    def __init__(self, message: str, column: int) -> None:
        super().__init__(message, column)
        self.message = message
        self.column = column

    def __str__(self) -> str:
        return f"{self.message} (at character {self.column})"


@dataclass(frozen=True, slots=True)
class Token:
    """One token: its `kind` is int, double, text, word, sign or end; offsets count from 0."""

    kind: str
    value: str | int | float
    start: int
    end: int

    @property
    def column(self) -> int:
        """Its first character, counted from 1."""
        return self.start + 1


def tokens(source: str) -> Iterator[Token]:
    """Every token of the expression in order, and an end token last."""
    _refuse_unreadable(source)
    place = 0
    while place < len(source):
        if space := _SPACE.match(source, place):
            place = space.end()
            continue
        token = _token(source, place)
        yield token
        place = token.end
    yield Token("end", "", len(source), len(source))


def _refuse_unreadable(source: str) -> None:
    if len(source) > LONGEST:
        message = f"the expression has {len(source)} characters, over {LONGEST}; make two rules"
        raise ExpressionFault(message, LONGEST + 1)
    for place, character in enumerate(source):
        if character == "\0" or ord(character) in _SURROGATES:
            raise ExpressionFault(
                f"the character U+{ord(character):04X} cannot stand in an expression", place + 1
            )


def _token(source: str, place: int) -> Token:
    if quote := _QUOTE.match(source, place):
        return _text(source, quote)
    if number := _NUMBER.match(source, place):
        return _number(source, number)
    if word := _WORD.match(source, place):
        return Token("word", word.group(), place, word.end())
    if source.startswith("//", place):
        message = "a comment would hide all that follows on a folded line; write it under why"
        raise ExpressionFault(message, place + 1)
    if sign := _SIGN.match(source, place):
        return Token("sign", sign.group(), place, sign.end())
    raise ExpressionFault(
        f"the character {source[place]!r} is not known in an expression", place + 1
    )


def _number(source: str, match: re.Match[str]) -> Token:
    start, end = match.span()
    if follower := _WORD.match(source, end):
        message = f"{match.group()}{follower.group()} is not a whole number or a decimal"
        raise ExpressionFault(message, start + 1)
    if match.group("double"):
        return _double(match)
    value = int(match.group(), 16 if match.group().startswith("0x") else 10)
    if value not in _INT64:
        raise ExpressionFault(
            f"{match.group()} is too great for a whole number of 64 bits", start + 1
        )
    return Token("int", value, start, end)


def _double(match: re.Match[str]) -> Token:
    value = float(match.group())
    if value == float("inf"):
        raise ExpressionFault(
            f"{match.group()} is too great for a decimal of 64 bits", match.start() + 1
        )
    return Token("double", value, *match.span())


def _text(source: str, opening: re.Match[str]) -> Token:
    quote, start, place = opening.group("quote"), opening.start(), opening.end()
    raw = opening.group()[0] in "rR"
    pieces: list[str] = []
    while not source.startswith(quote, place):
        if place >= len(source) or (source[place] in "\r\n" and len(quote) == 1):
            raise ExpressionFault(f"the text opened with {quote} is not closed", start + 1)
        piece, place = (source[place], place + 1) if raw else _character(source, place)
        pieces.append(piece)
    return Token("text", "".join(pieces), start, place + len(quote))


def end_of_text(source: str, place: int) -> int | None:
    """The offset after the quoted text at `place`; None where none starts or it has no end."""
    opening = _QUOTE.match(source, place)
    try:
        return None if opening is None else _text(source, opening).end
    except ExpressionFault:
        return None


def _character(source: str, place: int) -> tuple[str, int]:
    """One character of a text and the offset after it (langdef, "String and Bytes Values")."""
    if source[place] != "\\":
        return source[place], place + 1
    match = _ESCAPE.match(source, place)
    if match is None:
        raise ExpressionFault(
            f"{source[place : place + 2]} is not an escape known in a text", place + 1
        )
    if plain := match.group(1):
        return _PLAIN_ESCAPES[plain], match.end()
    number = (
        int(match.group(5), 8)
        if match.group(5)
        else int(match.group(2) or match.group(3) or match.group(4), 16)
    )
    if number > sys.maxunicode or number in _SURROGATES:
        raise ExpressionFault(f"{match.group()} names no character", place + 1)
    return chr(number), match.end()
