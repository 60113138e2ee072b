"""A desk at which folders of one museum are read and checked; one a process."""

from __future__ import annotations

import multiprocessing
from collections.abc import Iterator, Sequence
from multiprocessing.connection import Connection
from typing import Any, Protocol

from witnessmark.errors import WitnessmarkError
from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.trace import Trace, Traces
from witnessmark.repository.collection import without_collection
from witnessmark.repository.disk import Listing
from witnessmark.repository.shelf import Shelf
from witnessmark.rules.check import check_folder, check_house
from witnessmark.rules.rulebook_check import load_shipped_heads

Findings = tuple[Diagnostic, ...]


class Desks(Protocol):
    """One desk, or several that share the folders."""

    def traces_of(self, names: Sequence[str]) -> dict[str, tuple[Trace, ...]]:
        """The traces of these folders."""

    def findings_of(self, names: Sequence[str], traces: Traces) -> dict[str, Findings]:
        """The findings on these folders, in a museum of these traces."""

    def has_changed(self) -> bool:
        """True once a file held other bytes than were listed."""

    def close(self) -> None:
        """Give back what was taken for it."""


class Desk:
    """Reads and checks in this process."""

    def __init__(self, listing: Listing) -> None:
        self._shelf = Shelf(listing)

    def traces_of(self, names: Sequence[str]) -> dict[str, tuple[Trace, ...]]:
        """The traces of these folders; what was read for them is laid aside."""
        return {name: self._shelf.lay_aside(name).traces for name in names}

    def findings_of(self, names: Sequence[str], traces: Traces) -> dict[str, Findings]:
        """The findings on these folders, one after the other."""
        library, book = self._shelf.library(traces), load_shipped_heads()
        found = {}
        for name in names:
            found[name] = check_folder(self._shelf.folder(name), library, book).diagnostics
        return found

    def findings_of_house(self, traces: Traces) -> Findings:
        """The findings on what the files above the machines' folders hold."""
        return tuple(check_house(self._shelf.library(traces), load_shipped_heads()))

    def problems(self) -> Findings:
        """What is wrong with which files there are."""
        return self._shelf.problems()

    def has_changed(self) -> bool:
        """True once a file held other bytes than were listed."""
        return self._shelf.has_changed

    def close(self) -> None:
        """Give back what lies aside."""
        self._shelf.close()


class SharedDesks:
    """Desks in processes of their own; a folder stays with the desk that read it first."""

    def __init__(self, listing: Listing, count: int, *, names: Sequence[str]) -> None:
        # A fresh interpreter, not a copy of this one: the same on every system.
        context = multiprocessing.get_context("spawn")
        self._shares = {
            name: number
            for number, share in enumerate(_shares(names, listing, count))
            for name in share
        }
        self._ends: list[Connection] = []
        self._processes = []
        for _ in range(count):
            ours, theirs = context.Pipe()
            process = context.Process(target=_serve, args=(theirs, listing), daemon=True)
            process.start()
            theirs.close()
            self._ends.append(ours)
            self._processes.append(process)
        self._changed = False

    def traces_of(self, names: Sequence[str]) -> dict[str, tuple[Trace, ...]]:
        """The traces of these folders, from all desks."""
        found: dict[str, tuple[Trace, ...]] = self._asked("traces", names, None)
        return found

    def findings_of(self, names: Sequence[str], traces: Traces) -> dict[str, Findings]:
        """The findings on these folders, from all desks."""
        found: dict[str, Findings] = self._asked("findings", names, traces.all)
        return found

    def has_changed(self) -> bool:
        """True once a file held other bytes than were listed, at any desk."""
        return self._changed

    def close(self) -> None:
        """Let the processes end."""
        for end in self._ends:
            end.close()
        for process in self._processes:
            process.join()

    def _asked(self, what: str, names: Sequence[str], given: object) -> dict[str, Any]:
        """Ask every desk for its share, and wait for all."""
        shares: list[list[str]] = [[] for _ in self._ends]
        for name in names:
            shares[self._shares[name]].append(name)
        found: dict[str, Any] = {}
        try:
            for end, share in zip(self._ends, shares, strict=True):
                end.send((what, share, given))
            for end in self._ends:
                told, changed = end.recv()
                found |= told
                self._changed |= changed
        except (EOFError, OSError):
            raise WitnessmarkError(
                "A process that was checking a share of the museum ended before its time.",
                remedy="Run the check again with --jobs 1; it says what is wrong, or needs less.",
            ) from None
        return found


def _serve(end: Connection, listing: Listing) -> None:
    """Answer until the asker closes its end."""
    desk = Desk(listing)
    with without_collection():
        while True:
            try:
                what, names, given = end.recv()
            except EOFError:
                break
            traces = Traces(given or ())
            told = desk.traces_of(names) if what == "traces" else desk.findings_of(names, traces)
            end.send((told, desk.has_changed()))
    desk.close()


def _shares(names: Sequence[str], listing: Listing, count: int) -> Iterator[list[str]]:
    """The folders in order, parted into runs of about the same size."""
    weights = dict.fromkeys(names, 0)
    for path, size in listing.sizes.items():
        machine = path.partition("/")[0]
        if machine in weights:
            weights[machine] += size
    whole = sum(weights.values())
    share: list[str] = []
    done = shares = 0
    for name in names:
        share.append(name)
        done += weights[name]
        if done * count >= whole * (shares + 1) and shares < count - 1:
            yield share
            share, shares = [], shares + 1
    yield share
