"""What sits in every place of a machine on a day: machine.yml plus the work done since."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from fractions import Fraction
from functools import lru_cache

from witnessmark.model.library import Library
from witnessmark.model.machine import Part
from witnessmark.model.options import Step
from witnessmark.model.quantity import QuantityFault, convert, parse_quantity
from witnessmark.model.trace import Traces
from witnessmark.model.words import Do, Fate, MadeTo, Origin

Counted = Mapping[str, tuple["Pieces", ...]]


@dataclass(frozen=True)
class Pieces:
    """A number of like pieces in one place."""

    count: int
    name: str
    origin: Origin
    made_to: MadeTo
    can_be_made: bool | str = "unknown"
    last_known: bool = False
    label: str | None = None
    donor: str | None = None
    lot: str | None = None
    fitted_by: str | None = None
    kilograms_each: Fraction | None = None

    @property
    def is_original(self) -> bool:
        """True for evidence: all but what was made since the machine came to a museum."""
        return self.origin is not Origin.MUSEUM_MADE

    @property
    def is_in_scope(self) -> bool:
        """True for what the fabric and undo scores look at."""
        return self.is_original and self.made_to is not MadeTo.BE_USED_UP


@dataclass(frozen=True)
class Off:
    """Pieces that came off a machine, with what became of them."""

    machine: str
    address: str
    pieces: Pieces
    fate: Fate | None
    place: str | None
    day: date
    decision: str
    went_to: str | None = None


@dataclass(frozen=True)
class Position:
    """A machine on a day: the pieces in each place, and what has come off by then."""

    machine: str
    places: Counted
    off: tuple[Off, ...] = ()


@dataclass(frozen=True)
class Done:
    """Work that ended: the decision, its machine and its last day."""

    day: date
    decision: str
    machine: str
    steps: tuple[Step, ...]


def works_done(library: Library) -> tuple[Done, ...]:
    """All ended work of the museum in date order, the same day by decision id."""
    return _works(library.traces)


@lru_cache(maxsize=8)
def _works(traces: Traces) -> tuple[Done, ...]:
    found = [Done(t.ended, t.id, t.machine, t.done) for t in traces.all if t.ended]
    return tuple(sorted(found, key=lambda done: (done.day, done.decision)))


@lru_cache(maxsize=8)
def works_touching(traces: Traces) -> Mapping[str, tuple[Done, ...]]:
    """Ended work by machine, the machines that gave parts included."""
    touched: dict[str, list[Done]] = {}
    for done in _works(traces):
        givers = {
            step.source.partition("/")[0]
            for step in done.steps
            if step.do is Do.FIT_FROM_DONOR and step.source
        }
        for machine in sorted(givers | {done.machine}):
            touched.setdefault(machine, []).append(done)
    return {machine: tuple(works) for machine, works in touched.items()}


def position_on(
    library: Library, machine: str, day: date | None = None, *, without: str | None = None
) -> Position:
    """The position before a day began (or now), less the work of one decision."""
    whole = library.machines.get(machine)
    if whole is None:
        return Position(machine, {})
    position = Position(machine, _as_listed(library, machine))
    for done in works_touching(library.traces).get(machine, ()):
        if done.day < whole.as_of or done.decision == without or (day and done.day >= day):
            continue
        if done.machine == machine:
            position = _after(position, done, library)
        else:
            position = _after_giving(position, done)
    return position


@lru_cache(maxsize=64)
def _as_listed(library: Library, machine: str) -> Counted:
    """What machine.yml lists in each place; all decisions of a machine start from it."""
    parts = library.machines[machine].parts()
    return {
        address: (
            Pieces(
                count=part.count,
                name=part.name,
                origin=part.origin,
                made_to=part.made_to,
                can_be_made=part.can_be_made,
                last_known=part.last_known,
                kilograms_each=_kilograms_each(part),
            ),
        )
        for address, _, part in parts
    }


def _kilograms_each(part: Part) -> Fraction | None:
    """The mass of one piece; `mass` is of the whole set."""
    if part.mass is None:
        return None
    try:
        return convert(parse_quantity(part.mass), "kg") / part.count
    except QuantityFault:
        return None


@dataclass
class _Bench:
    """The places of a machine while one job's steps are laid on them, in order."""

    done: Done
    places: dict[str, list[Pieces]]
    off: list[Off] = field(default_factory=list)

    def take(self, address: str, count: int | None) -> list[Pieces]:
        """Take pieces out of a place, originals first; all of them without a count."""
        here = sorted(self.places.get(address, []), key=lambda pieces: not pieces.is_original)
        left = count if count is not None else sum(pieces.count for pieces in here)
        taken, kept = [], []
        for pieces in here:
            part = min(left, pieces.count)
            left -= part
            taken += [replace(pieces, count=part)] if part else []
            kept += [replace(pieces, count=pieces.count - part)] if part < pieces.count else []
        self.places[address] = kept
        return taken

    def out_by_this_job(self, address: str) -> int:
        """How many pieces this job has taken out of a place."""
        mine = (o for o in self.off if o.decision == self.done.decision and o.address == address)
        return sum(off.pieces.count for off in mine)


def _after(position: Position, done: Done, library: Library) -> Position:
    bench = _Bench(done, {a: list(p) for a, p in position.places.items()}, list(position.off))
    for step in done.steps:
        for index, address in enumerate(step.addresses):
            _lay(bench, step, address, index, library)
    return Position(
        position.machine, {a: tuple(p) for a, p in bench.places.items()}, tuple(bench.off)
    )


