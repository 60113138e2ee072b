"""Every page of the site as markup, in the order of its addresses; no disk, no clock."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import partial
from importlib.resources import files
from typing import Literal
from urllib.parse import urlsplit

from markupsafe import Markup

from witnessmark.publish.environment import environment
from witnessmark.publish.feed import render_feed
from witnessmark.publish.first_use import explain_first_uses
from witnessmark.publish.for_robots import days_of_pages, render_robots, render_sitemap
from witnessmark.publish.other_formats import OtherFormats
from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.public_json import public_makers
from witnessmark.publish.share_picture import share_picture
from witnessmark.publish.site_files import Maker, remembering_last
from witnessmark.publish.trade_words import TRADE_WORDS
from witnessmark.publish.views import Section, View
from witnessmark.publish.views_across import likeness_view, replays_view
from witnessmark.publish.views_decision import decision_view, withheld_view
from witnessmark.publish.views_everyday import (
    disagreements_view,
    due_view,
    parts_view,
    stock_view,
)
from witnessmark.publish.views_exceptions import exceptions_view
from witnessmark.publish.views_finding import changes_view, find_view, index_view
from witnessmark.publish.views_keeping import keeping_view
from witnessmark.publish.views_lists import about_view, decisions_view, home_view, lost_view
from witnessmark.publish.views_machine import machine_view, machines_view
from witnessmark.publish.views_rulebook import rule_view, rules_view
from witnessmark.publish.views_rules import glossary_view, scoring_view
from witnessmark.publish.views_sources import sources_view
from witnessmark.publish.views_worksheets import worksheet_view, worksheets_view

Skin = Literal["plain", "themed"]
_AS_WRITTEN = re.compile("(<pre>.*?</pre>)", re.DOTALL)
STATIC = ("mark.svg", "witnessmark.css")


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One page: its body ready for a shell, what the shell needs to know, and its last change."""

    path: str
    title: str
    description: str
    toc: tuple[Section, ...]
    body: Markup
    root: str
    head: Markup
    foot: Markup
    address: str | None
    day: date | None


def views(museum: PublicMuseum) -> Iterator[View]:
    """Every page, before it is markup."""
    yield from _single_views(museum)
    yield from (make() for _, make in _views_of_many(museum))


def _single_views(museum: PublicMuseum) -> Iterator[View]:
    """The pages there is one of each."""
    yield home_view(museum)
    yield machines_view(museum)
    yield decisions_view(museum)
    yield rules_view(museum)
    yield sources_view(museum)
    yield exceptions_view(museum)
    yield worksheets_view(museum)
    yield scoring_view(museum)
    yield likeness_view(museum)
    yield replays_view(museum)
    yield glossary_view(museum)
    yield about_view(museum)
    yield keeping_view(museum)
    yield parts_view(museum)
    yield stock_view(museum)
    yield due_view(museum)
    yield disagreements_view(museum)
    yield changes_view(museum)
    yield index_view(museum)
    yield find_view(museum)


def _views_of_many(museum: PublicMuseum) -> Iterator[tuple[str, Callable[[], View]]]:
    """The pages there may be thousands of, by path, each made when it is asked for."""
    for machine in museum.machines:
        yield f"m/{machine.id}/index.html", partial(machine_view, machine, museum)
    for decision in museum.decisions:
        yield f"d/{decision.id}/index.html", partial(decision_view, decision, museum)
    for withheld in museum.withheld:
        yield f"d/{withheld.id}/index.html", partial(withheld_view, withheld)
    for rule in museum.rules:
        yield f"rules/{rule.id}/index.html", partial(rule_view, rule, museum)
    for sheet in museum.worksheets:
        yield f"worksheets/{sheet.id}/index.html", partial(worksheet_view, sheet)


def page_makers(museum: PublicMuseum, *, skin: Skin) -> Mapping[str, Callable[[], Page]]:
    """Every page as the body of a shell, by its path, each made when it is asked for."""
    days = days_of_pages(museum)
    many = dict(_views_of_many(museum))
    many |= {view.path: partial(_same, view) for view in _single_views(museum)}

    def made(path: str) -> Page:
        view = many[path]()
        return _page(view, museum, skin, root=view.root, day=days.get(path))

    # Served for any address, so its links start at the top of the site.
    top = urlsplit(museum.web_root or "/").path
    lost = lost_view(museum)
    last = {lost.path: partial(_page, lost, museum, skin, root=top, day=None)}
    return {path: partial(made, path) for path in many} | last


