"""Files beside the pages in formats that other packages write: a calendar, linked data."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

CALENDAR = "due.ics"
LINKED = "decision.jsonld"


@dataclass(frozen=True, slots=True)
class OtherFormats:
    """What is at hand; pages lead only to what is.

    `linked` makes from the public data, by its path, one file of linked data a decision; it is
    asked only where the museum has a web address, since linked data names things by it.
    """

    calendar: bytes | None = None
    linked: Callable[[Mapping[str, bytes]], Mapping[str, bytes]] | None = None

    @property
    def names(self) -> frozenset[str]:
        """What pages may lead to."""
        found = {CALENDAR: self.calendar, LINKED: self.linked}
        return frozenset(name for name, there in found.items() if there is not None)

    def files(self, data: Mapping[str, bytes], *, web: str | None) -> dict[str, bytes]:
        """The files by path; `data` is the public data of the same site."""
        found = {} if self.calendar is None else {CALENDAR: self.calendar}
        return {**found, **self.linked(data)} if self.linked and web else found


NO_OTHERS = OtherFormats()
