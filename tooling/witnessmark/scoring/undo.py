"""How far a later generation can undo an option: reversibility.

Source: the levels are the museum's rubric (policy `undo`); reversibility as undoing without harm
follows E.C.C.O. Professional Guidelines II, 2003, article 9.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

from witnessmark.model.options import FITS, Consequence, Option, Step
from witnessmark.model.position import Pieces
from witnessmark.model.words import Do, Fate, MadeTo
from witnessmark.scoring.score import Score, Scored, Withheld

DEFAULT_UNDO: Mapping[Do, int] = {
    **dict.fromkeys((Do.ADJUST, Do.LUBRICATE, Do.DISMANTLE, Do.REFIT, Do.EXCHANGE, Do.CHARGE), 4),
    **dict.fromkeys((Do.ADD, Do.LOCK_OUT, Do.MOVE), 4),
    **dict.fromkeys((Do.CLEAN, Do.FIT_NEW, Do.FIT_OLD_STOCK, Do.SLEEVE, Do.REMOVE), 3),
    **dict.fromkeys((Do.CHANGE_LUBRICANT, Do.COAT, Do.SEAL, Do.HONE, Do.FIT_FROM_DONOR), 2),
    **dict.fromkeys((Do.MACHINE, Do.GRIND, Do.DRILL, Do.WELD, Do.BUILD_UP, Do.HEAT, Do.MARK), 1),
}
"""Undo level by verb where the policy says nothing (the museum's own judgement)."""

LOST_CAN_BE_MADE = 2
LAST_OF_STOCK = 1
LAST_WITHOUT_PATTERN = 0

PiecesAt = Callable[[str], tuple[Pieces, ...]]


@dataclass(frozen=True)
class Stock:
    """What a lot holds when the decision is read."""

    left: int
    can_be_made: bool
    has_pattern: bool


@dataclass(frozen=True)
class Undo:
    """The undo level of one step or consequence, and where the level comes from."""

    index: int
    what: str
    addresses: tuple[str, ...]
    level: int
    default: int
    because: str | None
    counts: bool

    @property
    def is_overridden(self) -> bool:
        """True when the record sets another level than the museum's table."""
        return self.level != self.default


@dataclass(frozen=True)
class Undoing:
    """Every step and consequence with its undo level, and the score they make."""

    rows: tuple[Undo, ...]
    score: Scored


def reckon_undo(
    option: Option,
    *,
    pieces_at: PiecesAt,
    donor_at: PiecesAt,
    table: Mapping[Do, int],
    stock: Mapping[str, Stock],
) -> Undoing:
    """The least reversible step or consequence on an original part; 4 where there is none."""
    rows = tuple(_rows(option, pieces_at, donor_at, table, stock))
    counted = [row for row in rows if row.counts]
    unsaid = [row for row in counted if row.level < 0]
    if unsaid:
        why = tuple(f"{row.what}: it is not said what becomes of the part." for row in unsaid)
        return Undoing(rows, Withheld(why))
    if not counted:
        score = Score.exactly(4, "No step or consequence touches an original part.")
        return Undoing(rows, score)
    level = min(row.level for row in counted)
    governing = [row for row in counted if row.level == level]
    facts = tuple(dict.fromkeys(_fact(row) for row in governing))
    return Undoing(rows, Score.exactly(level, *facts))


def _fact(row: Undo) -> str:
    own = f" (the museum's table says {row.default}: {row.because})" if row.is_overridden else ""
    return f"{row.what} {', '.join(row.addresses)}: undo level {row.level}{own}."


@dataclass
class _Bench:
    """Whose own pieces sit in each place, as the steps are laid one by one."""

    pieces_at: PiecesAt
    moved: dict[str, str] = field(default_factory=dict)
    out: set[str] = field(default_factory=set)
    renewed: set[str] = field(default_factory=set)

    def touched_by(self, event: Step | Consequence) -> list[Pieces]:
        """The pieces an event acts on: the old ones, where no new part has taken their place."""
        fits = isinstance(event, Step) and event.do in FITS
        old = [a for a in event.addresses if fits or a not in self.renewed]
        return [p for address in old for p in self.pieces_at(self.moved.get(address, address))]

    def lay(self, step: Step) -> None:
        """Note what a step takes out, renews or exchanges; a count renews no place wholly."""
        here = set(step.addresses)
        if step.do is Do.EXCHANGE:
            first, second = step.addresses
            at = self.moved
            at[first], at[second] = at.get(second, second), at.get(first, first)
            for places in (self.out, self.renewed):
                if len(places & here) == 1:
                    places.symmetric_difference_update(here)
        elif step.do is Do.REFIT:
            self.out -= here
        elif step.count is None and step.do is Do.REMOVE:
            self.out |= here
        elif step.count is None and step.do in FITS:
            self.renewed |= here & self.out


def _rows(
    option: Option,
    pieces_at: PiecesAt,
    donor_at: PiecesAt,
    table: Mapping[Do, int],
    stock: Mapping[str, Stock],
) -> Iterator[Undo]:
    bench = _Bench(pieces_at)
    for index, step in enumerate(option.steps):
        pieces = bench.touched_by(step)
        if step.do is Do.FIT_FROM_DONOR and step.source:
            pieces += donor_at(step.source)
        originals = [p for p in pieces if p.is_in_scope]
        level = _default(index, option, originals, table, stock)
        set_level = level if step.undo is None else step.undo
        what = step.do.value.capitalize().replace("-", " ")
        yield Undo(
            index, what, step.addresses, set_level, level, step.because, counts=bool(originals)
        )
        bench.lay(step)
    for offset, consequence in enumerate(option.listed_consequences, start=len(option.steps)):
        yield _of_consequence(offset, consequence, bench.touched_by(consequence))


def _of_consequence(index: int, consequence: Consequence, pieces: list[Pieces]) -> Undo:
    counts = any(p.is_in_scope for p in pieces)
    level = 1 if consequence.undo is None else consequence.undo
    what = f"Becomes {consequence.becomes}:"
    return Undo(
        index, what, consequence.addresses, level, level, consequence.because, counts=counts
    )


def _default(
    index: int,
    option: Option,
    originals: list[Pieces],
    table: Mapping[Do, int],
    stock: Mapping[str, Stock],
) -> int:
    step = option.steps[index]
    usual = table.get(step.do, DEFAULT_UNDO[step.do])
    if step.do is Do.REMOVE:
        return _removal(index, option, originals, usual)
    if step.do is Do.FIT_OLD_STOCK:
        return _old_stock(step, option, stock, usual)
    return usual


def _removal(index: int, option: Option, originals: list[Pieces], usual: int) -> int:
    """Removed and refitted 4, kept 3, lost 2 or 0; -1 while the record does not say."""
    step = option.steps[index]
    if step.fate is None:
        later = option.steps[index + 1 :]
        refitted = {a for s in later if s.do is Do.REFIT for a in s.addresses}
        return DEFAULT_UNDO[Do.REFIT] if set(step.addresses) <= refitted else -1
    if step.fate is not Fate.LOST:
        return usual
    renewable = all(p.made_to is MadeTo.WEAR and p.can_be_made is True for p in originals)
    return LOST_CAN_BE_MADE if renewable else 0


def _old_stock(step: Step, option: Option, stock: Mapping[str, Stock], usual: int) -> int:
    lot = stock.get(step.source or "")
    if lot is None:
        return usual
    drawn = sum(
        (s.count or 1) * len(s.addresses)
        for s in option.steps
        if s.do is Do.FIT_OLD_STOCK and s.source == step.source
    )
    if lot.left - drawn > 0 or lot.can_be_made:
        return usual
    return LAST_OF_STOCK if lot.has_pattern else LAST_WITHOUT_PATTERN


def undo_levels(undoing: Undoing) -> Mapping[int, int]:
    """The undo level of each step and consequence by position, as the fabric reckoning wants it."""
    return {row.index: max(row.level, 0) for row in undoing.rows}
