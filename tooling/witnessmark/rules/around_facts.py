"""What lies around a decision: the ones it follows, and what holds the machine's tracks tight."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from witnessmark.model.decision import Decision
from witnessmark.model.library import Library
from witnessmark.model.machine import Part
from witnessmark.model.options import FITS, Step
from witnessmark.model.words import Basis, Do
from witnessmark.rules.in_force import steps_in_force
from witnessmark.rules.view_decision import FollowedView, TensionView
from witnessmark.weighing.case import Case

OPENS = frozenset({Do.DISMANTLE, Do.REMOVE, Do.EXCHANGE}) | FITS


def followed_views(decision: Decision, library: Library) -> list[FollowedView]:
    """The decisions it follows that could be read, each with how often somebody looked again."""
    found = ((n, library.traces.by_id.get(name)) for n, name in enumerate(decision.follows))
    return [
        {
            "index": index,
            "id": trace.id,
            "state": trace.state.value,
            "looks": trace.looks,
        }
        for index, trace in found
        if trace is not None and trace.is_read
    ]


@lru_cache(maxsize=32)
def tension_parts(library: Library, machine: str) -> tuple[tuple[str, Part], ...]:
    """The parts of a machine that hold a track or chain tight, with their addresses."""
    whole = library.machines.get(machine)
    listed = whole.parts() if whole else ()
    return tuple((address, part) for address, _, part in listed if part.holds_tension)


def tension_views(case: Case, library: Library) -> list[TensionView]:
    """Those of them that lie in an assembly the decision is about."""
    held = tension_parts(library, case.machine_id)
    if not held:
        return []
    about = {address.partition("/")[0] for address in case.decision.about}
    steps = steps_in_force(case.decision)
    measured = set(_measured(case, library))
    return [
        _tension(address, part, steps, is_measured=address in measured)
        for address, part in held
        if address.partition("/")[0] in about
    ]


def _tension(
    address: str, part: Part, steps: tuple[Step, ...], *, is_measured: bool
) -> TensionView:
    beside = {s.do for s in steps for a in s.addresses if _assembly(a) == _assembly(address)}
    on_it = {s.do for s in steps if address in s.addresses}
    return {
        "part": address,
        "name": part.name,
        "is_opened": not OPENS.isdisjoint(beside),
        "is_set": Do.ADJUST in beside,
        "is_renewed": not FITS.isdisjoint(on_it),
        "is_measured": is_measured,
    }


def _assembly(address: str) -> str:
    return address.partition("/")[0]


def _measured(case: Case, library: Library) -> Iterator[str]:
    for name in case.decision.findings:
        finding = library.finding(case.machine_id, name)
        if finding and finding.part and finding.basis is Basis.MEASURED:
            yield finding.part
    for sheet in case.decision.worksheets:
        yield from sheet.bears_on
