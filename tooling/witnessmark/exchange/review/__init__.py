"""The review of a branch: what changed in meaning, worst first."""

from witnessmark.exchange.review.compare import Review, review_of
from witnessmark.exchange.review.sides import Side, side_of, sides_of

__all__ = ["Review", "Side", "review_of", "side_of", "sides_of"]
