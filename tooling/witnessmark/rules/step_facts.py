"""Steps as rules see them: what each takes out, puts in and draws on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from functools import lru_cache
from typing import TypedDict

from witnessmark.model.decision import Decision
from witnessmark.model.library import Library
from witnessmark.model.machine import Part
from witnessmark.model.options import FITS, Step
from witnessmark.model.position import Pieces, position_on
from witnessmark.model.quantity import QuantityFault, convert, parse_quantity
from witnessmark.model.words import Do, Fate, MadeTo, Origin
from witnessmark.rules.machine_facts import known, lot_view
from witnessmark.rules.view_machine import LotView
from witnessmark.rules.view_option import (
    DonorView,
    FittedView,
    RemovedView,
    StepView,
    TouchedView,
)

Places = Mapping[str, tuple[Pieces, ...]]


@dataclass(frozen=True)
class Setting:
    """Where steps are laid: the machine as on the day, the museum, and the decision itself."""

    decision: Decision
    machine_id: str
    library: Library
    places: Places
    day: date


@dataclass(frozen=True)
class StepList:
    """Steps in order with whose they are: an option's plan, or the work as done."""

    steps: Sequence[Step]
    option: str
    is_as_done: bool
    is_of_chosen: bool
    is_in_force: bool


@dataclass
class _Bench:
    """The original machine's pieces while steps are laid on them; mutable for that alone."""

    places: Places
    left: dict[str, list[Pieces]] = field(default_factory=dict)

    def here(self, address: str) -> list[Pieces]:
        """What of the machine as it was is still in a place."""
        return self.left.get(address, list(self.places.get(address, ())))

    def take(self, address: str, count: int | None) -> list[Pieces]:
        """Take pieces out of a place, originals first, as the machine's account does."""
        here = sorted(self.here(address), key=lambda pieces: not pieces.is_original)
        wanted = sum(p.count for p in here) if count is None else count
        taken, kept = [], []
        for pieces in here:
            part = min(wanted, pieces.count)
            wanted -= part
            taken += [replace(pieces, count=part)] if part else []
            kept += [replace(pieces, count=pieces.count - part)] if part < pieces.count else []
        self.left[address] = kept
        return taken

    def put_back(self, address: str) -> None:
        """Refit: the place is as it was."""
        self.left.pop(address, None)


def step_views(listed: StepList, setting: Setting) -> list[StepView]:
    """Every step of a list, laid on the machine in order."""
    bench = _Bench(setting.places)
    return [_step(index, listed, setting, bench) for index in range(len(listed.steps))]


def _step(index: int, listed: StepList, setting: Setting, bench: _Bench) -> StepView:
    step = listed.steps[index]
    touches = any(p.is_in_scope for address in step.addresses for p in bench.here(address))
    removed: list[RemovedView] = []
    if step.do is Do.REMOVE:
        refitted = {a for s in listed.steps[index + 1 :] if s.do is Do.REFIT for a in s.addresses}
        removed = list(_removed(step, bench, refitted))
    elif step.do is Do.REFIT:
        for address in step.addresses:
            bench.put_back(address)
    return {
        "index": index,
        "do": step.do.value,
        "count": step.count or 0,
        "option": listed.option,
        "is_as_done": listed.is_as_done,
        "is_of_chosen": listed.is_of_chosen,
        "is_in_force": listed.is_in_force,
        "parts": list(step.addresses),
        "touches_original": touches,
        "removed": removed,
        "leaving": [row for row in removed if row["is_evidence"] and row["is_off"]],
        "fitted": _fitted(step, setting) if step.do in FITS else [],
        "lots": _lots(step, listed, setting),
        "donors": _donors(step, setting),
        **_said(step),
        "touched": _touched(step, setting),
        "what": step.what or "",
        "because": step.because or "",
        "copied_marks": step.copied_marks or "",
        "interchange": step.interchange or "",
        "care": step.care or "",
    }


class _Said(TypedDict):
    material: str
    lubricant: str
    suits: str
    residue: str
    inspected: str
    conditions_met: str
    leaves: str
    over: str
    carried_on: str
    rubber_left_mm: float | None
    comes_off_with: str


