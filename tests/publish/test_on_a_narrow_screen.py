"""Every kind of page, in both skins: width, size of targets, spacing, script, requests, paper."""

from __future__ import annotations

import re
from io import BytesIO
from typing import Any
from unicodedata import normalize

import pytest
from playwright.sync_api import Request
from pypdf import PdfReader

from in_chromium import Looked, open_all
from rendered_site import demo

pytestmark = [pytest.mark.browser, pytest.mark.filterwarnings("ignore::DeprecationWarning")]

WIDTHS = "[document.documentElement.scrollWidth, document.documentElement.clientWidth]"
SMALL = """
TARGETS = "a[href], button, summary, input, select, [role=button]";
[...document.querySelectorAll(TARGETS)].filter(e => {
  const r = e.getBoundingClientRect();
  const seen = e.checkVisibility({visibilityProperty: true}) && r.width && r.height && r.right > 0;
  const inText = e.matches('a') && getComputedStyle(e).display === 'inline';
  return seen && !inText && (r.width < 24 || r.height < 24);
}).map(e => e.outerHTML.slice(0, 120))
"""
SPACED = """
for (const e of document.querySelectorAll('body, body *')) {
  if (e.closest('svg')) continue;
  e.style.lineHeight = '1.5'; e.style.letterSpacing = '.12em'; e.style.wordSpacing = '.16em';
}
for (const e of document.querySelectorAll('p')) e.style.marginBottom = '2em';
"""
CUT = """
[...document.querySelectorAll('.wm p, .wm li, .wm dd, .wm h1, .wm h2, .wm h3, .wm td')].filter(e =>
  e.scrollHeight > e.clientHeight + 2 && getComputedStyle(e).overflowY === 'hidden'
).map(e => e.outerHTML.slice(0, 120))
"""


@pytest.mark.parametrize("width", [320, 390, 1280])
def test_no_page_scrolls_sideways(site: Looked, width: int) -> None:
    # WCAG 2.2, 1.4.10: 320 px; a table may scroll in its own box.
    wide = []
    for path in site.paths:
        page = site.at(path, width=width)
        open_all(page)
        whole, seen = page.evaluate(WIDTHS)
        wide += [(path, whole)] if whole > seen else []
    assert [] == wide


def test_targets_outside_text_are_large_enough(site: Looked) -> None:
    # WCAG 2.2, 2.5.8: 24 by 24 px; links within a sentence are exempt.
    small = {}
    for path in site.paths:
        page = site.at(path, width=320)
        open_all(page)
        small[path] = page.evaluate(SMALL)
    assert {} == {path: found for path, found in small.items() if found}


def test_text_may_be_set_wider_without_loss(site: Looked) -> None:
    # WCAG 2.2, 1.4.12: line height 1.5, after paragraphs 2, between letters 0.12, words 0.16.
    lost = {}
    for path in site.paths:
        page = site.at(path, width=320)
        page.evaluate(SPACED)
        whole, seen = page.evaluate(WIDTHS)
        lost[path] = page.evaluate(CUT) + ([f"{whole} px wide"] if whole > seen else [])
    assert {} == {path: found for path, found in lost.items() if found}


def test_every_request_stays_at_home_and_nothing_is_blocked(site: Looked) -> None:
    asked: list[str] = []
    said: list[str] = []
    context = site.browser.new_context()
    page = context.new_page()
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    for path in site.paths:
        page.goto(site.link(path), wait_until="networkidle" if path == "index.html" else "load")
    context.close()
    assert len(asked) > len(site.paths)
    outside = [url for url in asked if not url.startswith((f"{site.address}/", "data:", "blob:"))]
    assert ([], []) == (outside, said)


def test_no_page_of_the_plain_skin_asks_for_a_script(plain_site: Looked) -> None:
    kinds = []
    context = plain_site.browser.new_context()
    page = context.new_page()

    def note(request: Request) -> None:
        kinds.append(request.resource_type)

    page.on("request", note)
    for path in plain_site.paths:
        page.goto(plain_site.link(path))
    context.close()
    assert ({"document", "stylesheet"}, set()) == (
        {"document", "stylesheet"} & set(kinds),
        {"script", "fetch", "xhr", "websocket", "font", "media"} & set(kinds),
    )


def test_a_page_can_be_read_without_script(site: Looked) -> None:
    context = site.browser.new_context(java_script_enabled=False)
    page = context.new_page()
    for path in site.paths:
        page.goto(site.link(path))
        heading = page.locator("h1").first
        shown = re.search(r"<h1[^>]*>(.*?)</h1>", str(demo(site.skin)[path]), re.DOTALL)
        assert shown
        assert (path, True) == (path, heading.is_visible())
        sections = page.locator("article.wm section > h2, article.wm h2")
        assert all(one.is_visible() for one in sections.all())
    context.close()


@pytest.mark.parametrize("path", ["d/2024-003/index.html", "d/2022-001/index.html"])
def test_verdict_and_price_stand_on_the_first_screen(plain_site: Looked, path: str) -> None:
    page = plain_site.at(path)
    box = page.evaluate("document.querySelector('.wm-cost .wm-label').getBoundingClientRect()")
    assert box["bottom"] <= 844


def test_links_of_the_menu_are_large_enough_for_a_thumb(plain_site: Looked) -> None:
    # WCAG 2.2, 2.5.5 (AAA): 44 by 44 px.
    page = plain_site.at("index.html")
    open_all(page)
    sizes = page.evaluate(
        "[...document.querySelectorAll('header a')].map(a => {"
        "const r = a.getBoundingClientRect(); return [r.width, r.height]})"
    )
    assert sizes
    assert all(width >= 44 and height >= 44 for width, height in sizes)


CLOSED = """
[...document.querySelectorAll('details:not(.wm-contents, .wm-menu) > :not(summary)')].filter(e =>
  !e.checkVisibility({contentVisibilityAuto: true}) || !e.getBoundingClientRect().height
).map(e => e.outerHTML.slice(0, 120))
"""
WIDER = """
[...document.querySelectorAll('.wm table, .wm svg, .wm img, .wm pre')].filter(e =>
  e.checkVisibility() && e.getBoundingClientRect().right > document.documentElement.clientWidth + 1
).map(e => e.outerHTML.slice(0, 120))
"""
PAPER = 718  # CSS px: A4 (210 mm, ISO 216) less 10 mm on either side, at 96 px to the inch


def test_on_paper_everything_is_open_and_nothing_is_cut_off(site: Looked) -> None:
    faults = {}
    for path in site.paths:
        page = site.at(path, width=PAPER, media="print")
        faults[path] = page.evaluate(CLOSED) + page.evaluate(WIDER)
    assert {} == {path: found for path, found in faults.items() if found}


def test_a_printed_page_holds_what_was_folded_away(site: Looked) -> None:
    page = site.at("d/2024-003/index.html", media="print")
    printed: Any = page.pdf(format="A4")
    sheets = " ".join(sheet.extract_text() for sheet in PdfReader(BytesIO(printed)).pages)
    text = normalize("NFKC", sheets)  # the font joins "fi" into one sign
    folded = page.locator(".wm details:not(.wm-contents)").first.evaluate("d => d.textContent")
    words = re.findall(r"[A-Za-z]{4,}", folded)
    assert words
    assert [] == [word for word in words if word not in text]
