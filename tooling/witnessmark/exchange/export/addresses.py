"""What each thing is called in linked data: an address of the museum's own site, for ever.

A page's address is the record; what the page is about is the address with a mark behind `#`.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from urllib.parse import quote

from witnessmark.errors import WitnessmarkError
from witnessmark.exchange.export.published import Published

TERMS = "https://witnessmark.example/terms#"
"""Our own words. RFC 2606 keeps this domain from ever being somebody's."""


@dataclass(frozen=True, slots=True)
class Addresses:
    """The addresses of one museum; `web` ends in a stroke."""

    web: str

    @property
    def museum(self) -> str:
        """The museum itself."""
        return f"{self.web}#museum"

    @property
    def on_show(self) -> str:
        """Where visitors can see what came off machines."""
        return f"{self.web}#on-show"

    def person(self, said: str) -> str:
        """Somebody as the public knows them: the same words are the same person."""
        plain = unicodedata.normalize("NFKD", said).casefold()
        slug = re.sub(r"[^a-z0-9]+", "-", plain.encode("ascii", "ignore").decode()).strip("-")
        return f"{self.web}about/#person-{slug or quote(said, safe='')}"

    def machine(self, name: str) -> str:
        """A machine."""
        return f"{self.web}m/{name}/#machine"

    def part(self, machine: str, address: str) -> str:
        """A part as a place in its machine, whatever piece sits there."""
        return f"{self.web}m/{machine}/#part-{address}"

    def finding(self, machine: str, name: str) -> str:
        """A finding."""
        return f"{self.web}m/{machine}/#finding-{name}"

    def labelled(self, label: str) -> str:
        """A piece by its label, which is compared without regard to case."""
        return f"{self.web}parts/#{label.upper()}"

    def record(self, decision: str) -> str:
        """The record of a decision, which is its page."""
        return f"{self.web}d/{decision}/"

    def within(self, decision: str, mark: str) -> str:
        """Something that a decision's record tells of."""
        return f"{self.web}d/{decision}/#{mark}"

    def decision(self, name: str) -> str:
        """The act of deciding."""
        return self.within(name, "decision")

    def option(self, decision: str, name: str) -> str:
        """One option."""
        return self.within(decision, f"option-{name}")

    def rule(self, name: str) -> str:
        """A rule."""
        return f"{self.web}rules/{name}/#rule"

    def policy(self, name: str) -> str:
        """A policy."""
        return f"{self.web}how-we-score/#policy-{name}"


def addresses_of(published: Published) -> Addresses:
    """The addresses of a museum.

    Raises:
        WitnessmarkError: it has no web address, so nothing could be named for good.
    """
    web = published.museum.web
    if web is None:
        raise WitnessmarkError(
            f"{published.museum.name} has no web address, so linked data could name nothing.",
            remedy="Give museum.yml the `web` address at which the site stands, or use csv.",
        )
    return Addresses(f"{web.partition('#')[0].rstrip('/')}/")
