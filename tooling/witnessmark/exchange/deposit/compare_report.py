"""A comparison of deposits as text for a terminal, and as plain data."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from witnessmark.exchange.deposit.compare import Changed, Compared, Old
from witnessmark.model.differences import Difference
from witnessmark.model.word_difference import Stretch, shortened, word_difference

_MARKS = {Stretch.WENT: ("[-", "-]"), Stretch.CAME: ("{+", "+}"), Stretch.STAYED: ("", "")}


def compared_text(compared: Compared, old: Old) -> Iterator[str]:
    """Line by line: what it is held against, damage, decisions, seals, other files."""
    info = old.info
    at = f", commit {info['Deposit-Revision']}" if "Deposit-Revision" in info else ""
    yield f"Held against the {old.sort} deposit of {info.get('Bagging-Date', 'no day')}{at}."
    for path in compared.damaged:
        yield f"damaged  {path} of the old deposit is not as its manifest says."
    yield from (f"new      {name}  {title}" for name, title in compared.new)
    for changed in compared.changed:
        yield from _changed(changed)
    yield from (f"gone     {name}  {title}" for name, title in compared.gone)
    for seal in compared.seals:
        yield f"seal     {seal.decision}  {seal.role}: {seal.says}"
        yield f"           then {seal.then or 'none'}"
        yield f"           now  {seal.now or 'none'}"
    yield from (f"file     {path} is {what}." for path, what in compared.others)
    found = (compared.new, compared.changed, compared.gone, compared.seals, compared.others)
    if not any((*found, compared.damaged)):
        yield "Nothing has changed."


def _changed(changed: Changed) -> Iterator[str]:
    yield f"changed  {changed.id}  {changed.title}"
    if not changed.differences:
        yield "           Agreements, figures or remarks only."
    for one in changed.differences:
        yield f"           {'.'.join(one.path)}: {_told(one)}"


def _told(one: Difference) -> str:
    if isinstance(one.before, str) and isinstance(one.after, str):
        words = shortened(word_difference(one.before, one.after))
        return " ".join(f"{_MARKS[s.fate][0]}{s.text}{_MARKS[s.fate][1]}" for s in words)
    if one.before is None:
        return "was added"
    return "was taken out" if one.after is None else "changed"


def compared_data(compared: Compared, old: Old) -> dict[str, Any]:
    """The same for other programs."""
    return {
        "old": {"sort": old.sort, "info": dict(old.info)},
        "new": [{"id": name, "title": title} for name, title in compared.new],
        "changed": [
            {
                "id": changed.id,
                "title": changed.title,
                "differences": [
                    {"field": ".".join(one.path), "before": one.before, "after": one.after}
                    for one in changed.differences
                ],
            }
            for changed in compared.changed
        ],
        "gone": [{"id": name, "title": title} for name, title in compared.gone],
        "seals": [
            {"id": s.decision, "role": s.role, "then": s.then, "now": s.now, "says": s.says}
            for s in compared.seals
        ],
        "files": [{"file": path, "what": what} for path, what in compared.others],
        "damaged": list(compared.damaged),
    }
