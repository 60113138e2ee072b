"""What the check of one machine's folder reads of all other folders, as plain values.

Two museums that give a folder the same files, the same house around it and the same outside give it
the same verdicts. So what a check reads of other records must stand here; the tests hold checks
with and without a memory of earlier ones against each other, over edits at random.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from functools import cached_property
from hashlib import sha256
from typing import Any

from witnessmark.model.position import Done, draws_on_lot, works_touching
from witnessmark.model.trace import Trace, Traces
from witnessmark.rules.claims import claims
from witnessmark.rules.stock import label_owners
from witnessmark.weighing.precedents import question_left


class Outside:
    """The outside of every folder, read off the traces of all decisions."""

    def __init__(self, traces: Traces) -> None:
        self._traces = traces

    def of(self, machine: str) -> dict[str, Any]:
        """What a machine's folder sees of the others, as values that JSON can hold.

        What it sees of donors, beyond their work, is for the caller to add: `donors_of` names them.
        """
        own = self._traces.of_machine(machine)
        lots = sorted({lot for trace in own for lot in trace.lots})
        return {
            "ids": {name: self._claimed(name) for name in self._named(own)},
            "all": self._all_ids if self._names_a_stranger(own) else "",
            "lots": {lot: repr(draws_on_lot(self._traces, lot)) for lot in lots},
            "claims": self._claims(lots, own),
            "works": [_of_work(done) for done in works_touching(self._traces).get(machine, ())],
            "alike": {word: self._asked.get(word, "") for word in sorted(_words(own))},
            "labels": {
                label: label_owners(self._traces)[label]
                for label in sorted({one.label.casefold() for t in own for one in t.labels})
            },
        }

    def _claims(self, lots: Collection[str], own: Iterable[Trace]) -> dict[str, str]:
        """What others took or reserved of the lots and donors that the folder takes from."""
        donors = {donor for trace in own for donor in trace.donors}
        every = claims(self._traces, None).items()
        return {
            source: repr(found)
            for source, found in sorted(every)
            if source in lots or source.partition("/")[0] in donors
        }

    def donors_of(self, machine: str) -> tuple[str, ...]:
        """The machines that the folder's steps take from, and those these were mended from."""
        found: set[str] = set()
        left = [machine]
        while left:
            traces = self._traces.of_machine(left.pop())
            fresh = {donor for trace in traces for donor in trace.donors} - found
            found |= fresh
            left += fresh
        return tuple(sorted(found - {machine}))

    def _named(self, own: Iterable[Trace]) -> Iterator[str]:
        """Every id the folder claims or names, and those that replaced them in turn."""
        seen: set[str] = set()
        left = sorted({name for trace in own for name in (trace.id, *trace.names)})
        while left:
            name = left.pop()
            if name in seen:
                continue
            seen.add(name)
            trace = self._traces.by_id.get(name)
            if trace and trace.replaced_by:
                left.append(trace.replaced_by)
        yield from sorted(seen)

    def _claimed(self, name: str) -> list[str | int] | None:
        trace = self._traces.by_id.get(name)
        if trace is None:
            return None
        ends = (trace.replaces or "", trace.replaced_by or "")
        return [trace.file, trace.is_read, trace.state.value, trace.looks, *ends]

    def _names_a_stranger(self, own: Iterable[Trace]) -> bool:
        return any(name not in self._traces.by_id for trace in own for name in trace.names)

    @cached_property
    def _all_ids(self) -> str:
        """All ids there are, which a slip of the pen is held against to guess what was meant."""
        return digest(sorted(self._traces.by_id))

    @cached_property
    def _asked(self) -> Mapping[str, str]:
        """What was asked and chosen of a part called so, by way of keeping and word."""
        rows: dict[str, list[object]] = {}
        for trace in self._traces.all:
            if not trace.is_settled or trace.chosen_kind is None or trace.kept is None:
                continue
            question = question_left(trace)
            sets = (sorted(question.kinds), sorted(question.part), sorted(question.material))
            row = (trace.opened.isoformat(), trace.id, trace.title, trace.chosen_kind.value, *sets)
            for word in question.part:
                rows.setdefault(f"{trace.kept} {word}", []).append(row)
        return {word: digest(sorted(found, key=repr)) for word, found in rows.items()}


def all_draws(traces: Traces) -> str:
    """Every draw on every lot, which is what the museum as a whole sees of its records."""
    lots = sorted({lot for trace in traces.all for lot in trace.lots})
    return digest([(lot, draws_on_lot(traces, lot)) for lot in lots])


def digest(value: object) -> str:
    """A digest of a plain value: equal for equal values, in every run."""
    return sha256(repr(value).encode()).hexdigest()


def _words(own: Iterable[Trace]) -> set[str]:
    """The keys of all that might be alike to what the folder's decisions ask."""
    return {
        f"{trace.kept} {word}"
        for trace in own
        if trace.chosen_kind is not None and trace.kept is not None
        for word in question_left(trace).part
    }


def _of_work(done: Done) -> list[str]:
    steps = [step.model_dump_json(exclude_defaults=True) for step in done.steps]
    return [done.day.isoformat(), done.decision, done.machine, *steps]
