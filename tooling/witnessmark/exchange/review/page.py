"""A review as one page that needs nothing beside it: no script, no address, its own style."""

from __future__ import annotations

from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined

from witnessmark.exchange.escapes import one_line
from witnessmark.exchange.review.compare import Review
from witnessmark.exchange.review.sections import sections_of


@cache
def _environment() -> Environment:
    """Everything escaped, nothing undefined; cached because compiling costs more than a page."""
    found = Environment(
        loader=PackageLoader("witnessmark.exchange", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    found.filters["flat"] = one_line
    found.filters["kind"] = lambda block: type(block).__name__
    return found


def render_page(review: Review) -> str:
    """The whole sheet as one HTML page."""
    template = _environment().get_template("review.html")
    return template.render(review=review, sections=sections_of(review))
