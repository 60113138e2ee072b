"""A machine's metal over time: what sits in it, what came off and is kept, and what is lost."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Collection
from datetime import date, timedelta
from fractions import Fraction

from witnessmark.model.library import Library
from witnessmark.model.options import Step
from witnessmark.model.position import Off, Pieces, Position, position_on, works_done
from witnessmark.model.words import Do, Fate, MadeTo, Origin
from witnessmark.publish.public import Account, Tally

Measure = Callable[[Pieces], Fraction]
_ORIGIN = {
    Origin.AS_BUILT: "as_built",
    Origin.IN_SERVICE: "in_service",
    Origin.UNKNOWN: "unknown",
    Origin.MUSEUM_MADE: "museum_made",
}


def account_of(
    library: Library, machine: str, *, as_of: date, published: Collection[str]
) -> tuple[Account, ...]:
    """The account on the day the parts were listed, and after each day of work since.

    Work whose record is not published still counts, without a name: the metal is gone or kept all
    the same.
    """
    listed = library.machines[machine].as_of
    days: dict[date, list[str]] = defaultdict(list)
    for done in works_done(library):
        if listed <= done.day <= as_of and _concerns(done.machine, done.steps, machine):
            days[done.day].append(done.decision)
    found = [_account(position_on(library, machine, listed), listed, None)]
    for day, decisions in sorted(days.items()):
        shown = [name for name in decisions if name in published]
        position = position_on(library, machine, day + timedelta(days=1))
        found.append(_account(position, day, shown[-1] if shown else None))
    return tuple(found)


def _concerns(worked_on: str, steps: tuple[Step, ...], machine: str) -> bool:
    """True when the work was on this machine, or took a part from it."""
    donors = (s.source.partition("/")[0] for s in steps if s.do is Do.FIT_FROM_DONOR and s.source)
    return worked_on == machine or machine in donors


def _account(position: Position, day: date, decision: str | None) -> Account:
    lasting = [p for here in position.places.values() for p in here if _lasts(p)]
    return Account(
        day=day,
        decision=decision,
        pieces=_tally(position, lambda p: Fraction(p.count)),
        kilograms=_tally(position, lambda p: (p.kilograms_each or Fraction(0)) * p.count),
        unweighed=sum(p.count for p in lasting if p.kilograms_each is None),
    )


def _lasts(pieces: Pieces) -> bool:
    return pieces.made_to is not MadeTo.BE_USED_UP


def _tally(position: Position, measure: Measure) -> Tally:
    sums: dict[str, Fraction] = defaultdict(Fraction)
    for here in position.places.values():
        for pieces in filter(_lasts, here):
            sums[_ORIGIN[pieces.origin]] += measure(pieces)
    for off in position.off:
        if _lasts(off.pieces) and off.pieces.is_original:
            sums[_where(off)] += measure(off.pieces)
    return Tally(**sums)


def _where(off: Off) -> str:
    if off.went_to is not None:
        return "elsewhere"
    return "kept" if off.fate is not None and off.fate is not Fate.LOST else "lost"
