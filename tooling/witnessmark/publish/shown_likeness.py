"""How alike people judge, from the second judgements in published records, without names."""

from __future__ import annotations

from collections.abc import Collection

from witnessmark.model.library import Library
from witnessmark.publish.public_across import PublicLikeness
from witnessmark.weighing.agreement import Agreement, Ratings, agreement_of, ratings_of_library


def public_likeness(library: Library, *, published: Collection[str]) -> PublicLikeness | None:
    """The figures of agreement; None where no published value was judged twice."""
    every = ratings_of_library(library).every
    ratings = Ratings.of(rating for rating in every if rating.decision in published)
    if not ratings.every:
        return None
    return without_names(agreement_of(ratings))


def without_names(found: Agreement) -> PublicLikeness:
    """The figures of an agreement, its raters only counted."""
    return PublicLikeness(
        decisions=found.decisions,
        units=found.units,
        ratings=found.ratings,
        raters=len(found.raters),
        raw=found.raw,
        alpha=tuple(found.alpha.items()),
        kappa=tuple((found.kappa or {}).items()),
        interval=found.resampled.interval,
        method=found.method,
        too_few=found.too_few,
        cautions=tuple(said for said in found.cautions if said != found.too_few),
    )
