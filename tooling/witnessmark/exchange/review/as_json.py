"""A review as JSON for other programs."""

from __future__ import annotations

from typing import Any

from witnessmark.exchange.review.compare import Review
from witnessmark.exchange.review.first import FirstSheet
from witnessmark.weighing.changes.change import Change


def review_as_json(review: Review) -> dict[str, Any]:
    """Every change, worst first, and the first-review sheets."""
    return {
        "base": review.base,
        "head": review.head,
        "notes": list(review.notes),
        "needs_a_person": len(review.needs),
        "no_change_in_meaning": review.is_empty,
        "changes": [_change(change, review) for change in review.changes],
        "first_reviews": [_sheet(sheet) for sheet in review.new],
    }


def _change(change: Change, review: Review) -> dict[str, Any]:
    return {
        "kind": change.kind.value,
        "weight": change.weight.name.lower(),
        "record": change.record,
        "title": review.titles.get(change.record),
        "field": change.field,
        "says": change.says,
        "before": change.before or None,
        "after": change.after or None,
        "who": change.who or None,
        "remarks": list(change.remarks),
        "public": change.is_public,
        "place": change.place or None,
    }


def _sheet(sheet: FirstSheet) -> dict[str, Any]:
    return {
        "record": sheet.record,
        "title": sheet.title,
        "facts": list(sheet.facts),
        "grids": [
            {"title": grid.title, "head": list(grid.head), "rows": [list(row) for row in grid.rows]}
            for grid in sheet.grids
        ],
        "blanks": list(sheet.blanks),
        "undo_set_by_hand": list(sheet.overrides),
        "one_hand": list(sheet.one_hand),
    }
