"""Words that fitters use every day and most visitors have never met.

A short list of our own, no source: words that mean nothing outside a workshop, or something else
there (a journal, a gland). A word counts as explained where the sentence goes on to say what it is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

WORKSHOP_WORDS = frozenset(
    {
        "arbor", "babbitt", "backlash", "brinelling", "bushing", "chamfer", "cotter", "detent",
        "dowel", "fettling", "fillet", "fretting", "galling", "gib", "gland", "gudgeon", "honing",
        "journal", "keyway", "knurl", "lapping", "lug", "magneto", "mandrel", "pawl", "peening",
        "pintle", "quill", "reamer", "runout", "scraper", "shank", "shim", "spigot", "spline",
        "swage", "tang", "thou", "trunnion", "whitemetal",
    }
)  # fmt: skip

_WORD = re.compile(r"[a-z]+")
_EXPLAINS = re.compile(
    r"s?(?: \(|, (?:the|a|an|that is|which|or)\b| (?:is|are|means?) (?:the|a|an|what|where)\b|: )"
)


def unexplained(text: str) -> Iterator[str]:
    """Each workshop word of a text that the text does not explain, once, in its order.

    >>> list(unexplained("The journal is scored. A shim (a thin packing sheet) was left in."))
    ['journal']
    """
    lower = text.lower()
    told: set[str] = set()
    for match in _WORD.finditer(lower):
        word = match[0] if match[0] in WORKSHOP_WORDS else match[0].removesuffix("s")
        if word in WORKSHOP_WORDS and word not in told:
            told.add(word)
            if not any(
                _EXPLAINS.match(lower, one.end()) for one in re.finditer(rf"\b{word}", lower)
            ):
                yield word
