"""When things happened to a decision, and where the parts are that came off."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta
from functools import lru_cache

from witnessmark.model.decision import Decision
from witnessmark.model.library import Library
from witnessmark.model.position import Off, position_on, stock_left
from witnessmark.model.words import Do, State
from witnessmark.publish.public_decision import PublicEvent, PublicLeft, PublicOldPart
from witnessmark.publish.shown_names import Names

_LOOK, _LOOK_WAS_DUE = "We look again.", "A second look was due."


def timeline(decision: Decision, as_of: date) -> tuple[PublicEvent, ...]:
    """The decision's days in order; what lies after the day of the site is marked."""
    events = sorted(_events(decision), key=lambda found: found[0])
    return tuple(
        PublicEvent(
            day=day,
            what=_LOOK_WAS_DUE if what == _LOOK and day <= as_of else what,
            is_main=is_main,
            is_ahead=day > as_of,
            is_due=what == _LOOK,
        )
        for day, what, is_main in events
    )


def _events(decision: Decision) -> Iterator[tuple[date, str, bool]]:
    yield decision.opened, "The question was written down.", False
    if decision.judged_by:
        yield decision.judged_by.date, "The options were judged.", False
    days = sorted({signature.date for signature in decision.agreed})
    for day in days[:-1]:
        yield day, "The first agreement was recorded.", False
    if days:
        yield days[-1], "The decision was agreed.", True
    if decision.emergency and decision.emergency.ratified:
        yield decision.emergency.ratified, "The emergency work was ratified.", False
    if decision.work:
        yield decision.work.started, "The work began.", False
        if decision.work.ended:
            yield decision.work.ended, "The work ended.", True
    for outcome in decision.outcomes:
        yield outcome.date, "We looked again.", False
    if decision.until:
        yield decision.until, "The decision runs out.", False
    if decision.look_again and decision.look_again.date:
        yield decision.look_again.date, _LOOK, False


def old_parts(
    decision: Decision, machine: str, *, library: Library, names: Names
) -> tuple[PublicOldPart, ...]:
    """What came off under this decision, or would; labels and fates, never the place."""
    if decision.work and decision.work.ended and decision.state in {State.DONE, State.REPLACED}:
        return tuple(_came_off(decision, library, names))
    return tuple(_will_come_off(decision, machine, names))


def _came_off(decision: Decision, library: Library, names: Names) -> Iterator[PublicOldPart]:
    for worked_on, off in _off_by_decision(library).get(decision.id, ()):
        yield PublicOldPart(
            machine=worked_on,
            address=off.address,
            day=off.day,
            origin=off.pieces.origin,
            name=names.part(worked_on, off.address),
            count=off.pieces.count,
            label=off.pieces.label,
            fate=off.fate,
            now_in=names.machine(off.went_to) if off.went_to else None,
        )


@lru_cache(maxsize=2)
def _off_by_decision(library: Library) -> Mapping[str, Sequence[tuple[str, Off]]]:
    """All that came off in the museum, with its machine, by decision; laid out once a museum."""
    found: dict[str, list[tuple[str, Off]]] = {}
    for machine in sorted(library.machines):
        for off in position_on(library, machine).off:
            found.setdefault(off.decision, []).append((machine, off))
    return found


def _will_come_off(decision: Decision, machine: str, names: Names) -> Iterator[PublicOldPart]:
    chosen = decision.chosen
    for step in chosen.steps if chosen else ():
        if step.do is not Do.REMOVE or step.fate is None:
            continue
        for index, address in enumerate(step.addresses):
            labels = step.all_labels
            yield PublicOldPart(
                machine=machine,
                address=address,
                name=names.part(machine, address),
                count=step.count or 1,
                label=labels[index] if index < len(labels) else None,
                fate=step.fate,
                now_in=None,
            )


def stock_in_question(decision: Decision, library: Library, as_of: date) -> Iterator[PublicLeft]:
    """The lots that some option would draw on, with what lies there at the end of a day."""
    steps = (step for option in decision.options for step in option.steps)
    wanted = {step.source for step in steps if step.do is Do.FIT_OLD_STOCK and step.source}
    for name in sorted(wanted & library.lots.keys()):
        left = stock_left(library, name, as_of + timedelta(days=1))
        yield PublicLeft(what=library.lots[name].what, left=left)
