"""The templates of pages that need nothing beside them: reviews, labels, forms."""

from __future__ import annotations

from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined

from witnessmark.exchange.escapes import one_line


@cache
def environment() -> Environment:
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
