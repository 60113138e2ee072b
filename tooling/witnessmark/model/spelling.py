"""Which known name a slip of the pen clearly means."""

from __future__ import annotations

import difflib
import re
from collections.abc import Sequence

_NEAR = 0.75
_CLEARLY = 0.08
"""How alike a name must be, and by how much more than the next; found by trying (our own)."""


def clear_winner(word: str, known: Sequence[str]) -> str | None:
    """The one name clearly meant, or None when there is none or two are about as near.

    A name one slip away is nearer than any other; four in five misspellings are one such slip
    (F. J. Damerau, Communications of the ACM 7(3), 1964, 171-176; from memory).

    >>> clear_winner("saftey", ["safety", "sanity"]), clear_winner("atc", ["watch", "act"])
    ('safety', 'act')
    """
    one_slip = [name for name in dict.fromkeys(known) if is_one_slip(word, name)]
    if one_slip:
        return one_slip[0] if len(one_slip) == 1 else None
    near = difflib.get_close_matches(word, known, n=2, cutoff=_NEAR)
    if not near:
        return None
    ratios = [difflib.SequenceMatcher(None, word, name).ratio() for name in near]
    clear = len(near) == 1 or ratios[0] - ratios[1] > _CLEARLY
    return near[0] if clear else None


def is_one_slip(word: str, name: str) -> bool:
    """True when one letter was left out, put in or taken for another, or two neighbours changed.

    >>> is_one_slip("atc", "act"), is_one_slip("atc", "watch")
    (True, False)
    """
    if word == name or abs(len(word) - len(name)) > 1:
        return False
    ends = zip(word, name, strict=False)
    start = next((at for at, (one, other) in enumerate(ends) if one != other), None)
    start = min(len(word), len(name)) if start is None else start
    left, right = word[start:], name[start:]
    if left[1:] == right[1:] or left == right[1:] or left[1:] == right:
        return True
    return left[:2] == right[1::-1] and left[2:] == right[2:]


def hint(word: str, known: Sequence[str]) -> str:
    """A sentence that names the winner, with a space before it; nothing without one."""
    best = clear_winner(word, known)
    return f' Did you mean "{best}"?' if best else ""


_HINT = re.compile(r' Did you mean "([^"]+)"\?$')


def meant(message: str) -> str | None:
    """The winner that a message ends with, as `hint` wrote it; None where it names none.

    >>> meant('There is no field called "saftey" here. Did you mean "safety"?')
    'safety'
    """
    found = _HINT.search(message)
    return found[1] if found else None
