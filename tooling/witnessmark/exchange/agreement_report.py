"""How alike people judge, as text for a terminal and as JSON for other programs."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from witnessmark.exchange.text_table import folded, render_table
from witnessmark.weighing.agreement import Agreement, Metric, Ratings, Slip, agreement_figures
from witnessmark.weighing.verdict import in_a_hundred

_METRICS = {
    Metric.ORDINAL: "levels as an order",
    Metric.INTERVAL: "levels as even steps",
    Metric.NOMINAL: "levels as mere names",
}
_SLIPS = {
    Slip.NONE: "every slip counts the same",
    Slip.LINEAR: "a slip counts by its steps",
    Slip.QUADRATIC: "a slip counts by the square of its steps",
}


def agreement_as_json(agreement: Agreement, ratings: Ratings) -> dict[str, object]:
    """Give the contract's figures, and what they rest on: counts, cautions, where people differ."""
    raw = agreement.raw
    return {
        **agreement_figures(agreement),
        "raw": None if raw is None else str(raw),
        "units": agreement.units,
        "decisions": agreement.decisions,
        "raters": list(agreement.raters),
        "cautions": list(agreement.cautions),
        "differing": [
            {"unit": unit, "scores": {rater: str(score) for rater, score in scores}}
            for unit, scores in _differing(ratings)
        ],
    }


def render_agreement(agreement: Agreement, ratings: Ratings) -> str:
    """Give the figures with how many they rest on, what to beware of, and who differed where."""
    if not agreement.units:
        return "Nobody has judged a value a second time, so nothing can be said."
    return "\n".join([*_counts(agreement), "", *_figures(agreement), *_where(ratings)])


def _counts(agreement: Agreement) -> Iterator[str]:
    many = len(agreement.raters)
    of = f" of {agreement.decisions} decisions" if agreement.clustered else ""
    yield from folded(
        f"{agreement.units} values{of}, each judged by more than one person; {many} people:"
        f" {', '.join(agreement.raters)}."
    )
    if agreement.raw is not None:
        yield f"Of all pairs of scores of one value, {in_a_hundred(agreement.raw)} are the same."
    yield "Only judged scores count; what is computed agrees with itself."
    for caution in agreement.cautions:
        yield from folded(caution)


def _figures(agreement: Agreement) -> Iterator[str]:
    interval = agreement.resampled.interval
    ends = f"{_decimals(interval[0])} to {_decimals(interval[1])}" if interval else ""
    rows = [
        ["alpha", words, _decimals(agreement.alpha[metric]), ends * (metric is Metric.ORDINAL)]
        for metric, words in _METRICS.items()
    ]
    if agreement.kappa is not None:
        rows += [["kappa", words, _decimals(agreement.kappa[s]), ""] for s, words in _SLIPS.items()]
    heading = ["figure", "what it takes for granted", "value", "interval"]
    yield from render_table(heading, rows, numbers=frozenset({2}))
    yield "1 is full agreement, 0 is what chance alone would give."
    if agreement.kappa is None:
        yield "Kappa compares two raters, and there are not two here."
    if agreement.method:
        yield from folded(agreement.method)


def _where(ratings: Ratings) -> Iterator[str]:
    differing = list(_differing(ratings))
    if not differing:
        return
    yield ""
    yield f"People differed on {len(differing)}:"
    rows = [
        [unit, ", ".join(f"{rater} {_decimals(score)}" for rater, score in scores)]
        for unit, scores in differing
    ]
    yield from (f"  {line}" for line in render_table(["value", "levels"], rows))


def _differing(ratings: Ratings) -> Iterator[tuple[str, tuple[tuple[str, Fraction], ...]]]:
    by_unit: dict[str, list[tuple[str, Fraction]]] = {}
    for rating in ratings.every:
        by_unit.setdefault(rating.unit, []).append((rating.rater, rating.score))
    for unit, scores in by_unit.items():
        if len({score for _, score in scores}) > 1:
            yield unit, tuple(scores)


def _decimals(figure: Fraction | None) -> str:
    """Give a figure to two decimals, whole levels as such; never 1 unless it is exactly 1."""
    if figure is None:
        return "none"
    if figure.denominator == 1:
        return str(figure)
    shown = round(figure, 2)
    if shown == 1:
        return "over 0.99"
    return f"{float(shown):.2f}"
