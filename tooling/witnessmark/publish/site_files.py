"""The files of a site, each made when it is asked for, so that a large site need not be held."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial

Content = str | bytes
Maker = Callable[[], Content]


class SiteFiles(Mapping[str, Content]):
    """Every file by its path in the site, in order; asked twice, a file is made twice."""

    def __init__(self, makers: Mapping[str, Maker]) -> None:
        self._makers = dict(sorted(makers.items()))

    def __getitem__(self, path: str) -> Content:
        """The file at a path, made now."""
        return self._makers[path]()

    def __iter__(self) -> Iterator[str]:
        """The paths in order."""
        return iter(self._makers)

    def __len__(self) -> int:
        """How many files there are."""
        return len(self._makers)


def remembering_last(makers: Mapping[str, Callable[[], bytes]]) -> dict[str, Callable[[], bytes]]:
    """The same makers, of which the last file made is made once though asked for twice."""
    last: dict[str, bytes] = {}

    def made(path: str) -> bytes:
        if path not in last:
            last.clear()
            last[path] = makers[path]()
        return last[path]

    return {path: partial(made, path) for path in makers}


def always(content: Content) -> Maker:
    """A maker of what is at hand."""
    return lambda: content
