"""A museum read one machine's folder at a time, so that memory does not grow with the museum."""

from __future__ import annotations

import pickle
import tempfile
from collections.abc import Callable, Iterator, Mapping
from functools import cached_property, lru_cache
from typing import IO, TypeVar

from witnessmark.model.decision import Decision
from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.files import DECISION_FILE, MACHINE_FILE, Folder
from witnessmark.model.findings import Findings
from witnessmark.model.library import (
    DecisionFile,
    Library,
    MachineFolder,
    assemble,
    folder_problems,
)
from witnessmark.model.machine import Machine
from witnessmark.model.shape import Shaped, shape
from witnessmark.model.source import Document, read
from witnessmark.model.trace import Traces
from witnessmark.repository.disk import Listing, digest_of, is_house, paths_by_machine

T = TypeVar("T")

KEPT_BYTES = 300_000
"""Text of so many bytes is kept as read; read, it takes about fifteen times that in memory."""


class Shelf:
    """The folders of a museum's machines, each read when it is asked for.

    What is read in the first round, for the traces, is wanted again in the second. It is kept while
    it is little, and laid aside in a nameless file of this process when it is more.
    """

    def __init__(self, listing: Listing, *, room: int = KEPT_BYTES) -> None:
        self.listing = listing
        self.has_changed = False
        """True once a file held other bytes than those listed: then nothing may be remembered."""
        self._paths = paths_by_machine(listing)
        self._kept: dict[str, MachineFolder] = {}
        self._room = room
        self._aside: IO[bytes] | None = None
        self._places: dict[str, tuple[int, int]] = {}
        # A donor's folder is asked for by many records in a row.
        self._recent = lru_cache(maxsize=3)(self._read)

    def folder(self, name: str) -> MachineFolder:
        """One machine's folder, shaped anew unless it was kept or asked for just now."""
        return self._kept.get(name) or self._recent(name)

    def lay_aside(self, name: str) -> MachineFolder:
        """One machine's folder, kept for the second round in memory or in the file."""
        documents = self._documents(name)
        folder = self._shaped(name, documents)
        size = sum(len(document.text) for document in documents)
        if size <= self._room:
            self._room -= size
            self._kept[name] = folder
        else:
            self._write_aside(name, documents)
        return folder

    def _write_aside(self, name: str, documents: tuple[Document, ...]) -> None:
        if self._aside is None:
            self._aside = tempfile.TemporaryFile(prefix="witnessmark-")  # noqa: SIM115  one run
        laid = pickle.dumps(documents, protocol=5)
        self._places[name] = (self._aside.seek(0, 2), len(laid))
        self._aside.write(laid)

    def close(self) -> None:
        """Give the nameless file back."""
        if self._aside is not None:
            self._aside.close()

    def library(self, traces: Traces) -> Library:
        """The museum around the folders, with the traces of all its decisions."""
        bare = self._house
        machines: Mapping[str, Shaped[Machine]] = _Files(
            self._having("machine"), lambda name: self.folder(name).machine
        )
        findings: Mapping[str, Shaped[Findings]] = _Files(
            self._having("findings"), lambda name: self.folder(name).findings
        )
        return Library(
            root=bare.root,
            museum=bare.museum,
            people_file=bare.people_file,
            stores_file=bare.stores_file,
            policy_files=bare.policy_files,
            machine_files=machines,
            finding_files=findings,
            decisions=(),
            names=self.listing.names,
            known=traces,
        )

    @cached_property
    def _house(self) -> Library:
        """What lies above the machines' folders; what is wrong with names is told by `problems`."""
        house = {p: self._bytes(p) for p in sorted(self.listing.digests) if is_house(p)}
        return assemble(Folder(self.listing.root.name, house, refused=self.listing.refused))

    def problems(self) -> tuple[Diagnostic, ...]:
        """What is wrong with which files there are."""
        listed, names = self.listing.digests, self.listing.names
        files = dict.fromkeys(listed, b"")
        whole = Folder(self.listing.root.name, files, names, self.listing.refused)
        return tuple(folder_problems(whole))

    def _having(self, kind: str) -> frozenset[str]:
        found = (MACHINE_FILE.fullmatch(path) for path in self.listing.digests)
        return frozenset(match["machine"] for match in found if match and match["kind"] == kind)

    def _read(self, name: str) -> MachineFolder:
        return self._shaped(name, self._documents(name))

    def _shaped(self, name: str, documents: tuple[Document, ...]) -> MachineFolder:
        machine: Shaped[Machine] | None = None
        findings: Shaped[Findings] | None = None
        decisions = []
        start = len(self.listing.root.name) + 1
        for document in documents:
            if match := DECISION_FILE.fullmatch(document.file[start:]):
                shaped = shape(document, Decision, record=match["id"])
                decisions.append(DecisionFile(name, match["id"], shaped))
            elif document.file.rpartition("/")[2].startswith("machine"):
                machine = shape(document, Machine)
            else:
                findings = shape(document, Findings)
        decisions.sort(key=lambda entry: (entry.id, entry.file))
        return MachineFolder(name, machine, findings, tuple(decisions))

    def _documents(self, name: str) -> tuple[Document, ...]:
        if name in self._places and self._aside is not None:
            offset, length = self._places[name]
            self._aside.seek(offset)
            # This process wrote it, and the file has no name that others could reach it by.
            found: tuple[Document, ...] = pickle.loads(self._aside.read(length))  # noqa: S301
            return found
        root = self.listing.root.name
        return tuple(read(f"{root}/{p}", self._bytes(p)) for p in self._paths.get(name, ()))

    def _bytes(self, path: str) -> bytes:
        try:
            with open(f"{self.listing.root}/{path}", "rb") as file:  # noqa: PTH123  see disk._walk
                raw = file.read()
        except OSError:
            raw = b""  # gone since it was listed; read as empty, which is told at its place
        self.has_changed |= digest_of(raw) != self.listing.digests[path]
        return raw


class _Files(Mapping[str, T]):
    """One kind of file of every machine, read when asked for."""

    def __init__(self, names: frozenset[str], find: Callable[[str], T | None]) -> None:
        self._names = names
        self._find = find

    def __getitem__(self, name: str) -> T:
        found = self._find(name) if name in self._names else None
        if found is None:
            raise KeyError(name)
        return found

    def __iter__(self) -> Iterator[str]:
        return iter(sorted(self._names))

    def __len__(self) -> int:
        return len(self._names)
