"""Labels to print and tie to removed parts: one page that needs nothing beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from witnessmark.exchange.environment import environment
from witnessmark.model.library import Library
from witnessmark.rules.removed import Removed


@dataclass(frozen=True)
class PartLabel:
    """One label: what it says, and the decision's address where that is published; no place."""

    code: str
    machine: str
    part: str
    came_off: str
    decision: str
    address: str | None


def labels_of(library: Library, found: Sequence[Removed]) -> tuple[PartLabel, ...]:
    """A label for each part that is kept off a machine and has one."""
    return tuple(
        PartLabel(
            code=one.label,
            machine=one.machine_name,
            part=f"{one.name} ({one.count})" if one.count > 1 else one.name,
            came_off=one.day.isoformat(),
            decision=one.decision,
            address=_address(library, one.decision),
        )
        for one in found
        if one.label and one.is_kept
    )


def _address(library: Library, decision: str) -> str | None:
    museum, entry = library.museum.value, library.by_id.get(decision)
    web = museum.web if museum else None
    is_published = entry is not None and entry.value is not None and entry.value.publish is True
    if not is_published or not web or not web.startswith(("https://", "http://")):
        return None
    return f"{web.rstrip('/')}/d/{decision}/"


def render_labels(library: Library, found: Sequence[Removed]) -> str:
    """The sheet as one HTML page."""
    museum = library.museum.value
    labels = labels_of(library, found)
    without = sum(one.is_kept and one.label is None for one in found)
    template = environment().get_template("label-sheet.html")
    return template.render(
        museum=museum.name if museum else "", labels=labels, without_label=without
    )
