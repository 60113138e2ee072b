"""Files beside the pages in formats that other packages write: a calendar, linked data."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial

from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.public_json import decision_json_path

CALENDAR = "due.ics"
LINKED = "decision.jsonld"


@dataclass(frozen=True, slots=True)
class OtherFormats:
    """What is at hand; pages lead only to what is.

    `linked` makes linked data from the public data of one decision and the address of the site; it
    is asked only where the museum has a web address, since linked data names things by it.
    """

    calendar: bytes | None = None
    linked: Callable[[bytes, str], bytes] | None = None

    @property
    def names(self) -> frozenset[str]:
        """What pages may lead to."""
        found = {CALENDAR: self.calendar, LINKED: self.linked}
        return frozenset(name for name, there in found.items() if there is not None)

    def makers(
        self, museum: PublicMuseum, data: Mapping[str, Callable[[], bytes]]
    ) -> dict[str, Callable[[], bytes]]:
        """What makes each file, by its path in the site; `data` makes the public data."""
        found: dict[str, Callable[[], bytes]] = {}
        if self.calendar is not None:
            found[CALENDAR] = partial(bytes, self.calendar)
        linked, web = self.linked, museum.web_root
        if linked is None or web is None:
            return found

        def of(name: str) -> bytes:
            return linked(data[decision_json_path(name)](), web)

        return found | {f"d/{d.id}/{LINKED}": partial(of, d.id) for d in museum.decisions}


NO_OTHERS = OtherFormats()
