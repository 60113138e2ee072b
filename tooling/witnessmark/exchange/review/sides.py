"""One side of a review: a museum at one moment, read, checked and worked out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from witnessmark.exchange.agreements import Agreement, agreements_of
from witnessmark.model.library import DecisionFile, Library, assemble
from witnessmark.repository.versions import Version
from witnessmark.rules.check import check
from witnessmark.rules.checked import Checked
from witnessmark.rules.rulebook import RuleBook
from witnessmark.weighing.case import Case


@dataclass(frozen=True, eq=False)
class Side:
    """A museum as it stood: its library, what a check finds, and the keys to hold it against.

    `allowed_signers` is the list of keys of the base on both sides.
    """

    label: str
    library: Library
    checked: Checked
    further: Mapping[str, bytes]
    allowed_signers: bytes | None

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


def side_of(version: Version, *, rulebook: RuleBook, allowed_signers: bytes | None) -> Side:
    """Read and check one version of a museum."""
    library = assemble(version.folder)
    checked = check(library, rulebook=rulebook)
    return Side(version.label, library, checked, version.further, allowed_signers)
