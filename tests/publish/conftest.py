"""One browser a process, and both skins served, for every test that looks at pages."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser

from in_chromium import SKINS, Looked, build_themed, opened_browser, served
from page_kinds import one_of_each
from rendered_site import demo, pages
from witnessmark.publish.pages import Skin
from witnessmark.repository.site import write_site


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    with opened_browser() as opened:
        yield opened


@pytest.fixture(scope="session", params=SKINS)
def site(
    request: pytest.FixtureRequest, browser: Browser, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Looked]:
    """The demo museum's site, once in each skin; `paths` show between them all there is to see."""
    skin: Skin = request.param
    folder = tmp_path_factory.mktemp(f"looked-{skin}") / "site"
    if skin == "plain":
        write_site(demo(), folder)
    else:
        build_themed(folder)
    with served(folder) as address:
        yield Looked(skin, folder, address, browser, one_of_each(pages(demo(skin))))


@pytest.fixture(scope="session")
def plain_site(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Looked]:
    """The plain skin alone."""
    folder = tmp_path_factory.mktemp("looked-plain-alone") / "site"
    write_site(demo(), folder)
    with served(folder) as address:
        yield Looked("plain", folder, address, browser, one_of_each(pages(demo())))
