"""The museum, its machines and findings as rules see them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from functools import lru_cache

from witnessmark.model.findings import Finding
from witnessmark.model.library import Library
from witnessmark.model.machine import KeptFrom, Machine, Part
from witnessmark.model.position import stock_left
from witnessmark.model.trace import Trace, Traces
from witnessmark.model.words import HeldBy
from witnessmark.rules.view_machine import (
    AnsweringView,
    FindingView,
    LotView,
    MachineView,
    MuseumView,
    PartView,
    WholeMachineView,
)
from witnessmark.rules.view_words import Known

MUSEUMS_OWN = "museum"


def iso(day: date | None) -> str:
    """A day as text, empty where there is none; such texts compare as the days do."""
    return day.isoformat() if day else ""


def known(answer: bool | str) -> Known:  # noqa: FBT001  the record's own true, false or unknown
    """True, false or unknown as a word."""
    if answer is True:
        return "true"
    return "false" if answer is False else "unknown"


def museum_view(library: Library) -> MuseumView:
    """The museum as a whole, its stock as it is now."""
    museum = library.museum.value
    roles = {held.role.value for person in library.people.values() for held in person.roles}
    return {
        "name": museum.name if museum else "",
        "roles_held": sorted(roles),
        "lots": [lot_view(lot, library, day=date.max) for lot in library.lots],
    }


def lot_view(
    name: str, library: Library, *, day: date, without: str | None = None, drawn: int = 0
) -> LotView:
    """A lot as on a day, with what one option would draw on it."""
    lot = library.lots.get(name)
    left = stock_left(library, name, day, without=without)
    return {
        "id": name,
        "what": lot.what if lot else "",
        "is_known": lot is not None,
        "origin": lot.origin.value if lot else "unknown",
        "made_to": lot.made_to.value if lot else "wear",
        "can_be_made": "unknown" if lot is None else known(lot.can_be_made),
        "has_pattern": lot is not None and bool(lot.pattern or lot.drawing),
        "conditions": (lot.conditions or "") if lot else "",
        "giver": (lot.giver or "") if lot else "",
        "purpose": lot.purpose.value if lot else "undecided",
        "because": (lot.because or "") if lot else "",
        "drawn": drawn,
        "left_before": left,
        "left_after": left - drawn,
    }


def machine_view(library: Library, name: str, day: date) -> MachineView:
    """A machine by its folder's name, kept as on a day."""
    return _kept_view(library, name, library.machines[name].kept_from(day))


@lru_cache(maxsize=64)
def _kept_view(library: Library, name: str, way: KeptFrom) -> MachineView:
    """A machine kept in one way; the same for all its decisions of that time."""
    machine = library.machines[name]
    significance = machine.significance
    return {
        "id": name,
        "name": machine.name,
        "kept": way.how.value,
        "owner": machine.owner,
        "is_museums_own": machine.owner == MUSEUMS_OWN,
        "conditions": machine.conditions or "",
        "statement": significance.statement,
        "judged_against": significance.state,
        "carried_by": [
            {"aspect": aspect.value, "weight": float(weight)}
            for aspect, weight in significance.carried_by.items()
        ],
        "kept_since": way.since.isoformat(),
        "running_shows": way.shows or "",
        "last_known": _addresses(machine, lambda part: part.last_known),
        "tacked": _addresses(machine, lambda part: part.held_by is HeldBy.TACK_WELD),
        "handed": _addresses(machine, lambda part: part.handed),
        "highly_stressed": _addresses(machine, lambda part: part.highly_stressed),
        "bearing_marks": _addresses(machine, lambda part: part.bears is not None),
    }


def _addresses(machine: Machine, wanted: Callable[[Part], bool]) -> list[str]:
    return [address for address, _, part in machine.parts() if wanted(part)]


def whole_machine_view(library: Library, name: str) -> WholeMachineView:
    """A machine with its parts, kept as machine.yml last says."""
    machine = library.machines[name]
    index, last = max(enumerate(machine.kept), key=lambda way: way[1].since)
    return {
        **machine_view(library, name, date.max),
        "as_of": machine.as_of.isoformat(),
        "kept_index": index,
        "decided": last.decided or "",
        "kept_look_again": iso(last.look_again),
        "parts": _part_views(machine),
    }


def _part_views(machine: Machine) -> list[PartView]:
    return [
        {
            "assembly": assembly.id,
            "assembly_index": outer,
            "index": inner,
            "part": f"{assembly.id}/{part.id}",
            "name": part.name,
            "origin": part.origin.value,
            "made_to": part.made_to.value,
            "count": part.count,
            "can_be_made": known(part.can_be_made),
            "is_last_known": part.last_known,
            "sought": part.sought.what if part.sought else "",
            "made_to_known_from": part.made_to_known_from or "",
            "material": part.material or "",
            "drawing": part.drawing or "",
            "plating": part.plating or "",
            "note": part.note or "",
        }
        for outer, assembly in enumerate(machine.assemblies)
        for inner, part in enumerate(assembly.parts)
    ]


def finding_view(finding: Finding, *, machine: str, library: Library) -> FindingView:
    """One finding, with the decisions that rest on it."""
    return {
        "id": finding.id,
        "found_on": finding.date.isoformat(),
        "by": finding.by,
        "part": finding.part or "",
        "made_to": _made_to(library, machine).get(finding.part or "", ""),
        "basis": finding.basis.value,
        "told_by": finding.told_by or "",
        "grade": finding.grade.value,
        "what": finding.what,
        "measurement": finding.measurement or "",
        "instrument": finding.instrument or "",
        "limit": finding.limit or "",
        "limit_from": finding.limit_from or "",
        "cause": finding.cause or "",
        "has_photo": finding.photo is not None,
        "put_off_until": iso(finding.put_off.until if finding.put_off else None),
        "put_off_because": finding.put_off.because if finding.put_off else "",
        "decisions": [
            _answering(trace) for trace in _resting(library.traces).get((machine, finding.id), ())
        ],
    }


@lru_cache(maxsize=64)
def _made_to(library: Library, machine: str) -> Mapping[str, str]:
    """What each part of a machine was made to do, by address."""
    whole = library.machines.get(machine)
    return {address: part.made_to.value for address, _, part in whole.parts()} if whole else {}


def _answering(trace: Trace) -> AnsweringView:
    return {"id": trace.id, "is_settled": trace.is_settled}


@lru_cache(maxsize=8)
def _resting(traces: Traces) -> Mapping[tuple[str, str], tuple[Trace, ...]]:
    """The decisions that name a finding, by machine and finding."""
    found: dict[tuple[str, str], list[Trace]] = {}
    for trace in traces.all:
        for name in trace.findings:
            found.setdefault((trace.machine, name), []).append(trace)
    return {key: tuple(naming) for key, naming in found.items()}
