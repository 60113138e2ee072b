"""Agreement as plain figures for JSON: exact fractions as text, null where there is none."""

from __future__ import annotations

from fractions import Fraction

from witnessmark.weighing.agreement.judging import Agreement


def agreement_figures(agreement: Agreement) -> dict[str, object]:
    """Give the figures in the shape that `agreement --format json` prints.

    `n` is the number of scores alpha compares; the interval is of the ordinal alpha.
    """
    kappa, interval = agreement.kappa, agreement.resampled.interval
    return {
        "alpha": {metric.value: _text(alpha) for metric, alpha in agreement.alpha.items()},
        "kappa": None if kappa is None else {slip.value: _text(k) for slip, k in kappa.items()},
        "n": agreement.ratings,
        "interval": None if interval is None else [_two_decimals(end) for end in interval],
        "clustered": agreement.clustered,
    }


def _text(figure: Fraction | None) -> str | None:
    return None if figure is None else str(figure)


def _two_decimals(figure: Fraction) -> float:
    return float(round(figure, 2))
