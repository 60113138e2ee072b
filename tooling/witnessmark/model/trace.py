"""What other records may see of a decision: its trace.

A record is checked against the museum around it, and of other decisions the check reads only what
stands here. So a trace can be kept while its record is not, and a decision whose trace stays the
same changes no verdict but its own.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from witnessmark.model.decision import Decision
from witnessmark.model.machine import Machine
from witnessmark.model.options import Step
from witnessmark.model.words import Do, Kind, State

ENDED = frozenset({State.DONE, State.REPLACED})
RESERVING = frozenset({State.AGREED, State.UNDER_WAY})
TAKES = frozenset({Do.FIT_OLD_STOCK, Do.FIT_FROM_DONOR})


@dataclass(frozen=True, slots=True)
class Labelled:
    """A label that a step gives, with the part it names and where in the record it stands."""

    path: tuple[str | int, ...]
    part: str
    label: str


@dataclass(frozen=True, slots=True)
class Trace:
    """One decision as others see it; while it cannot be read, only where it lies and its id.

    `done` are the steps of work that ended, `reserves` those that agreed work will take old stock
    or a donor's parts with, and `holds_from` is the day from which either holds. `names` are the
    other decisions it names, `lots` and `donors` the stock and the machines that any of its steps
    takes from. `kept`, `part_names` and `part_materials` are read off its machine.
    """

    file: str
    machine: str
    id: str
    is_read: bool = False
    title: str = ""
    state: State = State.DRAFT
    opened: date = date.min
    about: tuple[str, ...] = ()
    findings: tuple[str, ...] = ()
    kinds: frozenset[str] = frozenset()
    chosen_kind: Kind | None = None
    looks: int = 0
    replaces: str | None = None
    replaced_by: str | None = None
    ended: date | None = None
    done: tuple[Step, ...] = ()
    reserves: tuple[Step, ...] = ()
    holds_from: date = date.min
    names: tuple[str, ...] = ()
    lots: tuple[str, ...] = ()
    donors: tuple[str, ...] = ()
    labels: tuple[Labelled, ...] = ()
    kept: str | None = None
    part_names: tuple[str, ...] = ()
    part_materials: tuple[str, ...] = ()

    @property
    def is_settled(self) -> bool:
        """True from agreement on, while the decision still stands."""
        return self.is_read and self.state in RESERVING | {State.DONE}


@dataclass(frozen=True, eq=False)
class Traces:
    """Every decision of a museum as others see it, by id and then by file; equal only to itself."""

    all: tuple[Trace, ...]

    @cached_property
    def by_id(self) -> Mapping[str, Trace]:
        """Traces by id; where two claim one id, the first file in order."""
        return {trace.id: trace for trace in reversed(self.all)}

    @cached_property
    def _of_machine(self) -> Mapping[str, tuple[Trace, ...]]:
        found: dict[str, list[Trace]] = {}
        for trace in self.all:
            found.setdefault(trace.machine, []).append(trace)
        return {machine: tuple(traces) for machine, traces in found.items()}

    def of_machine(self, machine: str) -> tuple[Trace, ...]:
        """The traces of a machine's decisions."""
        return self._of_machine.get(machine, ())


def holds_from(decision: Decision) -> date:
    """The day of the first agreement, or of the end of the work where that came before."""
    ended = decision.work.ended if decision.work else None
    return min(decision.reference_day, ended or decision.reference_day)


def trace_of(decision: Decision, *, file: str, machine: str, whole: Machine | None) -> Trace:
    """The trace of a decision that could be read; `whole` is its machine, if that could be too."""
    chosen, work = decision.chosen, decision.work
    has_ended = decision.state in ENDED and work is not None and work.ended is not None
    draws = chosen.steps if chosen and decision.state in RESERVING else ()
    parts = whole.parts() if whole else ()
    about = [part for address, _, part in parts if address in decision.about]
    return Trace(
        file=file,
        machine=machine,
        id=decision.id,
        is_read=True,
        title=decision.title,
        state=decision.state,
        opened=decision.opened,
        about=decision.about,
        findings=decision.findings,
        kinds=frozenset(option.kind.value for option in decision.options),
        chosen_kind=chosen.kind if chosen else None,
        looks=len(decision.outcomes),
        replaces=decision.replaces,
        replaced_by=decision.replaced_by,
        ended=work.ended if work and has_ended else None,
        done=work.as_done if work and has_ended else (),
        reserves=tuple(step for step in draws if step.do in TAKES),
        holds_from=holds_from(decision),
        names=tuple(sorted(set(_named(decision)))),
        lots=_sources(decision, Do.FIT_OLD_STOCK),
        donors=_sources(decision, Do.FIT_FROM_DONOR),
        labels=tuple(labels_of(decision)),
        kept=whole.kept_on(decision.reference_day).value if whole else None,
        part_names=tuple(part.name for part in about),
        part_materials=tuple(part.material or "" for part in about),
    )


def steps_of(decision: Decision) -> Iterator[tuple[tuple[str | int, ...], Step]]:
    """Every step, planned and done, with its path."""
    for index, option in enumerate(decision.options):
        for number, step in enumerate(option.steps):
            yield ("options", index, "steps", number), step
    if decision.work:
        for number, step in enumerate(decision.work.as_done):
            yield ("work", "as_done", number), step


def _sources(decision: Decision, fit: Do) -> tuple[str, ...]:
    """The lots, or the machines, that fits of one kind take from."""
    sources = {step.source for _, step in steps_of(decision) if step.do is fit and step.source}
    return tuple(sorted({source.partition("/")[0] for source in sources}))


def _named(decision: Decision) -> Iterator[str]:
    yield from decision.follows
    yield from (departure.decision for departure in decision.departs_from)
    yield from filter(None, (decision.replaces, decision.replaced_by))


def labels_of(decision: Decision) -> Iterator[Labelled]:
    """Every label that a step gives to what it takes off."""
    for path, step in steps_of(decision):
        for number, label in enumerate(step.all_labels if step.do is Do.REMOVE else ()):
            own = ("label",) if step.label and number == 0 else ()
            listed = ("labels", number - (1 if step.label else 0))
            part = step.addresses[min(number, len(step.addresses) - 1)]
            yield Labelled((*path, *(own or listed)), part, label)
