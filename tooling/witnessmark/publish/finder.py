"""How a themed site is searched: by the theme while that is light, by pagefind beyond, or not."""

from __future__ import annotations

import copy
import importlib.util
import subprocess
import sys
from enum import Enum
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig

from witnessmark.errors import WitnessmarkError

THEME_SEARCH = "material/search"
MOST_BY_THEME = 150
"""Decisions; the theme's index is read whole before the first answer, and each adds about 18 KB, a
fifth of it when sent compressed (measured on the demo)."""

WASM = "'wasm-unsafe-eval'"
"""What the policy of the search page must allow, since pagefind runs compiled code; no text can."""

TOO_LARGE = (
    "The site is too large for the theme's own search, so it has none; it can be browsed. "
    "For a search: pip install 'witnessmark[search]', then publish again."
)


class Finder(Enum):
    """What answers on the page for searching."""

    THEME = "theme"
    PAGEFIND = "pagefind"
    TOO_LARGE = "too-large"
    NOTHING = "nothing"


def finder_of(config: MkDocsConfig, *, decisions: int, most: int = MOST_BY_THEME) -> Finder:
    """What a site of so many decisions is searched by; a museum may leave the search out."""
    if THEME_SEARCH not in config.plugins or not config.plugins[THEME_SEARCH].config["enabled"]:
        return Finder.NOTHING
    if decisions <= most:
        return Finder.THEME
    config.plugins[THEME_SEARCH].config["enabled"] = False
    return Finder.PAGEFIND if has_pagefind() else Finder.TOO_LARGE


def has_pagefind() -> bool:
    """True where pagefind is installed."""
    return importlib.util.find_spec("pagefind") is not None


def without_search(config: MkDocsConfig) -> MkDocsConfig:
    """The same to a page that has no search: the theme then brings neither dialogue nor index."""
    lean = copy.copy(config)
    # A plain mapping: a copy of the collection would have every plugin called twice.
    others = {name: plugin for name, plugin in config.plugins.items() if name != THEME_SEARCH}
    lean["plugins"] = others
    return lean


def index_by_pagefind(site: Path) -> None:
    """Let pagefind read the finished pages, less what is folded away, and write its files.

    Raises:
        WitnessmarkError: pagefind could not.
    """
    command = [sys.executable, "-m", "pagefind", "--site", str(site), "--silent"]
    command += ["--root-selector", "article.wm", "--exclude-selectors", "details"]
    done = subprocess.run(  # noqa: S603  our own words and a folder
        command, capture_output=True, text=True, check=False
    )
    if done.returncode:
        raise WitnessmarkError(
            f"pagefind could not index the site: {done.stderr.strip() or done.stdout.strip()}.",
            remedy="Install it anew: pip install 'witnessmark[search]'.",
        )
