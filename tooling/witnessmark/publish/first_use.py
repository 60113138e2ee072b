"""Leads the reader from the first use of a word of the workshop on a page to what it means."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from functools import cache

from markupsafe import Markup

from witnessmark.publish.environment import environment

TAGS = re.compile(r"(<[^>]*>)")
READ = frozenset({"p", "li", "dd", "blockquote"})
"""Text is looked at within these, and never within the next."""
LEFT = frozenset({"a", "code", "svg", "script", "pre", "summary", "table", "time", "footer"})
_MARKS = re.compile(rf"<(/?)({'|'.join(sorted(READ | LEFT))})\b[^>]*>", re.IGNORECASE)


def explain_first_uses(markup: str, words: Collection[str], *, page: str) -> str:
    """The markup with a link at the first use of each word; `page` is the glossary's address.

    Every element of the markup that is opened is closed, as in all our pages.
    """
    unseen = {word.casefold() for word in words}
    pattern = _pattern(frozenset(unseen))
    return "".join(
        _explained(text, unseen, pattern, page) if is_read and unseen else text
        for text, is_read in _pieces(markup)
    )


@cache
def _pattern(words: frozenset[str]) -> re.Pattern[str]:
    """Any of the words or its plural, the longest first; cached because it is long.

    That the first letter is looked at before the words halves the time (measured).
    """
    longest_first = sorted(words, key=lambda word: (-len(word), word))
    first = re.escape("".join(sorted({word[0] for word in words})))
    any_word = "|".join(map(re.escape, longest_first))
    return re.compile(rf"\b(?=[{first}])({any_word})(?:e?s)?\b", re.IGNORECASE)


def _pieces(markup: str) -> Iterator[tuple[str, bool]]:
    """The markup in pieces, and whether each is looked at: most of a page is not."""
    at = read = left = 0
    for found in _MARKS.finditer(markup):
        yield markup[at : found.start()], read > 0 and not left
        at = found.start()
        if found[0].endswith("/>"):
            continue
        step = -1 if found[1] else 1
        name = found[2].lower()
        read += step * (name in READ)
        left += step * (name in LEFT)
    yield markup[at:], read > 0 and not left


def _explained(markup: str, unseen: set[str], pattern: re.Pattern[str], page: str) -> str:
    """A piece of markup with its words explained; what stands in its tags is left alone."""
    pieces = TAGS.split(markup)
    pieces[::2] = [
        pattern.sub(lambda found: _linked(found, unseen, page), text) for text in pieces[::2]
    ]
    return "".join(pieces)


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
