"""Chromium for the tests: one browser a process, sites served from memory, each under a port."""

from __future__ import annotations

import os
import shutil
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from playwright.sync_api import Browser, sync_playwright

from rendered_site import ROOT

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
