"""What the findings on a machine's folder rest on, as digests: alike where nothing can differ."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

from witnessmark.repository.disk import Listing, is_house, paths_by_machine
from witnessmark.rules.outside import Outside, digest


class Footing:
    """What each folder of a museum stands on, read off the digests of its files.

    Two folders of one name that stand on the same in two museums of one name have the same
    findings there, and the same scores, from the same program.
    """

    def __init__(self, listing: Listing) -> None:
        self._digests = listing.digests
        self.paths = paths_by_machine(listing)
        """The files of each machine's folder, in order."""
        self._pictures: dict[str, list[str]] = {}
        for path in sorted(listing.names):
            self._pictures.setdefault(path.partition("/")[0], []).append(path)

    @cached_property
    def house(self) -> str:
        """A digest of the files above the machines' folders."""
        return digest([(p, self._digests[p]) for p in sorted(self._digests) if is_house(p)])

    @cached_property
    def files(self) -> Mapping[str, str]:
        """A digest of what lies in each folder."""
        return {
            name: digest(
                [[(path, self._digests[path]) for path in paths], self._pictures.get(name)]
            )
            for name, paths in self.paths.items()
        }

    def of(self, name: str, outside: Outside) -> str:
        """A digest of all that a folder's findings depend on, but for this program."""
        donors = outside.donors_of(name)
        known = [(donor, self.files.get(donor), outside.of(donor)) for donor in donors]
        return digest([self.house, self.files[name], outside.of(name), known])
