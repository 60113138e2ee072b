"""How alike people judge: kappa, alpha, raw agreement, and how far to trust them."""

from __future__ import annotations

from witnessmark.weighing.agreement.alpha import Metric, krippendorff_alpha
from witnessmark.weighing.agreement.bootstrap import Resampled, resample_alpha
from witnessmark.weighing.agreement.figures import agreement_figures
from witnessmark.weighing.agreement.from_library import ratings_of_library
from witnessmark.weighing.agreement.judging import (
    ENOUGH_DECISIONS,
    SEED,
    Agreement,
    agreement_of,
)
from witnessmark.weighing.agreement.kappa import Slip, weighted_kappa
from witnessmark.weighing.agreement.ratings import Rating, Ratings
from witnessmark.weighing.agreement.table import read_ratings

__all__ = [
    "ENOUGH_DECISIONS",
    "SEED",
    "Agreement",
    "Metric",
    "Rating",
    "Ratings",
    "Resampled",
    "Slip",
    "agreement_figures",
    "agreement_of",
    "krippendorff_alpha",
    "ratings_of_library",
    "read_ratings",
    "resample_alpha",
    "weighted_kappa",
]
