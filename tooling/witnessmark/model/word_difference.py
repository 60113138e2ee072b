"""Two versions of a text, word by word."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from difflib import SequenceMatcher

_WORD = re.compile(r"\S+\s*")
_LONGEST = 4000
"""Words beyond which a text is told as wholly rewritten; matching costs their product."""


@dataclass(frozen=True)
class Stretch:
    """Some words that stayed, went or came."""

    text: str
    fate: str

    STAYED = "stayed"
    WENT = "went"
    CAME = "came"


def word_difference(before: str, after: str) -> tuple[Stretch, ...]:
    """What stayed, went and came, in reading order; spacing alone makes no difference.

    >>> [(s.fate, s.text) for s in word_difference("The old bush", "The new bush")]
    [('stayed', 'The'), ('went', 'old'), ('came', 'new'), ('stayed', 'bush')]
    """
    old, new = _words(before), _words(after)
    if len(old) * len(new) > _LONGEST**2:
        return (Stretch(before, Stretch.WENT), Stretch(after, Stretch.CAME))
    return tuple(_stretches(old, new))


def _words(text: str) -> list[str]:
    return [word.strip() for word in _WORD.findall(text)]


def _stretches(old: list[str], new: list[str]) -> Iterator[Stretch]:
    for verb, a, b, c, d in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if verb == "equal":
            yield Stretch(" ".join(old[a:b]), Stretch.STAYED)
            continue
        if b > a:
            yield Stretch(" ".join(old[a:b]), Stretch.WENT)
        if d > c:
            yield Stretch(" ".join(new[c:d]), Stretch.CAME)


def shortened(stretches: tuple[Stretch, ...], *, around: int = 6) -> tuple[Stretch, ...]:
    """The same with long unchanged stretches cut to a few words around each change."""
    return tuple(
        _cut(s, around, is_first=n == 0, is_last=n == len(stretches) - 1)
        for n, s in enumerate(stretches)
    )


def _cut(stretch: Stretch, around: int, *, is_first: bool, is_last: bool) -> Stretch:
    words = stretch.text.split()
    if stretch.fate != Stretch.STAYED or len(words) <= 2 * around:
        return stretch
    head = [] if is_first else words[:around]
    tail = [] if is_last else words[-around:]
    return Stretch(" ".join([*head, "\N{HORIZONTAL ELLIPSIS}", *tail]), Stretch.STAYED)
