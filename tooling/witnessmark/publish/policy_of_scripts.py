"""A strict content security policy for a theme: its own inline scripts by their sums, no others."""

from __future__ import annotations

import base64
import hashlib
import re
from html.parser import HTMLParser

from jinja2 import Environment
from mkdocs.utils.templates import TemplateContext

from witnessmark.publish.finder import Finder

_IN_THE_PAGE = re.compile(r"<script>.*?</script>\s*", re.DOTALL)
_RUNS = frozenset({"", "text/javascript", "application/javascript", "module"})


class _Scripts(HTMLParser):
    """Collects the text of scripts that stand in the page itself and would run."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=False)
        self.found: list[str] = []
        self.files = False
        self._inside = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Start collecting at a script without a file."""
        given = dict(attrs)
        runs = (given.get("type") or "") in _RUNS
        self.files |= tag == "script" and "src" in given and runs
        if tag == "script" and "src" not in given and runs:
            self._inside = True
            self.found.append("")

    def handle_data(self, data: str) -> None:
        """Collect."""
        if self._inside:
            self.found[-1] += data

    def handle_endtag(self, tag: str) -> None:
        """Stop collecting."""
        self._inside = self._inside and tag != "script"


def content_policy(markup: str) -> str:
    """The policy for pages whose shell, rendered without any content, is this markup.

    Sums are never taken from a finished page, or a script that crept into its content would be
    let in with the rest.
    """
    scripts = _Scripts()
    scripts.feed(markup)
    sums = sorted({_sum(text) for text in scripts.found})
    allowed = [*(["'self'"] if scripts.files else []), *sums] or ["'none'"]
    return "; ".join(
        (
            "default-src 'none'",
            " ".join(("script-src", *allowed)),
            "style-src 'self'",
            "img-src 'self' data:",
            "font-src 'self'",
            "connect-src 'self'",
            "worker-src 'self'",
            "base-uri 'none'",
            "form-action 'none'",
        )
    )


def without_scripts(markup: str) -> str:
    """A page without the scripts that a theme writes into it; data for programs stays.

    The theme keeps what a reader chose with them; where none of its own files runs, nobody asks.
    """
    return _IN_THE_PAGE.sub("", markup)


class Policies:
    """The policy of each depth of the site, worked out once from the theme's shell without content.

    A shell differs only by how far it lies below the front page.
    """

    def __init__(self, env: Environment) -> None:
        self._env = env
        self._known: dict[str, str] = {}

    def of(self, context: TemplateContext, template: str, **blank: object) -> str:
        """The policy of a page; `blank` stands in for whatever holds a record's text."""
        page = blank.get("page")
        kind = getattr(page, "meta", {}).get("finder")
        depth = f"{template} {context['base_url']} {kind}"
        if depth not in self._known:
            markup = self._env.get_template(template).render({**context, **blank})
            runs = kind == Finder.THEME.value
            self._known[depth] = content_policy(markup if runs else without_scripts(markup))
        return self._known[depth]


def _sum(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"
