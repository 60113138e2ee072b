"""Parts of a described sheet in words, the same in a terminal and on a page."""

from __future__ import annotations

import shlex
from collections.abc import Iterator, Mapping
from typing import Any

Told = Mapping[str, Any]  # as `describe_sheet` gives it, or a part of that


def as_typed(given: Mapping[str, str | list[str]]) -> str:
    """Give inputs as they are typed after `worksheet run`; a repeated input is repeated.

    >>> as_typed({"exposure": ["5 m/s2 for 3 h", "4 m/s2 for 1 h"], "measured": "single-axis"})
    'exposure="5 m/s2 for 3 h" exposure="4 m/s2 for 1 h" measured="single-axis"'
    """
    return " ".join(
        f"{name}={_quoted(text)}"
        for name, texts in given.items()
        for text in ([texts] if isinstance(texts, str) else texts)
    )


def _quoted(text: str) -> str:
    # Double quotes read best; a text a shell would change within them is quoted as shlex does.
    return shlex.quote(text) if set(text) & set('"$`\\!') else f'"{text}"'


def ranges(taken: Told) -> Iterator[str]:
    """Give what is refused and what is cautioned, each in words.

    >>> list(ranges({"unit": "kg", "over": "0", "cautioned_over": "23"}))
    ['must be over 0 kg', 'cautioned over 23 kg']
    """
    unit = "" if taken.get("unit") in {None, "1"} else f" {taken['unit']}"
    refused = _bounds(taken, unit, over="over {}", least="{} or more", most="{} or less")
    cautioned = _bounds(taken, unit, cautioned_under="under {}", cautioned_over="over {}")
    if refused:
        yield f"must be {' and '.join(refused)}"
    if cautioned:
        yield f"cautioned {' and '.join(cautioned)}"


def _bounds(taken: Told, unit: str, **wordings: str) -> list[str]:
    given = ((taken.get(name), words) for name, words in wordings.items())
    return [words.format(f"{bound}{unit}") for bound, words in given if bound is not None]


def limit_in_words(limit: Told) -> str:
    """Give what a result must keep to.

    >>> limit_in_words({"result": "clearance", "side": "at most", "against": "limit",
    ...     "meaning": "the greatest allowed", "where_given": True})
    'clearance must be at most limit (the greatest allowed), where that is given'
    """
    side = f"{limit['result']} must be {limit['side']}"
    if limit["against"] == limit["meaning"]:
        return f"{side} {limit['meaning']}"
    where = ", where that is given" if limit["where_given"] else ""
    return f"{side} {limit['against']} ({limit['meaning']}){where}"


def cited(source: Told) -> str:
    """Give a source as one line."""
    return ", ".join(str(source[part]) for part in ("author", "title", "year", "clause"))
