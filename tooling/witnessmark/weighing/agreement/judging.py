"""How alike a set of ratings is: every figure, with how many it rests on and what to beware of."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from witnessmark.weighing.agreement.alpha import Metric, alpha_of, coincidences_of
from witnessmark.weighing.agreement.bootstrap import Resampled, resample_alpha
from witnessmark.weighing.agreement.kappa import Slip, weighted_kappa
from witnessmark.weighing.agreement.ratings import Ratings

SEED: Final = 1931
"""Any number would do; it is fixed so that the same ratings always give the same interval."""

ENOUGH_DECISIONS: Final = 10
"""Below this many the figures are shown as too few to say (the museum's own rule, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreement:
    """How alike people judged; None stands for a figure that has no meaning here.

    `ratings` counts only scores of units that somebody else scored too, as alpha does; `units`
    counts those units, `decisions` what they belong to (units themselves, where no decision is
    named). `raw` is the share of all pairs of scores of one unit that are equal. `resampled` is
    of the ordinal alpha: levels are an order.
    """

    alpha: Mapping[Metric, Fraction | None]
    kappa: Mapping[Slip, Fraction | None] | None
    raw: Fraction | None
    raters: tuple[str, ...]
    units: int
    ratings: int
    decisions: int
    clustered: bool
    resampled: Resampled

    @property
    def too_few(self) -> str | None:
        """Give the sentence that the figures rest on too little, where they do."""
        if self.decisions >= ENOUGH_DECISIONS:
            return None
        what = "decision" if self.clustered else "unit"
        many = what if self.decisions == 1 else f"{what}s"
        return (
            f"Too few to say: {self.decisions} {many} judged by more than one person, and it takes"
            f" {ENOUGH_DECISIONS}."
        )

    @property
    def method(self) -> str | None:
        """Give in a sentence how the interval was found, where there is one."""
        if self.resampled.interval is None:
            return None
        drawn = "Whole decisions" if self.clustered else "Units"
        return (
            f"{drawn} were drawn again {self.resampled.draws} times; in 95 of 100 draws the ordinal"
            " alpha lay between these ends."
        )

    @property
    def cautions(self) -> tuple[str, ...]:
        """Give what a reader of the figures should know, in sentences."""
        return tuple(self._cautions())

    def _cautions(self) -> Iterator[str]:
        if self.too_few:
            yield self.too_few
        if self.ratings and all(alpha is None for alpha in self.alpha.values()):
            yield "Every score is the same, so agreement beyond chance cannot be told."
        if self.resampled.interval and self.resampled.without_meaning:
            yield (
                f"In {self.resampled.without_meaning} of {self.resampled.draws} draws every score"
                " was the same; the interval leaves them out."
            )
        if self.raw == 1 and self.resampled.interval:
            yield "Nobody differed, so no draw could; the interval shows no doubt for that reason."


def agreement_of(ratings: Ratings, *, seed: int = SEED) -> Agreement:
    """Give every figure of agreement, exactly, and the interval from draws with this seed."""
    compared = [scores for scores in ratings.units.values() if len(scores) > 1]
    clusters = ratings.clusters
    coincidences = coincidences_of(compared)
    return Agreement(
        alpha={metric: alpha_of(coincidences, metric=metric) for metric in Metric},
        kappa=_kappa(ratings),
        raw=_raw(compared),
        raters=ratings.raters,
        units=len(compared),
        ratings=coincidences.total,
        decisions=sum(any(len(unit) > 1 for unit in units) for units in clusters),
        clustered=ratings.is_clustered,
        resampled=resample_alpha(clusters, metric=Metric.ORDINAL, seed=seed)
        if alpha_of(coincidences, metric=Metric.ORDINAL) is not None
        else Resampled(None, 0, 0),
    )


def _kappa(ratings: Ratings) -> Mapping[Slip, Fraction | None] | None:
    if len(ratings.raters) != 2:  # noqa: PLR2004 - kappa compares two
        return None
    return {slip: weighted_kappa(ratings.pairs, cost=slip) for slip in Slip}


def _raw(compared: list[tuple[Fraction, ...]]) -> Fraction | None:
    equal = sum(n * (n - 1) for scores in compared for n in Counter(scores).values())
    pairs = sum(len(scores) * (len(scores) - 1) for scores in compared)
    return Fraction(equal, pairs) if pairs else None
