"""What a page is before it is markup: its address, its title, its sections and their values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """One section of a page: its anchor, its heading and the template that fills it."""

    id: str
    title: str
    template: str


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """One page; `path` is its file on the site, which never changes and holds no title.

    `facts` is what the page says about itself to programs, in the terms of schema.org;
    `data_file` holds the same data for programs.
    """

    path: str
    title: str
    description: str
    lead: str
    sections: tuple[Section, ...] = ()
    values: Mapping[str, object] = field(default_factory=dict)
    has_contents: bool = False
    facts: Mapping[str, object] | None = None
    data_file: str | None = None

    @property
    def root(self) -> str:
        """The way back to the front page."""
        return "../" * self.path.count("/")
