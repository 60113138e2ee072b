"""Checking a museum on disk: what is remembered is not worked out again, the rest is shared out."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cached_property

from witnessmark.model.diagnostics import Diagnostic, in_order
from witnessmark.model.hygiene import fit_to_print
from witnessmark.model.trace import Trace, Traces
from witnessmark.repository.asking import Answer, Request
from witnessmark.repository.desk import Desk, Desks, SharedDesks
from witnessmark.repository.disk import Listing
from witnessmark.repository.footing import Footing
from witnessmark.repository.memory import Memory, Remembered, recall, remember
from witnessmark.rules.checked import Checked, is_under
from witnessmark.rules.outside import Outside, all_draws, digest

HOUSE = "museum.yml"
"""What the findings above the machines' folders are remembered by; no machine can be called so.

Its verdict key is the house that all other verdict keys hold for.
"""

FEW = 300
"""Up to so many records, further processes take longer to start than they save (measured)."""


class Check:
    """One run over one museum; it holds what was read, so it is neither kept nor shared."""

    def __init__(self, request: Request, listing: Listing) -> None:
        self._request = request
        self._listing = listing
        self._footing = Footing(listing)
        self._paths = self._footing.paths
        self._memory = recall(request.memory) if request.memory else Memory(request.museum)
        self._desk = Desk(self._listing)
        self._helpers: SharedDesks | None = None

    def answer(self) -> Answer:
        """Everything found at the path asked for, in order."""
        under, machines = self._request.under, set(self._wanted)
        traces, found = self._found()
        inside = (fit_to_print(d) for d in found if is_under(d.file, under))
        records = tuple(
            trace.file
            for trace in traces.all
            if trace.machine in machines and is_under(trace.file, under)
        )
        return Answer(Checked(len(records), tuple(in_order(inside)), ()), records, "")

    @property
    def has_changed(self) -> bool:
        """True once a file held other bytes than were listed: then nothing may be remembered."""
        helped = self._helpers is not None and self._helpers.has_changed()
        return self._desk.has_changed() or helped

    def _found(self) -> tuple[Traces, list[Diagnostic]]:
        """The traces of all decisions, and what was found in the folders and on the house."""
        keys = self._footing.files
        traces, known = self._traces(keys)
        verdicts = self._verdict_keys(known, Outside(traces))
        stale = {name for name, key in verdicts.items() if known[name].verdict_key != key}
        fresh = [name for name in self._wanted if name in stale]
        told = self._desks(fresh).findings_of(fresh, traces) if fresh else {}
        for name in stale:
            known[name] = Remembered(keys[name], known[name].traces)
        for name, findings in told.items():
            known[name] = Remembered(keys[name], known[name].traces, verdicts[name], findings)
        found = [one for name in self._wanted for one in known[name].found]
        on_house = self._memory.folders.get(HOUSE, Remembered(""))
        if self._request.part.number == 1:
            on_house = self._on_house(traces)
            found += [*self._desk.problems(), *on_house.found]
        known[HOUSE] = replace(on_house, verdict_key=self._footing.house)
        self._remember(known)
        return traces, found

    def _on_house(self, traces: Traces) -> Remembered:
        """What is found above the machines' folders; of the records it sees the draws on stock."""
        key = digest([self._footing.house, all_draws(traces)])
        known = self._memory.folders.get(HOUSE)
        if known and known.key == key:
            return known
        return Remembered(key, (), found=self._desk.findings_of_house(traces))

    def close(self) -> None:
        """End the helpers, and give back what lies aside."""
        self._desk.close()
        if self._helpers is not None:
            self._helpers.close()

    @cached_property
    def _wanted(self) -> Sequence[str]:
        """The folders to check: those at the path asked for, and of them this part's."""
        part, root = self._request.part, self._listing.root.name
        below = self._request.under[len(root) + 1 :].partition("/")[0]
        names = [name for name in self._paths if below in ("", name)]
        return names[part.number - 1 :: part.of]

    def _traces(self, keys: Mapping[str, str]) -> tuple[Traces, dict[str, Remembered]]:
        known = {
            name: self._memory.folders[name]
            for name, key in keys.items()
            if name in self._memory.folders and self._memory.folders[name].key == key
        }
        unread = [name for name in keys if name not in known]
        read = self._desks(unread).traces_of(unread) if unread else {}
        known |= {name: Remembered(keys[name], traces) for name, traces in read.items()}
        every = (trace for one in known.values() for trace in one.traces)
        return Traces(tuple(sorted(every, key=_by_id))), known

    def _verdict_keys(self, known: Mapping[str, Remembered], outside: Outside) -> dict[str, str]:
        """The key of each folder's findings, worked out where it may be another than it was."""
        standing = self._standing_keys(known, outside)
        return {name: standing.get(name) or self._footing.of(name, outside) for name in known}

    def _standing_keys(self, known: Mapping[str, Remembered], outside: Outside) -> dict[str, str]:
        """The keys that stand as they are remembered.

        What is remembered always holds for the traces it is remembered with. So where no trace
        and nothing of the house is other than remembered, a key stands if its files stayed.
        """
        if not self._stands_alike(known):
            return {}
        edited = {name for name in known if known[name] is not self._memory.folders[name]}
        return {
            name: known[name].verdict_key
            for name in known.keys() - edited
            if edited.isdisjoint(outside.donors_of(name))
        }

    def _stands_alike(self, known: Mapping[str, Remembered]) -> bool:
        """True where the house and all traces are as they are remembered."""
        before = self._memory.folders
        return (
            HOUSE in before
            and before[HOUSE].verdict_key == self._footing.house
            and before.keys() - {HOUSE} == known.keys()
            and all(one.traces == before[name].traces for name, one in known.items())
        )

    def _desks(self, names: Sequence[str] | Mapping[str, object]) -> Desks:
        """Give this process, or several where there is enough to do; the same from then on."""
        if self._helpers is None:
            count = self._jobs(sum(len(self._paths[name]) for name in names))
            if count <= 1:
                return self._desk
            self._helpers = SharedDesks(self._listing, count, names=list(self._paths))
        return self._helpers

    def _jobs(self, files: int) -> int:
        if self._request.jobs is not None:
            return min(self._request.jobs, len(self._paths))
        return (os.cpu_count() or 1) if files > FEW else 1

    def _remember(self, known: Mapping[str, Remembered]) -> None:
        if self._request.memory and not self.has_changed and known != self._memory.folders:
            remember(Memory(self._request.memory, known))


def _by_id(trace: Trace) -> tuple[str, str]:
    return trace.id, trace.file
