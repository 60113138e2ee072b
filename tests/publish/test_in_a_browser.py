"""What only a browser can say: the first screen, reflow, focus, contrast, and no request outside.

The checker is axe-core (rules for WCAG 2.2 A and AA); 320 px is WCAG 2.2, 1.4.10.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, sync_playwright

from rendered_site import demo
from witnessmark.repository.site import write_site

pytestmark = pytest.mark.browser
CHROMIUM = Path("/usr/bin/chromium")
LOOKED_AT = (
    "index.html",
    "d/2024-003/index.html",
    "d/2022-001/index.html",
    "m/quay-crane/index.html",
    "how-we-score/index.html",
    "how-alike-we-judge/index.html",
    "other-policies/index.html",
    "rules/index.html",
    "rules/removed-part-is-kept/index.html",
    "exceptions/index.html",
    "where-our-rules-come-from/index.html",
    "worksheets/index.html",
    "worksheets/coil-spring/index.html",
    "worksheets/manual-lift/index.html",
    "decisions/index.html",
)
FLAGS = ("--no-sandbox", "--disable-gpu", "--disable-background-networking")


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    target = tmp_path_factory.mktemp("browser") / "site"
    write_site(demo(), target)
    return target


def _without_chromium() -> None:
    """On a build server a missing browser is a failure, elsewhere a reason to skip."""
    if os.environ.get("CI"):
        pytest.fail("Chromium is missing; .ci/chromium installs it")
    pytest.skip("Chromium is not installed here")


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    if not CHROMIUM.exists():
        _without_chromium()
    with sync_playwright() as play:
        opened = play.chromium.launch(executable_path=str(CHROMIUM), args=list(FLAGS))
        yield opened
        opened.close()


def opened(browser: Browser, address: Path, **how: Any) -> Page:
    page = browser.new_page(**how)
    page.goto(address.as_uri())
    return page


def open_all(page: Page) -> None:
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [320, 1280])
def test_axe_finds_nothing(browser: Browser, site: Path, width: int, scheme: Any) -> None:
    found = {}
    for name in LOOKED_AT:
        how = {"viewport": {"width": width, "height": 800}, "color_scheme": scheme}
        page = opened(browser, site / name, **how)
        open_all(page)
        violations = Axe().run(page).response["violations"]
        found[name] = [(v["id"], v["nodes"][0]["html"][:200]) for v in violations]
        page.close()
    assert {} == {name: faults for name, faults in found.items() if faults}


def test_axe_finds_nothing_in_forced_colours(browser: Browser, site: Path) -> None:
    how = {"viewport": {"width": 390, "height": 800}, "forced_colors": "active"}
    page = opened(browser, site / "d/2024-003/index.html", **how)
    open_all(page)
    assert [] == [v["id"] for v in Axe().run(page).response["violations"]]


@pytest.mark.parametrize("width", [320, 390, 1280])
def test_no_page_scrolls_sideways(browser: Browser, site: Path, width: int) -> None:
    wide = []
    for name in LOOKED_AT:
        page = opened(browser, site / name, viewport={"width": width, "height": 800})
        open_all(page)
        sizes = page.evaluate(
            "[document.documentElement.scrollWidth, document.documentElement.clientWidth]"
        )
        wide += [name] if sizes[0] > sizes[1] else []
        page.close()
    assert [] == wide


@pytest.mark.parametrize("name", ["d/2024-003/index.html", "d/2022-001/index.html"])
def test_verdict_and_price_stand_on_the_first_screen(
    browser: Browser, site: Path, name: str
) -> None:
    page = opened(browser, site / name, viewport={"width": 390, "height": 844})
    bottom = page.evaluate("document.querySelector('.wm-cost .wm-label').getBoundingClientRect()")
    assert bottom["bottom"] <= 844


def test_links_of_the_menu_are_large_enough_for_a_thumb(browser: Browser, site: Path) -> None:
    page = opened(browser, site / "index.html", viewport={"width": 390, "height": 844})
    open_all(page)
    sizes = page.evaluate(
        "[...document.querySelectorAll('header a')].map(a => {"
        "const r = a.getBoundingClientRect(); return [r.width, r.height]})"
    )
    assert all(width >= 44 and height >= 44 for width, height in sizes)


def test_the_first_tab_offers_to_skip_the_menu(browser: Browser, site: Path) -> None:
    page = opened(browser, site / "index.html")
    page.keyboard.press("Tab")
    seen = page.evaluate(
        "(() => {const r = document.activeElement.getBoundingClientRect();"
        "return [document.activeElement.className, r.left >= 0]})()"
    )
    assert ["wm-skip", True] == seen


def test_focus_is_drawn_three_pixels_wide(browser: Browser, site: Path) -> None:
    page = opened(browser, site / "d/2024-003/index.html")
    for _ in range(3):
        page.keyboard.press("Tab")
    width = page.evaluate("getComputedStyle(document.activeElement).outlineWidth")
    assert width == "3px"


def test_nothing_is_asked_of_anybody_else_and_nothing_is_blocked(
    browser: Browser, site: Path
) -> None:
    page = browser.new_page()
    asked: list[str] = []
    said: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda message: said.append(message.text))
    page.goto((site / "d/2024-003/index.html").as_uri())
    assert asked
    assert ([], []) == ([url for url in asked if not url.startswith("file:")], said)


def test_text_in_drawings_can_be_read_in_the_dark(browser: Browser, site: Path) -> None:
    # axe gives no verdict on text in SVG, so its colour and its paper are asked for.
    page = opened(browser, site / "d/2024-003/index.html", color_scheme="dark")
    pairs = page.evaluate(
        "[...document.querySelectorAll('svg.wm-drawing text')].map(t => ["
        "getComputedStyle(t).fill, getComputedStyle(t.closest('svg')).backgroundColor])"
    )
    assert pairs
    allowed = {("rgb(26, 29, 33)", "rgb(247, 244, 237)"), ("rgb(75, 81, 89)", "rgb(247, 244, 237)")}
    assert set() == {tuple(pair) for pair in pairs} - allowed


def test_text_on_the_map_is_eleven_pixels_tall_on_the_narrowest_phone(
    browser: Browser, site: Path
) -> None:
    page = opened(browser, site / "d/2022-001/index.html", viewport={"width": 320, "height": 800})
    sizes = page.evaluate(
        "[...document.querySelectorAll('svg.wm-map text')].map(t => "
        "parseFloat(getComputedStyle(t).fontSize) * t.getScreenCTM().a)"
    )
    assert sizes
    assert [] == [size for size in sizes if size < 11]
