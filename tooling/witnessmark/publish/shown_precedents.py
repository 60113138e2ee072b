"""Have we met this before: earlier published decisions that are near, or that a record names."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from typing import Final

from witnessmark.model.decision import Decision
from witnessmark.model.library import Library
from witnessmark.model.machine import Machine
from witnessmark.publish.likely_near import LikelyNear
from witnessmark.publish.public_across import PublicPrecedent
from witnessmark.publish.public_decision import PublicDecision
from witnessmark.publish.shown_names import Names
from witnessmark.weighing.case import Case, work_out
from witnessmark.weighing.precedents import (
    FEATURES,
    OF_THE_QUESTION,
    Portrait,
    Precedent,
    earlier_agreed,
    likeness_of,
    portrait_of,
    precedents,
    question_of,
)

NEAR: Final = Fraction(2, 3)
"""From this likeness on an earlier decision is near enough to show (our own judgement)."""
VERY_NEAR: Final = Fraction(4, 5)
MOST_SHOWN: Final = 3
FEW_COMPARED: Final = Fraction(3, 4)
"""With less of the features known on both sides, the words say so (our own judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Met:
    """A published decision with what others are compared with it by."""

    public: PublicDecision
    written: Decision
    portrait: Portrait

    @property
    def order(self) -> tuple[date, str]:
        """Where it stands in time: the day it was opened, then its id."""
        return self.written.opened, self.written.id


@dataclass(frozen=True, slots=True)
class Earlier:
    """What is told of an earlier decision: its title, its machine and what was chosen."""

    title: str
    machine_name: str
    chosen: str

    @classmethod
    def of(cls, public: PublicDecision) -> Earlier:
        """The same of a decision as its page shows it."""
        title = public.chosen.title if public.chosen else "nothing"
        return cls(public.title, public.machine_name, title)


def with_precedents(found: Sequence[Met]) -> tuple[PublicDecision, ...]:
    """The decisions in the order given, each with the earlier ones it is like or names."""
    known = {met.written.id: met for met in found}
    seen = LikelyNear(FEATURES)
    shown: dict[str, PublicDecision] = {}
    for met in sorted(found, key=lambda met: met.order):
        near = seen.near(met.portrait, at_least=NEAR, most=MOST_SHOWN)
        past = {name: known[name].portrait for name in {*near, *_named(met, known)}}
        earlier = {name: Earlier.of(known[name].public) for name in past}
        rows = tuple(_rows(met.written, precedents(met.portrait, past=past), earlier))
        shown[met.written.id] = replace(met.public, met_before=rows)
        seen.add(met.written.id, met.portrait)
    return tuple(shown[met.written.id] for met in found)


def met_before(
    case: Case, library: Library, *, names: Names, published: Collection[str]
) -> tuple[PublicPrecedent, ...]:
    """The same for one decision alone; others are worked out only where they may come near."""
    written, mine = case.decision, portrait_of(case)
    named = {*written.follows, *(departs.decision for departs in written.departs_from)}
    past: dict[str, Portrait] = {}
    earlier: dict[str, Earlier] = {}
    for entry in earlier_agreed(written, library):
        other = entry.value
        if other is None or entry.id not in published:
            continue
        if entry.id in named or _may_come_near(mine, other, library.machines.get(entry.machine)):
            past[entry.id] = portrait_of(work_out(other, entry.machine, library))
            chosen = other.chosen
            title = chosen.title if chosen else "nothing"
            earlier[entry.id] = Earlier(other.title, names.machine(entry.machine), title)
    return tuple(_rows(written, precedents(mine, past=past), earlier))


def _may_come_near(mine: Portrait, other: Decision, machine: Machine | None) -> bool:
    """True unless all that is not compared yet, alike to the full, would not bring it near."""
    question = question_of(other, machine=machine).portrait
    words = likeness_of(mine, question, features=OF_THE_QUESTION)
    compared = words.coverage * sum(feature.weight for feature in OF_THE_QUESTION)
    levels = sum(feature.weight for feature in FEATURES) - sum(f.weight for f in OF_THE_QUESTION)
    alike = (words.similarity or Fraction(0)) * compared
    return alike + levels >= NEAR * (compared + levels)


def _named(met: Met, known: Mapping[str, Met]) -> Iterator[str]:
    """The published decisions that the record follows or departs from."""
    departed = (departs.decision for departs in met.written.departs_from)
    return (name for name in (*met.written.follows, *departed) if name in known)


def _rows(
    written: Decision, found: Sequence[Precedent], known: Mapping[str, Earlier]
) -> Iterator[PublicPrecedent]:
    """The nearest few, and every one that is named, the most like first."""
    why = {departs.decision: departs.because for departs in written.departs_from}
    nearest = [p.decision for p in found if (p.likeness.similarity or 0) >= NEAR][:MOST_SHOWN]
    for one in found:
        name = one.decision
        follows = name in written.follows
        if name in nearest or follows or name in why:
            yield _row(one, known[name], follows=follows, because=why.get(name))


def _row(
    one: Precedent, earlier: Earlier, *, follows: bool, because: str | None
) -> PublicPrecedent:
    likeness = one.likeness
    how = "followed" if follows else "departed from" if because else "not named"
    return PublicPrecedent(
        decision=one.decision,
        title=earlier.title,
        machine_name=earlier.machine_name,
        chosen=earlier.chosen,
        likeness=likeness.similarity,
        coverage=likeness.coverage,
        word=word_for(likeness.similarity, likeness.coverage),
        alike_in=tuple(name for name, term in likeness.terms.items() if term == 1),
        how=how,
        because=because,
    )


def word_for(likeness: Fraction | None, coverage: Fraction) -> str:
    """How like two decisions are, in words.

    >>> word_for(Fraction(9, 10), Fraction(1)), word_for(Fraction(7, 10), Fraction(1, 2))
    ('much alike', 'alike, as far as could be compared')
    """
    if likeness is None:
        return "not to be compared"
    words = "little alike"
    if likeness >= NEAR:
        words = "much alike" if likeness >= VERY_NEAR else "alike"
    return words if coverage >= FEW_COMPARED else f"{words}, as far as could be compared"
