"""How far an option can be undone, in the words of the workshop."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.model.options import Option
from witnessmark.model.words import Do
from witnessmark.publish.shown_names import Names, listed, within
from witnessmark.scoring.score import Score
from witnessmark.scoring.scores import OptionScores
from witnessmark.scoring.undo import LAST_OF_STOCK, LAST_WITHOUT_PATTERN, Undo

_USED_UP = {
    LAST_OF_STOCK: (
        "Cannot be undone: the last of the old stock would be used up, "
        "and what could be made by its pattern would be new."
    ),
    LAST_WITHOUT_PATTERN: (
        "Cannot be undone: the last of the old stock would be used up, "
        "and nothing is left to copy it from."
    ),
}


def undone_means(option: Option, scores: OptionScores) -> str | None:
    """What stands in the way of undoing, where it is that old stock is used up; else None.

    The level's own words speak of an original that is altered, and here none need be.
    """
    rows = _governing(scores)
    if not rows or not all(_is_old_stock(row, option) for row in rows):
        return None
    return _USED_UP.get(rows[0].level)


def _is_old_stock(row: Undo, option: Option) -> bool:
    """True for a step that fits old stock at the level its rule gives, not set by hand."""
    is_step = row.index < len(option.steps)
    is_fit = is_step and option.steps[row.index].do is Do.FIT_OLD_STOCK
    return is_fit and not row.is_overridden


def undo_facts(scores: OptionScores, *, machine: str, names: Names) -> tuple[str, ...] | None:
    """The steps that hold the level down, named by part; None where none of them is counted."""
    return tuple(dict.fromkeys(_facts(scores, machine, names))) or None


def _facts(scores: OptionScores, machine: str, names: Names) -> Iterator[str]:
    for row in _governing(scores):
        parts = listed(within(name) for name in names.parts(machine, row.addresses))
        own = f"; our table says {row.default}: {row.because}" if row.is_overridden else ""
        yield f"{row.what.rstrip(':')}: {parts} (level {row.level}{own})."


def _governing(scores: OptionScores) -> list[Undo]:
    """The least reversible steps and consequences on original parts; none while one is unsaid."""
    if not isinstance(scores.undoing.score, Score):
        return []
    counted = [row for row in scores.undoing.rows if row.counts]
    least = min((row.level for row in counted), default=0)
    return [row for row in counted if row.level == least]
