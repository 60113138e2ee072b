"""One side of a review: a museum at one moment, read, checked and worked out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from witnessmark.exchange.agreements import Agreement, agreements_of
from witnessmark.model.library import (
    DecisionFile,
    Library,
    Reading,
    assemble,
    read_afresh,
    reading_again,
)
from witnessmark.repository.disk import listed
from witnessmark.repository.footing import Footing
from witnessmark.repository.versions import Version
from witnessmark.rules.check import Found, check_folder, put_together
from witnessmark.rules.checked import Checked
from witnessmark.rules.outside import Outside
from witnessmark.rules.rulebook import RuleBook
from witnessmark.weighing.case import Case


@dataclass(frozen=True, eq=False)
class Side:
    """A museum as it stood: its library, what a check finds, and the keys to hold it against.

    `allowed_signers` is the list of keys of the base on both sides. `found` has, of each machine's
    folder, what it stands on as a digest, and what was found in it.
    """

    label: str
    library: Library
    checked: Checked
    further: Mapping[str, bytes]
    allowed_signers: bytes | None
    found: Mapping[str, tuple[str, Found]]

    @cached_property
    def cases(self) -> Mapping[str, Case]:
        """The worked-out decisions by id."""
        return {case.decision.id: case for case in reversed(self.checked.cases)}

    @property
    def records(self) -> Mapping[str, DecisionFile]:
        """The decisions by id."""
        return self.library.by_id

    def agreements(self, record: str) -> tuple[Agreement, ...]:
        """How each agreement of a record stands."""
        entry, case = self.records[record], self.cases.get(record)
        if case is None:
            return ()
        return tuple(
            agreements_of(
                entry, case, self.library, further=self.further, allowed=self.allowed_signers
            )
        )


def sides_of(
    base: Version, head: Version, *, rulebook: RuleBook, allowed_signers: bytes | None
) -> tuple[Side, Side]:
    """Both versions, read and checked; what both have alike is read and worked out once."""
    reading = reading_again()
    after = side_of(head, rulebook=rulebook, allowed_signers=allowed_signers, reading=reading)
    before = side_of(
        base, rulebook=rulebook, allowed_signers=allowed_signers, reading=reading, like=after
    )
    return before, after


def side_of(
    version: Version,
    *,
    rulebook: RuleBook,
    allowed_signers: bytes | None,
    reading: Reading = read_afresh,
    like: Side | None = None,
) -> Side:
    """Read and check one version of a museum; what stands as it does in `like` is taken from it."""
    library = assemble(version.folder, reading=reading)
    footing, outside = Footing(listed(version.folder)), Outside(library.traces)
    found: dict[str, tuple[str, Found]] = {}
    for folder in library.folders:
        ground = footing.of(folder.name, outside)
        known = like.found.get(folder.name) if like else None
        if known is None or known[0] != ground:
            known = (ground, check_folder(folder, library, rulebook))
        found[folder.name] = known
    checked = put_together(library, rulebook, (told for _, told in found.values()))
    return Side(version.label, library, checked, version.further, allowed_signers, found)
