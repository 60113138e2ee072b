"""Which known name a slip of the pen clearly means."""

from __future__ import annotations

import difflib
from collections.abc import Sequence

_NEAR = 0.75
_CLEARLY = 0.08
"""How alike a name must be, and by how much more than the next; found by trying (our own)."""


def clear_winner(word: str, known: Sequence[str]) -> str | None:
    """The one name clearly meant, or None when there is none or two are about as near.

    >>> clear_winner("saftey", ["safety", "sanity"])
    'safety'
    """
    near = difflib.get_close_matches(word, known, n=2, cutoff=_NEAR)
    if not near:
        return None
    ratios = [difflib.SequenceMatcher(None, word, name).ratio() for name in near]
    clear = len(near) == 1 or ratios[0] - ratios[1] > _CLEARLY
    return near[0] if clear else None


def hint(word: str, known: Sequence[str]) -> str:
    """A sentence that names the winner, with a space before it; nothing without one."""
    best = clear_winner(word, known)
    return f' Did you mean "{best}"?' if best else ""
