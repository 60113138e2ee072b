"""The kinds of page a site has, and pages that between them show everything the site can show.

Kinds are found, not listed: a page that is added tomorrow is looked at tomorrow.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

_SHOWN = re.compile(r'<(\w+)[^>]*?\sclass="([^"]*)"|<section aria-labelledby="([\w-]+)"')
_ONE_OF_MANY = re.compile(r"^(d|m|rules|worksheets|[\w-]+)/[^/]+/")


def kind_of(path: str) -> str:
    """The kind of a page by its address.

    >>> kind_of("index.html"), kind_of("d/2024-003/index.html"), kind_of("about/index.html")
    ('home', 'd', 'about')
    >>> kind_of("rules/index.html"), kind_of("rules/x/index.html"), kind_of("404.html")
    ('rules', 'rules-one', '404')
    """
    folders = path.split("/")[:-1]
    if not folders:
        return "home" if path == "index.html" else path.removesuffix(".html")
    if len(folders) == 1:
        return folders[0]
    return folders[0] if len(folders[0]) == 1 else f"{folders[0]}-one"


def shown_on(text: str) -> frozenset[str]:
    """What a page shows: its sections, and elements by class."""
    found = set()
    for tag, classes, section in _SHOWN.findall(text):
        found |= {f"{tag}.{name}" for name in classes.split()} if tag else {f"#{section}"}
    return frozenset(found)


def by_kind(pages: Mapping[str, str]) -> dict[str, list[str]]:
    """Addresses by kind, in order."""
    kinds: dict[str, list[str]] = {}
    for path in sorted(pages):
        kinds.setdefault(kind_of(path), []).append(path)
    return kinds


def one_of_each(pages: Mapping[str, str]) -> list[str]:
    """The longest page of each kind, and further ones until all that the kind shows is seen."""
    chosen: list[str] = []
    for paths in by_kind(pages).values():
        shown = {path: shown_on(pages[path]) for path in paths}
        left = set().union(*shown.values())
        while left or not chosen or kind_of(chosen[-1]) != kind_of(paths[0]):
            best = max(paths, key=lambda path: (len(shown[path] & left), len(pages[path]), path))
            chosen.append(best)
            left -= shown[best]
    return chosen
