"""Searching: on one page of the themed site, so that no other loads anything for it."""

from __future__ import annotations

import gzip
import importlib.util
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from playwright.sync_api import Browser, Page, Response

from in_chromium import build_themed, served
from rendered_site import ROOT
from witnessmark.publish import mkdocs_plugin
from witnessmark.publish.finder import MOST_BY_THEME, WASM, Finder, finder_of, without_search

MOST_KILOBYTES = 150
"""Of a decision's page as a host sends it, with all it loads but photos (the design's budget)."""
SCRIPT = re.compile(r"<script(?! type=\"application/ld\+json\")")
POLICY = re.compile(r'http-equiv="Content-Security-Policy" content="([^"]*)"')


def configured() -> MkDocsConfig:
    return load_config(str(ROOT / "mkdocs.yml"), strict=True)


def test_a_small_site_is_searched_by_its_theme() -> None:
    assert Finder.THEME is finder_of(configured(), decisions=MOST_BY_THEME)


@pytest.mark.parametrize(("module", "wanted"), [("re", Finder.PAGEFIND), ("no", Finder.TOO_LARGE)])
def test_a_large_site_is_searched_by_pagefind_or_is_too_large(
    monkeypatch: pytest.MonkeyPatch,
    module: str,
    wanted: Finder,
) -> None:
    found = importlib.util.find_spec(module)
    monkeypatch.setattr(importlib.util, "find_spec", lambda _: found)
    config = configured()
    assert wanted is finder_of(config, decisions=MOST_BY_THEME + 1)
    assert not config.plugins["material/search"].config["enabled"]


def test_a_museum_that_switches_the_search_off_has_none() -> None:
    config = configured()
    config.plugins["material/search"].config["enabled"] = False
    assert Finder.NOTHING is finder_of(config, decisions=1)


def test_a_page_without_search_sees_the_theme_without_it_and_the_site_keeps_it() -> None:
    config = configured()
    assert "material/search" not in without_search(config).plugins
    assert "material/search" in config.plugins


@pytest.fixture(scope="module")
def by_theme(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Path, str]]:
    folder = build_themed(tmp_path_factory.mktemp("by-theme") / "site")
    with served(folder) as address:
        yield folder, address


@pytest.fixture(scope="module")
def by_pagefind(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Path, str]]:
    """The demo's site as if it were too large for the theme."""
    folder = built_large(tmp_path_factory.mktemp("by-pagefind"))
    with served(folder) as address:
        yield folder, address


def built_large(place: Path) -> Path:
    """The demo's site where the theme may search no decision at all."""
    with pytest.MonkeyPatch.context() as patch:

        def large(config: MkDocsConfig, *, decisions: int) -> Finder:
            return finder_of(config, decisions=decisions, most=0)

        patch.setattr(mkdocs_plugin, "finder_of", large)
        return build_themed(place / "site")


def loaded(page: Page, address: str) -> list[Response]:
    """Every answer that a page asked for."""
    answers: list[Response] = []
    page.on("response", lambda answer: answers.append(answer))  # noqa: PLW0108  no builtin here
    page.goto(address)
    page.wait_for_load_state("networkidle")
    return answers


@pytest.mark.browser
def test_no_page_but_the_one_for_searching_holds_a_script(by_theme: tuple[Path, str]) -> None:
    pages = {path: path.read_text("utf-8") for path in by_theme[0].rglob("*.html")}
    holding = [path.relative_to(by_theme[0]) for path in pages if SCRIPT.search(pages[path])]
    allowing = [
        path.relative_to(by_theme[0])
        for path, text in pages.items()
        if "script-src 'none'" not in POLICY.findall(text)[0]
    ]
    assert [[Path("search/index.html")]] * 2 == [holding, allowing]


@pytest.mark.browser
def test_every_page_but_the_one_for_searching_leads_to_it(by_theme: tuple[Path, str]) -> None:
    lost = []
    for path in by_theme[0].rglob("*.html"):
        text = path.read_text("utf-8")
        if text.count('wm-find" href="') != 1 or 'role="dialog"' in text:
            lost.append(path.relative_to(by_theme[0]))
    assert [Path("search/index.html")] == lost


@pytest.mark.browser
def test_a_decisions_page_loads_no_script_and_little_else(
    by_theme: tuple[Path, str], browser: Browser
) -> None:
    page = browser.new_page()
    answers = loaded(page, f"{by_theme[1]}/d/2024-003/")
    kinds = {answer.url: answer.request.resource_type for answer in answers}
    assert [] == [url for url, kind in kinds.items() if kind in {"script", "fetch", "xhr"}]
    texts = [a.body() for a in answers if kinds[a.url] != "image" or a.url.endswith(".svg")]
    page.close()
    sent = sum(len(gzip.compress(text)) for text in texts) / 1024
    assert sent <= MOST_KILOBYTES, f"{sent:.0f} KB sent, {sum(map(len, texts)) / 1024:.0f} KB plain"


@pytest.mark.browser
def test_a_word_is_found_by_the_themes_search(by_theme: tuple[Path, str], browser: Browser) -> None:
    page = browser.new_page()
    loaded(page, f"{by_theme[1]}/search/")
    page.click("input[name=query]")
    page.keyboard.type("roller bearings")
    first = page.locator(".md-search-result__link").first
    first.wait_for()
    first.click()
    page.wait_for_url("**/d/2024-003/**")
    page.close()


@pytest.mark.browser
def test_a_word_is_found_by_pagefind(by_pagefind: tuple[Path, str], browser: Browser) -> None:
    page = browser.new_page()
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    loaded(page, f"{by_pagefind[1]}/search/")
    page.fill(".pagefind-ui__search-input", "roller bearings")
    page.get_by_role("link", name="Why we made new bronze bushes").first.click()
    page.wait_for_url("**/d/2024-003/**")
    page.close()
    assert [] == [text for text in said if "Content Security Policy" in text]


@pytest.mark.browser
def test_only_the_page_for_searching_may_run_compiled_code(by_pagefind: tuple[Path, str]) -> None:
    policies = {
        path.relative_to(by_pagefind[0]).as_posix(): POLICY.findall(path.read_text("utf-8"))
        for path in by_pagefind[0].rglob("*.html")
    }
    assert ["search/index.html"] == [path for path, said in policies.items() if WASM in said[0]]
