"""A review as one page that needs nothing beside it: no script, no address, its own style."""

from __future__ import annotations

from witnessmark.exchange.environment import environment
from witnessmark.exchange.review.compare import Review
from witnessmark.exchange.review.sections import sections_of


def render_page(review: Review) -> str:
    """The whole sheet as one HTML page."""
    template = environment().get_template("review.html")
    return template.render(review=review, sections=sections_of(review))
