"""Records whose own file did not change but that a change reaches."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date

from witnessmark.exchange.review.sides import Side
from witnessmark.model.decision import Decision
from witnessmark.model.library import Library
from witnessmark.model.position import stock_left
from witnessmark.model.words import Do
from witnessmark.weighing.changes.change import Change, Kind, Weight
from witnessmark.weighing.changes.scores import levels_of

_MOST_NAMED = 12


def stock_changes(base: Side, head: Side) -> Iterator[Change]:
    """Lots from which more or fewer pieces are drawn or reserved than before."""
    for lot in sorted(base.library.lots.keys() | head.library.lots.keys()):
        before, after = _left(base.library, lot), _left(head.library, lot)
        if before == after or before is None or after is None:
            continue
        who = ", ".join(sorted(_drawers(head.library, lot) ^ _drawers(base.library, lot)))
        entry = head.library.lots[lot]
        scarce = after <= 0 and entry.can_be_made is not True
        last = " None is left." if after <= 0 else ""
        made = " It cannot be made again, as far as is known." if scarce else ""
        says = f"{lot}: {before} left, now {after}.{last}{made}"
        weight = Weight.PERSON if scarce and after < before else Weight.LOOK
        yield Change.of(
            Kind.STOCK, lot, "left", says, before=str(before), after=str(after), weight=weight,
            remarks=(f"drawn by {who}",) if who else (),
        )  # fmt: skip


def _left(library: Library, lot: str) -> int | None:
    return stock_left(library, lot, date.max, reserved=True) if lot in library.lots else None


def lots_of(decision: Decision) -> frozenset[str]:
    """The lots that any option, or the work as done, draws on."""
    steps = [step for option in decision.options for step in option.steps]
    steps += decision.work.as_done if decision.work else ()
    return frozenset(s.source for s in steps if s.do is Do.FIT_OLD_STOCK and s.source)


def _drawers(library: Library, lot: str) -> set[str]:
    found = set()
    for entry in library.decisions:
        decision = entry.value
        steps = decision.chosen.steps if decision and decision.chosen else ()
        done = decision.work.as_done if decision and decision.work else ()
        if decision and decision.is_settled:
            drawn = {s.source for s in (*steps, *done) if s.do is Do.FIT_OLD_STOCK}
            found |= {entry.id} if lot in drawn else set()
    return found


def affected_changes(base: Side, head: Side, changed: frozenset[str]) -> Iterator[Change]:
    """Unchanged records that are reckoned otherwise, follow, or share a lot or a machine."""
    told = {id_: head.records[id_].value for id_ in changed if id_ in head.records}
    lots = frozenset().union(*(lots_of(d) for d in told.values() if d)) if told else frozenset()
    machines: dict[str, list[str]] = {}
    for entry in head.library.decisions:
        if entry.id in changed or entry.value is None:
            continue
        yield from _reckoned(entry.id, base, head)
        cited = _cited(entry.value) & changed
        if cited:
            says = f"It follows or departs from {', '.join(sorted(cited))}."
            yield Change.of(Kind.AFFECTED, entry.id, "follows", says)
        shared = lots_of(entry.value) & lots
        if shared:
            says = f"It draws on the same old stock: {', '.join(sorted(shared))}."
            yield Change.of(Kind.AFFECTED, entry.id, "stock", says)
        machines.setdefault(entry.machine, []).append(entry.id)
    yield from _same_machine(machines, changed, head)


def _cited(decision: Decision) -> frozenset[str]:
    named = {*decision.follows, *(departs.decision for departs in decision.departs_from)}
    named |= {name for name in (decision.replaces, decision.replaced_by) if name}
    return frozenset(named)


def _reckoned(record: str, base: Side, head: Side) -> Iterator[Change]:
    before, after = base.cases.get(record), head.cases.get(record)
    if before is None or after is None or before is after:
        return
    moved = [
        f"{criterion.value} of {name}"
        for name, scores in after.scores.items()
        if name in before.scores
        for criterion, score in scores.criteria.items()
        if levels_of(score) != levels_of(before.scores[name].criteria[criterion])
    ]
    if moved:
        says = f"Its scores are reckoned otherwise now: {', '.join(moved[:_MOST_NAMED])}."
        yield Change.of(Kind.AFFECTED, record, "scores", says)


def _same_machine(
    machines: Mapping[str, list[str]], changed: frozenset[str], head: Side
) -> Iterator[Change]:
    touched = {head.records[id_].machine for id_ in changed if id_ in head.records}
    for machine in sorted(touched & machines.keys()):
        names = machines[machine]
        more = f" and {len(names) - _MOST_NAMED} more" if len(names) > _MOST_NAMED else ""
        says = f"On the same machine: {', '.join(names[:_MOST_NAMED])}{more}."
        yield Change.of(Kind.AFFECTED, machine, "machine", says, weight=Weight.NOTE)
