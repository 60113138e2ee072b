"""The earlier decisions that a decision must be held against: nearly the same question.

Only what is alike before the choice counts here, since what was decided may differ; whether it does
is what one wants to know.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from functools import lru_cache
from typing import Final

from witnessmark.model.decision import Decision
from witnessmark.model.library import Library
from witnessmark.model.trace import Trace, Traces
from witnessmark.model.words import Kind
from witnessmark.weighing.precedents import (
    OF_THE_QUESTION,
    Likeness,
    Question,
    likeness_of,
    question_left,
    question_of,
)

NEAR: Final = Fraction(17, 20)
"""From this likeness on, two questions are near (own judgement, no source). It is reached by the
same kinds of option on machines kept alike, where the parts share half of their names."""

LEAST_COMPARED: Final = Fraction(3, 4)
"""Less than this share of the features compared is too little to call anything near (no source)."""

MOST_NAMED: Final = 3
"""So many near precedents are enough to answer (own judgement, no source)."""


@dataclass(frozen=True, slots=True)
class Near:
    """An earlier decision on nearly the same question that was decided otherwise."""

    decision: Trace
    kind: Kind
    likeness: Likeness


_Row = list[tuple[date, str, Trace]]
"""Decisions by the day they were opened, then by id."""

_Index = Mapping[tuple[str | None, str], Mapping[Question, Mapping[Kind, _Row]]]
"""Agreed decisions by way of keeping and word of the part, then by question and kind chosen."""


def decided_otherwise(decision: Decision, machine: str, library: Library) -> tuple[Near, ...]:
    """Give the nearest standing decisions opened before this one that chose another kind of option.

    Of each question asked alike and each other kind, only the latest counts: it is what the museum
    last held to. None while nothing is chosen.
    """
    question = _asked(decision, machine, library)
    if question is None or decision.chosen is None:
        return ()
    own = decision.chosen.kind
    found = [
        Near(earlier, kind, likeness)
        for by_kind, likeness in _near(question, _agreed(library.traces))
        for kind, row in by_kind.items()
        if kind is not own
        for earlier in _latest_before(decision, row)
    ]
    found.sort(key=lambda near: (-(near.likeness.similarity or 0), near.decision.id))
    return tuple(found[:MOST_NAMED])


def _near(question: Question, index: _Index) -> Iterator[tuple[Mapping[Kind, _Row], Likeness]]:
    candidates = {
        asked: by_kind
        for word in question.part
        for asked, by_kind in index.get((question.kept, word), {}).items()
    }
    for asked, by_kind in candidates.items():
        likeness = _likeness(question, asked)
        if (likeness.similarity or 0) >= NEAR and likeness.coverage >= LEAST_COMPARED:
            yield by_kind, likeness


@lru_cache(maxsize=65536)
def _likeness(one: Question, other: Question) -> Likeness:
    return likeness_of(one.portrait, other.portrait, features=OF_THE_QUESTION)


def _latest_before(decision: Decision, row: _Row) -> Iterator[Trace]:
    place = bisect_left(row, (decision.opened, decision.id), key=lambda entry: entry[:2])
    if place:
        yield row[place - 1][2]


@lru_cache(maxsize=8)
def _agreed(traces: Traces) -> _Index:
    """The decisions that were agreed and still stand, looked up once a museum."""
    index: dict[tuple[str | None, str], dict[Question, dict[Kind, _Row]]] = {}
    for trace in traces.all:
        if not trace.is_settled or trace.chosen_kind is None or trace.kept is None:
            continue
        question = question_left(trace)
        for word in question.part:
            asked = index.setdefault((question.kept, word), {}).setdefault(question, {})
            row = asked.setdefault(trace.chosen_kind, [])
            row.append((trace.opened, trace.id, trace))
    for by_question in index.values():
        for by_kind in by_question.values():
            for row in by_kind.values():
                row.sort(key=lambda entry: entry[:2])
    return index


def _asked(decision: Decision, machine: str, library: Library) -> Question | None:
    whole = library.machines.get(machine)
    return question_of(decision, machine=whole) if whole else None
