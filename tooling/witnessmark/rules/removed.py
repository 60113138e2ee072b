"""Every original that came off a machine: where, by which decision, whether it can be seen."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from witnessmark.model.library import Library
from witnessmark.model.position import Off, position_on
from witnessmark.model.words import Fate, State, Word


class Seen(Word):
    """Whether a removed part can be seen."""

    YES = "yes", "It is kept where visitors can see it."
    ON_ASKING = "on asking", "It is kept for study; whoever asks can see it."
    IN_A_MACHINE = "in a machine", "It works in another machine."
    NO = "no", "It lies in a store."
    GONE = "gone", "It was not kept."


_SEEN = {
    Fate.DISPLAYED: Seen.YES,
    Fate.STUDY: Seen.ON_ASKING,
    Fate.STORED: Seen.NO,
    Fate.LOST: Seen.GONE,
}


@dataclass(frozen=True, kw_only=True)
class Removed:
    """Pieces of an original that came off; `place` and `place_name` are private."""

    machine: str
    machine_name: str
    address: str
    name: str
    count: int
    label: str | None
    fate: Fate | None
    place: str | None
    place_name: str | None
    day: date
    decision: str
    state: State | None
    seen: Seen
    went_to: str | None

    @property
    def is_kept(self) -> bool:
        """True where the museum still has it, off any machine."""
        return self.seen in {Seen.YES, Seen.ON_ASKING, Seen.NO}


def removed_parts(library: Library, *, on: date, query: str = "") -> tuple[Removed, ...]:
    """The originals off their machines by the end of a day, by label; those without one last.

    Every word of the query stands in the label, machine, part, place, fate or decision.
    """
    words = query.casefold().split()
    found = (_removed(library, off) for off in _off(library, on))
    wanted = [one for one in found if all(word in _findable(one) for word in words)]
    return tuple(sorted(wanted, key=_order))


def _off(library: Library, on: date) -> Iterator[Off]:
    for machine in sorted(library.machines):
        for off in position_on(library, machine, on + timedelta(days=1)).off:
            if off.pieces.is_original:
                yield off


def _order(one: Removed) -> tuple[bool, str, str, str, str]:
    label = (one.label or "").casefold()
    return (one.label is None, label, one.machine, one.address, one.decision)


def _removed(library: Library, off: Off) -> Removed:
    stores = library.stores_file.value if library.stores_file else None
    names = {place.id: place.name for place in stores.places} if stores else {}
    entry = library.by_id.get(off.decision)
    seen = _SEEN[off.fate] if off.fate else Seen.NO
    return Removed(
        machine=off.machine,
        machine_name=library.machines[off.machine].name,
        address=off.address,
        name=off.pieces.name,
        count=off.pieces.count,
        label=off.pieces.label,
        fate=off.fate,
        place=off.place,
        place_name=names.get(off.place) if off.place else None,
        day=off.day,
        decision=off.decision,
        state=entry.value.state if entry and entry.value else None,
        seen=Seen.IN_A_MACHINE if off.went_to else seen,
        went_to=off.went_to,
    )


def _findable(one: Removed) -> str:
    texts = (
        *(one.label, one.machine, one.machine_name, one.address, one.name, one.place),
        *(one.place_name, one.decision, one.went_to, one.seen.value),
        one.fate.value if one.fate else None,
    )
    return " ".join(text for text in texts if text).casefold()
