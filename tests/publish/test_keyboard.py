"""Every kind of page, in both skins, walked with the Tab key alone.

WCAG 2.2: 2.1.2 no trap, 2.4.3 order, 2.4.7 focus visible, 2.4.11 focus not hidden.
"""

from __future__ import annotations

import contextlib
from typing import Any

import pytest
from playwright.sync_api import Page, TimeoutError  # noqa: A004  its own name

from in_chromium import Looked, open_all

pytestmark = [pytest.mark.browser, pytest.mark.filterwarnings("ignore::DeprecationWarning")]

STOPS = """
() => {
  window.stops = [...document.querySelectorAll(
    'a[href], button, summary, input, select, textarea, [tabindex]:not([tabindex="-1"])'
  )].filter(e => e.checkVisibility({visibilityProperty: true}) && !e.disabled && e.tabIndex >= 0);
  return [stops.length, document.querySelectorAll('[tabindex]').length && Math.max(
    ...[...document.querySelectorAll('[tabindex]')].map(e => e.tabIndex))];
}
"""
# Where the focus is: its place in the order of the page, whether it is drawn, and whether some
# point of it is to be seen, that is, lies on top of all else.
HERE = """
() => {
  const e = document.activeElement;
  if (!e || e === document.body) return null;
  const r = [...e.getClientRects()][0] || e.getBoundingClientRect();
  const points = [[.5, .5], [.1, .5], [.9, .5], [.5, .1], [.5, .9]].map(
    ([x, y]) => document.elementFromPoint(r.left + r.width * x, r.top + r.height * y));
  const seen = points.some(p => p && (p === e || e.contains(p) || p.contains(e)));
  const drawn = getComputedStyle(e);
  const ring = drawn.outlineStyle !== 'none' && parseFloat(drawn.outlineWidth) >= 2;
  return [stops.indexOf(e), ring, seen, e.outerHTML.slice(0, 100)];
}
"""
MOST = 70
"""Stops walked on one page; lists beyond it hold more of the same links."""


def walk(site: Looked, path: str, **media: Any) -> tuple[int, list[Any]]:
    """How many stops a page has, and each as the Tab key came to it."""
    page = site.at(path, **media)
    open_all(page)
    count, most_tabindex = page.evaluate(STOPS)
    assert most_tabindex <= 0
    page.evaluate("document.activeElement.blur()")
    found = []
    for _ in range(min(count, MOST)):
        page.keyboard.press("Tab")
        found.append(_settled(page))
    return count, found


def _settled(page: Page) -> Any:
    """Where the focus is; the theme moves its search box into view a moment after it has it."""
    here = page.evaluate(HERE)
    if here and not here[2]:
        with contextlib.suppress(TimeoutError):
            page.wait_for_function(f"() => ({HERE.strip()})()[2]", timeout=3000)
        here = page.evaluate(HERE)
    return here


@pytest.mark.parametrize("half", [0, 1])
def test_every_stop_is_reached_in_order_drawn_and_seen(site: Looked, half: int) -> None:
    faults: dict[str, Any] = {}
    for path in site.paths[half::2]:
        _, found = walk(site, path)
        lost = [stop for stop in found if stop is None or not (stop[1] and stop[2])]
        order = [stop[0] for stop in found if stop]
        if lost or order != sorted(set(order)):
            faults[path] = lost or order
    assert {} == faults


def test_the_walk_leaves_the_page_at_its_end(site: Looked) -> None:
    count, found = walk(site, "about/index.html", width=1280)
    assert count < MOST
    assert None not in found
    page = site.page
    assert page is not None
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement === document.body || stops.indexOf("
                         "document.activeElement) === 0")  # fmt: skip


def test_the_first_tab_offers_to_skip_to_the_content(site: Looked) -> None:
    page = site.at("d/2024-003/index.html")
    page.keyboard.press("Tab")
    said, left, top = page.evaluate(
        "(() => {const e = document.activeElement, r = e.getBoundingClientRect();"
        "return [e.textContent.trim(), r.left, r.top]})()"
    )
    assert said.startswith("Skip to")
    assert (left >= 0, top >= 0) == (True, True)


def test_skipping_leads_to_the_content(plain_site: Looked) -> None:
    page = plain_site.at("d/2024-003/index.html")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    assert page.evaluate("document.querySelector('main').contains(document.activeElement)")


def test_a_summary_opens_by_the_enter_key(plain_site: Looked) -> None:
    page = plain_site.at("d/2024-003/index.html")
    page.locator(".wm-contents summary").focus()
    page.keyboard.press("Enter")
    assert page.locator(".wm-contents a").first.is_visible()
