"""All scores of a decision: every option on the three criteria, with the facts behind them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from witnessmark.model.decision import Decision
from witnessmark.model.library import Library
from witnessmark.model.machine import Machine
from witnessmark.model.options import Option
from witnessmark.model.policy import Policy
from witnessmark.model.position import Pieces, position_on, stock_left
from witnessmark.model.words import Criterion, Do, Kept
from witnessmark.scoring.authenticity import Authenticity, reckon_authenticity
from witnessmark.scoring.fabric import Fabric, Originals, Scope, originals_in, reckon_on
from witnessmark.scoring.risk import Safety, SheetVerdict, reckon_safety
from witnessmark.scoring.score import Scored
from witnessmark.scoring.undo import Stock, Undoing, reckon_undo, undo_levels


@dataclass(frozen=True)
class OptionScores:
    """One option on all three criteria."""

    id: str
    fabric: Fabric
    authenticity: Authenticity
    safety: Safety
    undoing: Undoing

    @property
    def criteria(self) -> Mapping[Criterion, Scored]:
        """The three scores by criterion."""
        return {
            Criterion.AUTHENTICITY: self.authenticity.score,
            Criterion.SAFETY: self.safety.score,
            Criterion.REVERSIBILITY: self.undoing.score,
        }


@dataclass(frozen=True)
class Ground:
    """What a decision is read against: machine, policy, way of keeping and day."""

    machine: Machine
    policy_id: str
    policy: Policy
    kept: Kept
    day: date
    places: Mapping[str, tuple[Pieces, ...]]
    scope: Scope


def ground_of(decision: Decision, machine: str, library: Library) -> Ground | None:
    """The ground a decision stands on, or None while machine or policy cannot be read."""
    whole, policy = library.machines.get(machine), library.policies.get(decision.policy)
    if whole is None or policy is None:
        return None
    day = decision.reference_day
    places = position_on(library, machine, day, without=decision.id).places
    assemblies = {address.partition("/")[0] for address in decision.about}
    scope = {a: pieces for a, pieces in places.items() if a.partition("/")[0] in assemblies}
    return Ground(whole, decision.policy, policy, whole.kept_on(day), day, places, scope)


def score_decision(
    decision: Decision, *, ground: Ground, library: Library, sheets: tuple[SheetVerdict, ...]
) -> Mapping[str, OptionScores]:
    """Every option's scores by option id, in the order written."""
    reading = _Reading(decision, ground, library, sheets)
    return {option.id: _score(option, reading) for option in decision.options}


@dataclass(frozen=True)
class _Reading:
    """What every option of one decision is scored against."""

    decision: Decision
    ground: Ground
    library: Library
    sheets: tuple[SheetVerdict, ...]

    def pieces_at(self, address: str) -> tuple[Pieces, ...]:
        """The pieces in a place of the decision's own machine."""
        return self.ground.places.get(address, ())

    def donor_at(self, source: str) -> tuple[Pieces, ...]:
        """The pieces in a place of a donor, written machine/assembly/part."""
        donor, _, address = source.partition("/")
        position = position_on(self.library, donor, self.ground.day, without=self.decision.id)
        return position.places.get(address, ())

    @cached_property
    def originals(self) -> Originals:
        """The original pieces that every option is laid on."""
        return originals_in(self.ground.scope, policy=self.ground.policy.fabric)

    @cached_property
    def stock(self) -> Mapping[str, Stock]:
        """The lots that any option draws on, as on the decision's day."""
        steps = (step for option in self.decision.options for step in option.steps)
        named = {s.source for s in steps if s.do is Do.FIT_OLD_STOCK and s.source}
        return {
            lot: _stock(lot, self.decision, self.ground.day, self.library)
            for lot in named
            if lot in self.library.lots
        }


def _stock(lot: str, decision: Decision, day: date, library: Library) -> Stock:
    entry = library.lots[lot]
    left = stock_left(library, lot, day, without=decision.id)
    return Stock(left, entry.can_be_made is True, bool(entry.pattern or entry.drawing))


def _score(option: Option, reading: _Reading) -> OptionScores:
    ground, decision = reading.ground, reading.decision
    undoing = reckon_undo(
        option,
        pieces_at=reading.pieces_at,
        donor_at=reading.donor_at,
        table=ground.policy.undo,
        stock=reading.stock,
    )
    fabric = reckon_on(reading.originals, option, undo_of=undo_levels(undoing))
    authenticity = reckon_authenticity(
        option,
        material=fabric.score,
        significance=ground.machine.significance,
        judged_by=decision.judged_by,
    )
    safety = reckon_safety(option, decision=decision, sheets=reading.sheets)
    return OptionScores(option.id, fabric, authenticity, safety, undoing)
