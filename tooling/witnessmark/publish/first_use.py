"""Leads the reader from the first use of a word of the workshop on a page to what it means."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from functools import cache
from itertools import zip_longest

from markupsafe import Markup

from witnessmark.publish.environment import environment

TAGS = re.compile(r"(<[^>]*>)")
_NAME = re.compile(r"</?([a-zA-Z][a-zA-Z0-9]*)")
READ = frozenset({"p", "li", "dd", "blockquote"})
"""Text is looked at within these, and never within the next."""
LEFT = frozenset({"a", "code", "svg", "script", "pre", "summary", "table", "time", "footer"})
_CLOSES_NOTHING = frozenset({"br", "hr", "img", "input", "link", "meta", "source", "wbr"})


def explain_first_uses(markup: str, words: Collection[str], *, page: str) -> str:
    """The markup with a link at the first use of each word; `page` is the glossary's address.

    Every tag of the markup is closed in its order, as all our pages' are.
    """
    unseen = {word.casefold() for word in words}
    return "".join(_pieces(markup, unseen, _pattern(frozenset(unseen)), page))


@cache
def _pattern(words: frozenset[str]) -> re.Pattern[str]:
    """Any of the words or its plural, the longest first; cached because it is long."""
    longest_first = sorted(words, key=lambda word: (-len(word), word))
    return re.compile(rf"\b({'|'.join(map(re.escape, longest_first))})(?:e?s)?\b", re.IGNORECASE)


def _pieces(markup: str, unseen: set[str], pattern: re.Pattern[str], page: str) -> Iterator[str]:
    place = _Place()
    pieces = TAGS.split(markup)
    for text, tag in zip_longest(pieces[::2], pieces[1::2], fillvalue=""):
        if text and place.is_read and unseen and not text.isspace():
            yield pattern.sub(lambda found: _linked(found, unseen, page), text)
        else:
            yield text
        place.pass_by(tag)
        yield tag


class _Place:
    """Where in the markup one is: the elements that are open, and how many of two sorts."""

    def __init__(self) -> None:
        self._inside: list[str] = []
        self._read = self._left = 0

    @property
    def is_read(self) -> bool:
        """True within what is looked at, and within nothing that is left alone."""
        return self._read > 0 and not self._left

    def pass_by(self, tag: str) -> None:
        """Go into an element or out of it."""
        found = _NAME.match(tag)
        if found is None or tag.endswith("/>"):
            return
        name = found[1].lower()
        if name in _CLOSES_NOTHING:
            return
        if tag[1] == "/":
            name = self._inside.pop()
        else:
            self._inside.append(name)
        step = -1 if tag[1] == "/" else 1
        self._read += step * (name in READ)
        self._left += step * (name in LEFT)


def _linked(found: re.Match[str], unseen: set[str], page: str) -> str:
    word = found[1].casefold()
    if word not in unseen:
        return found[0]
    unseen.discard(word)
    text = Markup(found[0])  # noqa: S704  a piece of markup that a template escaped
    template = environment().get_template("term.html")
    return template.render(page=page, anchor=anchor_of(word), text=text)


def anchor_of(word: str) -> str:
    """Where a word of the workshop stands on the page of words.

    >>> anchor_of("Gas strut")
    'trade-gas-strut'
    """
    return f"trade-{word.casefold().replace(' ', '-')}"
