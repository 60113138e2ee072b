"""Have we met this before: earlier published decisions that are near, or that a record names."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from typing import Final

from witnessmark.model.decision import Decision
from witnessmark.publish.likely_near import LikelyNear
from witnessmark.publish.public_across import PublicPrecedent
from witnessmark.publish.public_decision import PublicDecision
from witnessmark.weighing.precedents import FEATURES, Portrait, Precedent, precedents

NEAR: Final = Fraction(2, 3)
"""From this likeness on an earlier decision is near enough to show (our own judgement)."""
VERY_NEAR: Final = Fraction(4, 5)
MOST_SHOWN: Final = 3
FEW_COMPARED: Final = Fraction(3, 4)
"""With less of the features known on both sides, the words say so (our own judgement)."""


@dataclass(frozen=True, kw_only=True)
class Past:
    """A decision with what others are compared with it by."""

    written: Decision
    machine_name: str
    portrait: Portrait

    @property
    def order(self) -> tuple[date, str]:
        """Where it stands in time: the day it was opened, then its id."""
        return self.written.opened, self.written.id


@dataclass(frozen=True, kw_only=True)
class Met(Past):
    """A published decision with what others are compared with it by."""

    public: PublicDecision


def with_precedents(found: Sequence[Met]) -> tuple[PublicDecision, ...]:
    """The decisions in the order given, each with the earlier ones it is like or names."""
    known = {met.written.id: met for met in found}
    seen = LikelyNear(FEATURES)
    shown: dict[str, PublicDecision] = {}
    for met in sorted(found, key=lambda met: met.order):
        near = seen.near(met.portrait, at_least=NEAR, most=MOST_SHOWN)
        past = {name: known[name] for name in {*near, *named_by(met.written) & known.keys()}}
        shown[met.written.id] = replace(met.public, met_before=rows_of(met, past))
        seen.add(met.written.id, met.portrait)
    return tuple(shown[met.written.id] for met in found)


def named_by(decision: Decision) -> frozenset[str]:
    """The decisions that a record follows or departs from."""
    departed = (departs.decision for departs in decision.departs_from)
    return frozenset([*decision.follows, *departed])


def rows_of(met: Past, past: Mapping[str, Past]) -> tuple[PublicPrecedent, ...]:
    """Of some earlier decisions the nearest few, and every one that is named, most like first."""
    portraits = {name: one.portrait for name, one in past.items()}
    return tuple(_rows(met, precedents(met.portrait, past=portraits), past))


def _rows(
    met: Past, found: Sequence[Precedent], known: Mapping[str, Past]
) -> Iterator[PublicPrecedent]:
    why = {departs.decision: departs.because for departs in met.written.departs_from}
    nearest = [p.decision for p in found if (p.likeness.similarity or 0) >= NEAR][:MOST_SHOWN]
    for one in found:
        name = one.decision
        follows = name in met.written.follows
        if name in nearest or follows or name in why:
            yield _row(one, known[name], follows=follows, because=why.get(name))


def _row(one: Precedent, past: Past, *, follows: bool, because: str | None) -> PublicPrecedent:
    chosen, likeness = past.written.chosen, one.likeness
    how = "followed" if follows else "departed from" if because else "not named"
    return PublicPrecedent(
        decision=one.decision,
        title=past.written.title,
        machine_name=past.machine_name,
        chosen=chosen.title if chosen else "nothing",
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
