"""Chromium for the tests: one browser a process, sites served from memory, each under a port."""

from __future__ import annotations

import os
import shutil
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from playwright.sync_api import Browser, Page, sync_playwright

from rendered_site import ROOT
from witnessmark.publish.pages import Skin

SKINS: tuple[Skin, ...] = ("plain", "themed")
FLAGS = ("--no-sandbox", "--disable-gpu", "--disable-background-networking")


def found_chromium() -> str | None:
    """Where Debian's Chromium is, or another that CHROME_PATH names."""
    return os.environ.get("CHROME_PATH") or shutil.which("chromium")


@contextmanager
def opened_browser() -> Iterator[Browser]:
    """A browser; on a build server a missing one is a failure, elsewhere a reason to skip."""
    chromium = found_chromium()
    if chromium is None:
        if os.environ.get("CI"):
            pytest.fail("Chromium is missing; .ci/chromium installs it")
        pytest.skip("Chromium is not installed here")
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=chromium, args=list(FLAGS))
        yield browser
        browser.close()


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None:  # noqa: A002  the base's own name
        """Say nothing."""


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """The address of a folder served on this machine alone."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(folder)))
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}"
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


def build_themed(target: Path) -> Path:
    """The demo museum's site in its theme."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("NO_MKDOCS_2_WARNING", "1")
        config = load_config(str(ROOT / "mkdocs.yml"), site_dir=str(target), strict=True)
        config.plugins.run_event("startup", command="build", dirty=False)
        build(config)
    return target


@dataclass
class Looked:
    """One skin's site under an address, with one page kept open and used again."""

    skin: Skin
    folder: Path
    address: str
    browser: Browser
    paths: list[str] = field(default_factory=list)
    page: Page | None = None

    def at(self, path: str, *, width: int = 390, height: int = 844, **media: Any) -> Page:
        """The page at a path, in a window of a size; media as Playwright names them."""
        if self.page is None:
            self.page = self.browser.new_page()
        self.page.set_viewport_size({"width": width, "height": height})
        plain = {"color_scheme": "light", "forced_colors": "none", "media": "screen"}
        self.page.emulate_media(**{**plain, **media})
        self.page.goto(self.link(path))
        return self.page

    def link(self, path: str) -> str:
        return f"{self.address}/{path.removesuffix('index.html')}"


def open_all(page: Page) -> None:
    """Open everything that opens."""
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