def _said(step: Step) -> _Said:
    """What the step says in its own fields, empty where it says nothing."""
    return {
        "material": step.material or "",
        "lubricant": step.lubricant.value if step.lubricant else "",
        "suits": step.suits or "",
        "residue": step.residue or "",
        "inspected": step.inspected or "",
        "conditions_met": step.conditions_met or "",
        "leaves": step.leaves or "",
        "over": step.over.value if step.over else "",
        "carried_on": step.carried_on.value if step.carried_on else "",
        "rubber_left_mm": _millimetres(step.rubber_left),
        "comes_off_with": step.comes_off_with or "",
    }


def _millimetres(written: str | None) -> float | None:
    """A thickness; null where none is written or it cannot be read, which has its own check."""
    try:
        return float(convert(parse_quantity(written), "mm")) if written else None
    except QuantityFault:
        return None


def _touched(step: Step, setting: Setting) -> list[TouchedView]:
    parts = _parts(setting.library, setting.machine_id)
    return [
        {
            "part": address,
            "name": parts[address].name,
            "is_original": any(p.is_original for p in setting.places.get(address, ())),
            "plating": parts[address].plating or "",
            "lubricant": _lubricant(parts[address]),
        }
        for address in step.addresses
        if address in parts
    ]


def _lubricant(part: Part) -> str:
    return part.lubricant.value if part.lubricant else ""


def _removed(step: Step, bench: _Bench, refitted: set[str]) -> Iterator[RemovedView]:
    labels = step.all_labels
    for position, address in enumerate(step.addresses):
        for pieces in bench.take(address, step.count):
            yield {
                "part": address,
                "name": pieces.name,
                "count": pieces.count,
                "origin": pieces.origin.value,
                "made_to": pieces.made_to.value,
                "is_original": pieces.is_original,
                "is_evidence": pieces.is_in_scope,
                "is_last_known": pieces.last_known,
                "can_be_made": known(pieces.can_be_made),
                "is_off": address not in refitted,
                "fate": step.fate.value if step.fate else "",
                "is_kept": step.fate is not None and step.fate is not Fate.LOST,
                "label": labels[position] if position < len(labels) else "",
                "place": step.place or "",
            }


def _fitted(step: Step, setting: Setting) -> list[FittedView]:
    parts = _parts(setting.library, setting.machine_id)
    return [_fitted_at(step, address, parts.get(address)) for address in step.addresses]


def _fitted_at(step: Step, address: str, listed: Part | None) -> FittedView:
    return {
        "part": address,
        "name": step.what or (listed.name if listed else address),
        "made_to": listed.made_to.value if listed else MadeTo.LAST.value,
        "like": step.like.value if step.like else "",
        "material": step.material or "",
        "drawing": step.drawing or "",
        "made_by": step.made_by or "",
        "marked": step.marked or "",
        "pattern": step.pattern or "",
    }


def _lots(step: Step, listed: StepList, setting: Setting) -> list[LotView]:
    if step.do is not Do.FIT_OLD_STOCK or step.source is None:
        return []
    drawn = sum(
        (other.count or 1) * len(other.addresses)
        for other in listed.steps
        if other.do is Do.FIT_OLD_STOCK and other.source == step.source
    )
    own = setting.decision.id
    return [lot_view(step.source, setting.library, day=setting.day, without=own, drawn=drawn)]


def _donors(step: Step, setting: Setting) -> list[DonorView]:
    if step.do is not Do.FIT_FROM_DONOR or step.source is None:
        return []
    library = setting.library
    machine, _, address = step.source.partition("/")
    places = position_on(library, machine, setting.day, without=setting.decision.id).places
    here = places.get(address, ())
    return [
        {
            "machine": machine,
            "part": address,
            "is_known": bool(here),
            "name": here[0].name if here else address,
            "origin": here[0].origin.value if here else Origin.UNKNOWN.value,
            "is_last_known": any(pieces.last_known for pieces in here),
            "findings": sum(1 for _ in _found_on(library, machine, address, setting.day)),
            "decisions": [
                other.id
                for other in library.traces.of_machine(machine)
                if other.is_settled and address in other.about and other.id != setting.decision.id
            ],
        }
    ]


def _found_on(library: Library, machine: str, address: str, day: date) -> Iterator[str]:
    """The findings on a part, or on a part of its assembly, by a day."""
    assembly = address.partition("/")[0]
    for finding in library.findings_of(machine):
        if finding.part and finding.part.partition("/")[0] == assembly and finding.date <= day:
            yield finding.id


@lru_cache(maxsize=32)
def _parts(library: Library, machine: str) -> Mapping[str, Part]:
    whole = library.machines.get(machine)
    return {address: part for address, _, part in whole.parts()} if whole else {}
