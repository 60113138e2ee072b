"""Numbers with a comma for the decimals, as much of the world writes them."""

from __future__ import annotations

import re

_GROUPS = re.compile(r"(?<![\d.,])[1-9][0-9]{0,2}(?:,[0-9]{3})+(?![\d,])")
_COMMA = re.compile(r"(?<![\d.,])([0-9]+),([0-9]+)(?![\d,.])")


def with_points(text: str) -> str | None:
    """The text with points for its decimal commas; None where a comma may part thousands.

    >>> with_points("65,74 ± 0,01 mm"), with_points("1,250 mm"), with_points("no number, here")
    ('65.74 ± 0.01 mm', None, None)
    """
    if _GROUPS.search(text):
        return None
    changed = _COMMA.sub(r"\1.\2", text)
    return changed if changed != text else None
