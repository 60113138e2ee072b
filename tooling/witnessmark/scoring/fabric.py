"""How much original material an option leaves as it was: the aspect `material`.

Source: the museum's own rubric (policy `fabric`); that the worst-treated part counts for most is
our own judgement. The idea that parts made to be renewed may be renewed: English Heritage,
Conservation Principles, 2008, paragraphs 114 to 116.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from witnessmark.model.options import ALTERS, FITS, Consequence, Option, Step
from witnessmark.model.policy import FabricPolicy, FabricRow, FabricTable
from witnessmark.model.position import Pieces
from witnessmark.model.words import Do, Fate, Like, MadeTo
from witnessmark.scoring.score import Score, Scored, Withheld, one_decimal

Scope = Mapping[str, tuple[Pieces, ...]]
"""The pieces in each place of the assemblies the decision is about."""

RESTORABLE_FROM = 2
UNTOUCHED_FROM = 4
_SUCCESSOR = {
    Like.SAME: "replaced alike",
    Like.UNLIKE: "replaced by another kind",
    None: "not replaced",
}
_NOUGHT = Fraction(0)


@dataclass(frozen=True)
class _Fate:
    """What happens to some like pieces of one place."""

    pieces: Pieces
    altered: int | None = None
    is_out: bool = False
    fate: Fate | None = None
    successor: Like | None = None


@dataclass(frozen=True)
class Treated:
    """One place after the option: how much of it is left, in words and as a share.

    `altered` counts the pieces that stay in the machine and are no longer as they were.
    """

    address: str
    name: str
    count: int
    share: Fraction
    what: str
    is_last_known_lost: bool = False
    altered: int = 0


@dataclass(frozen=True)
class Fabric:
    """The reckoning of one option: each place in scope, the two terms and the score."""

    treated: tuple[Treated, ...]
    worst: Fraction
    mean: Fraction
    score: Scored


@dataclass(frozen=True)
class Originals:
    """The original pieces in scope by place, and what each place is while nothing is done to it.

    All options of a decision start from the same, and each leaves most places alone.
    """

    fates: Mapping[str, list[_Fate]]
    left_alone: Mapping[str, Treated]
    policy: FabricPolicy


def originals_in(scope: Scope, *, policy: FabricPolicy) -> Originals:
    """The originals in scope before any option."""
    found = {a: [_Fate(p) for p in here if p.is_in_scope] for a, here in scope.items()}
    fates = {address: here for address, here in found.items() if here}
    alone = {address: _treated(address, here, policy.table) for address, here in fates.items()}
    return Originals(fates, alone, policy)


def reckon_fabric(
    option: Option, *, scope: Scope, policy: FabricPolicy, undo_of: Mapping[int, int]
) -> Fabric:
    """Lay an option's steps and consequences on the original parts in scope.

    `undo_of` gives the undo level of each step, then each consequence, by position.
    """
    return reckon_on(originals_in(scope, policy=policy), option, undo_of=undo_of)


def reckon_on(originals: Originals, option: Option, *, undo_of: Mapping[int, int]) -> Fabric:
    """The same, for one of several options on the same originals."""
    before, policy = originals.fates, originals.policy
    if not before:
        nothing = Score.exactly(4, "Nothing original is in scope.")
        return Fabric((), Fraction(1), Fraction(1), nothing)
    places = dict(before)
    events: tuple[Step | Consequence, ...] = (*option.steps, *option.listed_consequences)
    for index, event in enumerate(events):
        _lay(places, event, undo_of.get(index, UNTOUCHED_FROM))
    laid = {a: fates for a, fates in places.items() if fates is not before.get(a)}
    unsaid = sorted(a for a, fates in laid.items() if any(_is_unsaid(f) for f in fates))
    treated = tuple(
        _treated(a, fates, policy.table) if a in laid else originals.left_alone[a]
        for a, fates in places.items()
    )
    shares = _Shares.of(treated)
    if unsaid:
        why = tuple(f"It is not said what becomes of {address}." for address in unsaid)
        return Fabric(treated, shares.worst, shares.mean, Withheld(why))
    return Fabric(treated, shares.worst, shares.mean, _score(treated, shares, policy))


@dataclass(frozen=True)
class _Shares:
    """The worst and the mean of some shares, and which of them (by `id`) are less than whole."""

    worst: Fraction
    mean: Fraction
    less: frozenset[int]

    @classmethod
    def of(cls, treated: tuple[Treated, ...]) -> _Shares:
        """The shares of these places.

        Places left alone have the very same Fraction from the policy, so it is looked at once:
        comparing and hashing each took a third of the fabric's time (measured).
        """
        counts = Counter(id(t.share) for t in treated)
        each = {id(t.share): t.share for t in treated}
        total = sum((n * each[key] for key, n in counts.items()), _NOUGHT)
        less = frozenset(key for key, share in each.items() if share < 1)
        return cls(min(each.values()), total / len(treated), less)


def _is_unsaid(fate: _Fate) -> bool:
    return fate.is_out and fate.fate is None


def _score(treated: tuple[Treated, ...], shares: _Shares, policy: FabricPolicy) -> Score:
    lost = [t for t in treated if t.is_last_known_lost]
    if lost:
        return Score.exactly(0, *(f"{t.name} is the last one known, and it is lost." for t in lost))
    worst, mean, rest = shares.worst, shares.mean, 1 - policy.worst
    level = 4 * (policy.worst * worst + rest * mean)
    touched = [t for t in treated if id(t.share) in shares.less] or list(treated[:1])
    facts = [
        f"{t.name}: {t.what} ({one_percent(t.share)} of it left as evidence)." for t in touched
    ]
    facts.append(
        f"4 x ({policy.worst} x worst {one_percent(worst)} + {rest} x mean "
        f"{one_percent(mean)} over {len(treated)} parts) = {one_decimal(level)}."
    )
    return Score.exactly(level, *facts)


def one_percent(share: Fraction) -> str:
    """A share as whole percent; never 0 or 100 unless it is exactly that.

    >>> one_percent(Fraction(1, 2)), one_percent(Fraction(999, 1000)), one_percent(Fraction(1))
    ('50 %', 'over 99 %', '100 %')
    """
    above, below = share.numerator, share.denominator
    rounded = (200 * above + below) // (2 * below)
    if above < below and rounded >= 100:  # noqa: PLR2004  a hundred percent
        return "over 99 %"
    if above > 0 and rounded <= 0:
        return "under 1 %"
    return f"{rounded} %"


def _lay(places: dict[str, list[_Fate]], event: Step | Consequence, undo: int) -> None:
    if isinstance(event, Step) and event.do is Do.EXCHANGE:
        _swap(places, *event.addresses)
        return
    for address in event.addresses:
        if address in places:
            places[address] = list(_after(places[address], event, undo))


def _swap(places: dict[str, list[_Fate]], first: str, second: str) -> None:
    """Let what sits in two places change places; what is out stays with the place it left."""
    here, there = places.get(first, []), places.get(second, [])
    moved = {first: (here, there), second: (there, here)}
    for address, (before, arriving) in moved.items():
        fates = [f for f in before if f.is_out] + [f for f in arriving if not f.is_out]
        places[address] = fates
        if not fates:
            del places[address]


def _after(fates: list[_Fate], event: Step | Consequence, undo: int) -> Iterator[_Fate]:
    """The pieces of one place after one event; a count touches only so many, first ones first."""
    left = event.count if event.count is not None else sum(f.pieces.count for f in fates)
    for fate in fates:
        changed = _changed(fate, event, undo)
        if changed is None or left == 0:
            yield fate
            continue
        touched = min(left, fate.pieces.count)
        left -= touched
        yield replace(changed, pieces=replace(fate.pieces, count=touched))
        if touched < fate.pieces.count:
            yield replace(fate, pieces=replace(fate.pieces, count=fate.pieces.count - touched))


def _changed(fate: _Fate, event: Step | Consequence, undo: int) -> _Fate | None:
    """What an event makes of pieces, or None where it does not concern them."""
    if isinstance(event, Consequence) or event.do in ALTERS:
        altered = undo if fate.altered is None else min(undo, fate.altered)
        acts_on_successor = fate.is_out and fate.successor is not None
        return None if acts_on_successor else replace(fate, altered=altered)
    if event.do is Do.REMOVE:
        return None if fate.is_out else replace(fate, is_out=True, fate=event.fate)
    if event.do is Do.REFIT:
        back = replace(fate, is_out=False, fate=None, successor=None)
        return back if fate.is_out and fate.successor is None else None
    if event.do in FITS:
        can_take = fate.is_out and fate.successor is None
        return replace(fate, successor=event.like) if can_take else None
    return None


def _treated(address: str, fates: list[_Fate], table: FabricTable) -> Treated:
    altered = sum(f.pieces.count for f in fates if _is_altered(f) and not f.is_out)
    if len(fates) == 1:
        (fate,) = fates
        pieces, share = fate.pieces, _share(fate, table)
        is_lost = pieces.last_known and fate.fate is Fate.LOST
        return Treated(address, pieces.name, pieces.count, share, _words(fate), is_lost, altered)
    count = sum(f.pieces.count for f in fates)
    shares = [(f.pieces.count, _share(f, table), f) for f in fates]
    share = sum((n * s for n, s, _ in shares), _NOUGHT) / count
    what = _words(min(shares, key=lambda row: row[1])[2])
    alike = sum(n for n, _, fate in shares if _words(fate) == what)
    some = f"{alike} of {count} " if alike < count else ""
    lost = any(f.pieces.last_known and f.fate is Fate.LOST for f in fates)
    return Treated(address, fates[0].pieces.name, count, share, some + what, lost, altered)


def _is_altered(fate: _Fate) -> bool:
    return fate.altered is not None and fate.altered < UNTOUCHED_FROM


def _share(fate: _Fate, table: FabricTable) -> Fraction:
    wear = fate.pieces.made_to is MadeTo.WEAR

    def read(row: FabricRow) -> Fraction:
        return row.wear if wear else row.last

    share = read(table.untouched)
    if fate.altered is not None and _is_altered(fate):
        restorable = fate.altered >= RESTORABLE_FROM
        share *= read(table.altered_restorable if restorable else table.altered_for_good)
    return share * read(_row(fate, table)) if fate.is_out else share


def _row(fate: _Fate, table: FabricTable) -> FabricRow:
    if fate.fate is not Fate.LOST:
        alike = fate.successor is Like.SAME
        return table.kept_successor_alike if alike else table.kept_otherwise
    can_be_made = fate.pieces.can_be_made is True
    return table.lost_can_be_made if can_be_made else table.lost_for_good


def _words(fate: _Fate) -> str:
    said = []
    if fate.altered is not None and _is_altered(fate):
        for_good = fate.altered < RESTORABLE_FROM
        said.append("altered for good" if for_good else "altered, can be restored")
    if fate.is_out and fate.fate is Fate.LOST:
        made = fate.pieces.can_be_made is True
        said.append("taken out and not kept" + ("" if made else ", and it cannot be made again"))
    elif fate.is_out:
        said.append(f"taken out and kept, {_SUCCESSOR[fate.successor]}")
    return ", then ".join(said) or "stays as it is"
