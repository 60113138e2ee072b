"""Sites as the tests look at them: rendered files, parsed markup, resolved links."""

from __future__ import annotations

import posixpath
from collections.abc import Iterator
from datetime import date
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import urlsplit

from witnessmark.model.library import Library, assemble
from witnessmark.publish import Skin, render
from witnessmark.publish.shown_history import NO_VERSIONS
from witnessmark.repository.disk import read_museum
from witnessmark.repository.record_versions import RecordVersions
from witnessmark.repository.site import read_pictures
from witnessmark.rules.rulebook import RuleBook
from witnessmark.rules.rulebook_check import load_shipped

ROOT = Path(__file__).parents[1]
DEMO = ROOT / "decisions"
AS_OF = date(2026, 9, 15)
NO_RULES = RuleBook(())
VOID = frozenset({"area", "br", "hr", "img", "input", "link", "meta", "source", "wbr"})


@cache
def demo(skin: Skin = "plain") -> dict[str, str | bytes]:
    """The site of the demo museum."""
    folder = read_museum(DEMO)
    site = render(
        assemble(folder),
        rulebook=load_shipped(),
        as_of=AS_OF,
        skin=skin,
        pictures=read_pictures(DEMO, folder.names),
    )
    return dict(site)


def site_of(
    library: Library,
    *,
    skin: Skin = "plain",
    pictures: dict[str, bytes] | None = None,
    versions: RecordVersions = NO_VERSIONS,
) -> dict[str, str | bytes]:
    """The site of another museum, without rules."""
    site = render(
        library,
        rulebook=NO_RULES,
        as_of=AS_OF,
        skin=skin,
        pictures=pictures or {},
        versions=versions,
    )
    return dict(site)


class Markup(HTMLParser):
    """What a page holds: elements with their attributes, in order, and what was left open."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str]]] = []
        self.open: list[str] = []
        self.crossed: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note the element."""
        self.elements.append((tag, {name: value or "" for name, value in attrs}))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note an element that closes itself, as in SVG."""
        self.elements.append((tag, {name: value or "" for name, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        """Close the element, which must be the one opened last."""
        if self.open and self.open[-1] == tag:
            self.open.pop()
        else:
            self.crossed.append(tag)

    def all(self, name: str) -> Iterator[str]:
        """Every value of one attribute."""
        return (given[name] for _, given in self.elements if name in given)


def pages(site: dict[str, str | bytes]) -> dict[str, str]:
    """The pages among the files of a site."""
    found = ((path, text) for path, text in site.items() if path.endswith(".html"))
    return {path: text for path, text in found if isinstance(text, str)}


def inner_links(path: str, markup: Markup) -> Iterator[tuple[str, str]]:
    """Every link or picture of a page inside the site: the file it leads to, and the fragment."""
    for name in ("href", "src"):
        for link in markup.all(name):
            parts = urlsplit(link)
            if parts.scheme or parts.netloc:
                continue
            target = posixpath.normpath(posixpath.join(posixpath.dirname(path), parts.path))
            if parts.path.startswith("/"):
                target = parts.path.lstrip("/")
            if not parts.path:
                target = path
            if parts.path.endswith("/") or target in {".", ""}:
                target = posixpath.normpath(posixpath.join(target, "index.html"))
            yield target, parts.fragment