def _lay(bench: _Bench, step: Step, address: str, index: int, library: Library) -> None:
    if step.do is Do.REMOVE:
        label = step.all_labels[index] if index < len(step.all_labels) else None
        for pieces in bench.take(address, step.count):
            labelled = replace(pieces, label=label or pieces.label)
            bench.off.append(_off(bench.done, address, labelled, step))
    elif step.do is Do.REFIT:
        _put_back(bench, step, address)
    elif step.do is Do.EXCHANGE and index == 0:
        first, second = step.addresses
        places = bench.places
        places[first], places[second] = places.get(second, []), places.get(first, [])
    elif step.do in {Do.FIT_NEW, Do.FIT_OLD_STOCK, Do.FIT_FROM_DONOR}:
        bench.places.setdefault(address, []).append(_fitted(bench, step, address, library))


def _off(done: Done, address: str, pieces: Pieces, step: Step) -> Off:
    return Off(done.machine, address, pieces, step.fate, step.place, done.day, done.decision)


def _put_back(bench: _Bench, step: Step, address: str) -> None:
    """Refit: what carries the step's label, else what this job took out of the place."""
    wanted = {label.casefold() for label in step.all_labels}
    back: list[Off] = []
    left: list[Off] = []
    for off in bench.off:
        named = off.pieces.label is not None and off.pieces.label.casefold() in wanted
        own = not wanted and off.decision == bench.done.decision and off.address == address
        (back if named or own else left).append(off)
    bench.off = left
    bench.places.setdefault(address, []).extend(off.pieces for off in back)


def _fitted(bench: _Bench, step: Step, address: str, library: Library) -> Pieces:
    before = _listed_part(library, bench.done.machine, address)
    count = step.count or bench.out_by_this_job(address) or (before.count if before else 1)
    name = step.what or (before.name if before else address)
    made_to = before.made_to if before else MadeTo.LAST
    origin, lot, donor = Origin.MUSEUM_MADE, None, None
    if step.do is Do.FIT_OLD_STOCK and step.source is not None and step.source in library.lots:
        lot = step.source
        origin, made_to = library.lots[lot].origin, library.lots[lot].made_to
    elif step.do is Do.FIT_FROM_DONOR and step.source is not None:
        donor, _, place = step.source.partition("/")
        given = position_on(library, donor, bench.done.day, without=bench.done.decision)
        origin = _first_taken(given.places.get(place, ()))
    return Pieces(
        count=count,
        name=name,
        origin=origin,
        made_to=made_to,
        can_be_made=before.can_be_made if before else "unknown",
        lot=lot,
        donor=donor,
        fitted_by=bench.done.decision,
        kilograms_each=_kilograms_each(before) if before else None,
    )


def _first_taken(here: Iterable[Pieces]) -> Origin:
    """The origin of what a place gives first: an original where it holds one."""
    origins = [pieces.origin for pieces in here]
    originals = (origin for origin in origins if origin is not Origin.MUSEUM_MADE)
    return next(originals, origins[0] if origins else Origin.UNKNOWN)


def _listed_part(library: Library, machine: str, address: str) -> Part | None:
    whole = library.machines.get(machine)
    parts: Iterable[tuple[str, object, Part]] = whole.parts() if whole else ()
    return next((part for listed, _, part in parts if listed == address), None)


def _after_giving(position: Position, done: Done) -> Position:
    """The position of a machine after another machine's job took parts from it."""
    bench = _Bench(done, {a: list(p) for a, p in position.places.items()}, list(position.off))
    for step in done.steps:
        if step.do is not Do.FIT_FROM_DONOR or not step.source:
            continue
        giver, _, address = step.source.partition("/")
        if giver == position.machine:
            count = None if step.count is None else step.count * len(step.addresses)
            for pieces in bench.take(address, count):
                off = _off(replace(done, machine=giver), address, pieces, step)
                bench.off.append(replace(off, went_to=done.machine))
    return Position(
        position.machine, {a: tuple(p) for a, p in bench.places.items()}, tuple(bench.off)
    )


def stock_left(
    library: Library, lot: str, day: date, *, without: str | None = None, reserved: bool = False
) -> int:
    """Pieces left in a lot before a day; `reserved` also takes off what agreed work will draw."""
    stores = library.stores_file.value if library.stores_file else None
    if stores is None or lot not in library.lots:
        return 0
    drawn = sum(
        count
        for ended, decision, count in _draws(library.traces).get(lot, ())
        if decision != without and (reserved if ended is None else stores.as_of <= ended < day)
    )
    return library.lots[lot].count - drawn


@lru_cache(maxsize=8)
def _draws(traces: Traces) -> Mapping[str, tuple[tuple[date | None, str, int], ...]]:
    """Each drawing on a lot: day the work ended (none while reserved), decision, how many."""
    draws: dict[str, list[tuple[date | None, str, int]]] = {}
    jobs: list[tuple[date | None, str, tuple[Step, ...]]] = [
        (done.day, done.decision, done.steps) for done in _works(traces)
    ]
    jobs += [(None, trace.id, trace.reserves) for trace in traces.all if trace.reserves]
    for day, decision_id, steps in jobs:
        for step in steps:
            if step.do is Do.FIT_OLD_STOCK and step.source:
                drawn = (step.count or 1) * len(step.addresses)
                draws.setdefault(step.source, []).append((day, decision_id, drawn))
    return {lot: tuple(found) for lot, found in draws.items()}


def draws_on(library: Library, lot: str) -> tuple[tuple[date | None, str, int], ...]:
    """Each draw on a lot: the day the work ended (none while reserved), decision, how many."""
    return draws_on_lot(library.traces, lot)


def draws_on_lot(traces: Traces, lot: str) -> tuple[tuple[date | None, str, int], ...]:
    """The same, from the traces alone."""
    return _draws(traces).get(lot, ())