def _same(view: View) -> View:
    return view


def render_pages(museum: PublicMuseum, *, skin: Skin) -> Iterator[Page]:
    """Every page as the body of a shell."""
    return (make() for make in page_makers(museum, skin=skin).values())


def page_of(view: View, museum: PublicMuseum, *, skin: Skin) -> Page:
    """One page as the body of a shell."""
    return _page(view, museum, skin, root=view.root, day=days_of_pages(museum).get(view.path))


def _page(view: View, museum: PublicMuseum, skin: Skin, *, root: str, day: date | None) -> Page:
    template = environment().get_template("page.html")
    leaf = leaf_of(skin)
    body = template.render(museum=museum, view=view, root=root, leaf=leaf, **view.values)
    if view.data_file:  # pages about machines, where words of the workshop stand
        body = explain_first_uses(body, TRADE_WORDS, page=f"{root}glossary/{leaf}")
    address = _address(view.path, museum)
    head = environment().get_template("head.html")
    told = head.render(museum=museum, view=view, root=root, address=address)
    foot = environment().get_template("foot.html").render(museum=museum, root=root, leaf=leaf)
    return Page(
        path=view.path,
        title=view.title,
        description=view.description,
        toc=view.sections,
        body=Markup(tidy(body)),  # noqa: S704  the template escaped it
        root=root,
        head=Markup(tidy(told)),  # noqa: S704  the template escaped it
        foot=Markup(tidy(foot).strip()),  # noqa: S704  the template escaped it
        address=address,
        day=day,
    )


def _address(path: str, museum: PublicMuseum) -> str | None:
    """Where the page stands for ever; none for a page that stands in for any address."""
    if museum.web_root is None or not path.endswith("index.html"):
        return None
    return museum.web_root + path.removesuffix("index.html")


def leaf_of(skin: Skin) -> str:
    """How a link to a page ends: with its file, so that it opens from disk, or with its folder."""
    return "index.html" if skin == "plain" else ""


def tidy(markup: str) -> str:
    """Markup without the templates' indents and blank lines; what is set as written stays so."""
    parts = _AS_WRITTEN.split(str(markup))
    return "".join(part if place % 2 else _close_up(part) for place, part in enumerate(parts))


def _close_up(text: str) -> str:
    """The lines of a text without margins and blanks; ends keep their break."""
    lines = [line.strip(" \t") for line in text.split("\n")]
    middle = [line for line in lines[1:-1] if line]
    return "\n".join([*lines[:1], *middle, *lines[1:][-1:]])


def plain_shell(page: Page, museum: PublicMuseum) -> str:
    """A whole page in our own shell, without any script."""
    template = environment().get_template("plain.html")
    text = template.render(page=page, museum=museum, root=page.root, leaf=leaf_of("plain"))
    return f"{tidy(text).strip()}\n"


def static_file(name: str) -> bytes:
    """One of our own files that only some sites need."""
    return (files("witnessmark.publish") / "static" / name).read_bytes()


def static_files() -> dict[str, bytes]:
    """The style sheet and the mark, by address."""
    here = files("witnessmark.publish") / "static"
    return {f"assets/{name}": (here / name).read_bytes() for name in STATIC}


def beside_makers(
    museum: PublicMuseum, paths: Iterable[str], others: OtherFormats
) -> dict[str, Maker]:
    """What stands beside the pages for programs; without a web address it is the data alone.

    `paths` are the files of the pages.
    """
    web = museum.web_root
    data = remembering_last(public_makers(museum))
    found: dict[str, Maker] = {**data, **others.makers(museum, data)}
    if web is None:
        return found
    return found | {
        "assets/share.png": share_picture,
        "feed.xml": partial(render_feed, museum, web),
        "sitemap.xml": partial(render_sitemap, museum, web, tuple(paths)),
        "robots.txt": partial(render_robots, web),
    }
