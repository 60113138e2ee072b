"""A weighing as plain figures for JSON: exact fractions as text, null where there is none."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from witnessmark.weighing.nearest import Nearest
from witnessmark.weighing.option import CRITERIA, Weights
from witnessmark.weighing.outcome import Weighed
from witnessmark.weighing.weigh import Weighing


def weighing_figures(weighing: Weighing) -> dict[str, object]:
    """Give a weighing in the shape that `weigh --format json` prints."""
    return {
        "winner": None if weighing.winner is None else list(weighing.winner),
        "verdict": None if weighing.verdict is None else weighing.verdict.word.value,
        "options": {option.id: option_figures(option) for option in weighing.options},
        "stability": None
        if weighing.stability is None
        else dict(zip(CRITERIA, map(_listed, weighing.stability), strict=True)),
        "flips": None
        if weighing.flips is None
        else [
            {
                "option": flip.option,
                "criterion": flip.criterion,
                "from": str(flip.before),
                "to": str(flip.after),
            }
            for flip in weighing.flips
        ],
    }


def option_figures(option: Weighed) -> dict[str, object]:
    """Give the figures of one option."""
    return {
        "value": _text(option.value),
        "standing": option.standing.value,
        "dominated_by": list(option.dominated_by),
        "tied_with": list(option.tied_with),
        "share_all": _text(option.share_all),
        "share_policy": _text(option.share_policy),
        "central_weights": _by_criterion(option.central_weights),
        "chance_best": _text(option.chance_best),
        "regret": _text(option.regret),
        "ranks": None if option.ranks is None else _listed(option.ranks),
        "nearest": _nearest(option.nearest),
    }


def _nearest(nearest: Nearest | None) -> dict[str, object] | None:
    if nearest is None:
        return None
    return {"moved": str(nearest.moved), "weights": _by_criterion(nearest.weights)}


def _by_criterion(weights: Weights | None) -> dict[str, str] | None:
    return None if weights is None else dict(zip(CRITERIA, _listed(weights), strict=True))


def _text(figure: Fraction | None) -> str | None:
    return None if figure is None else str(figure)


def _listed(figures: Iterable[Fraction]) -> list[str]:
    return [str(figure) for figure in figures]
