"""Have we met this before, for one decision alone: of all earlier ones few need be reckoned.

What a decision asks can be read off its trace; only its three scores must be reckoned. With all
three alike it would be as like as it can be, so the likeliest are reckoned first, until no other
could come among the nearest.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from heapq import nlargest

from witnessmark.model.decision import Decision
from witnessmark.model.library import Library
from witnessmark.publish.public_across import PublicPrecedent
from witnessmark.publish.shown_names import Names
from witnessmark.publish.shown_precedents import MOST_SHOWN, NEAR, Past, named_by, rows_of
from witnessmark.weighing.case import Case, score_out
from witnessmark.weighing.precedents import (
    FEATURES,
    OF_THE_QUESTION,
    Portrait,
    likeness_of,
    portrait_of,
    question_left,
)

_OF_LEVELS = sum((f.weight for f in FEATURES if f not in OF_THE_QUESTION), Fraction(0))
_IN_ALL = sum((feature.weight for feature in OF_THE_QUESTION), Fraction(0))


def met_before(
    case: Case, library: Library, *, published: frozenset[str]
) -> tuple[PublicPrecedent, ...]:
    """The rows that the site would show on the page of a decision that is worked out."""
    names = Names(library)
    query = _past(case, names)
    found: dict[str, Past] = {}
    for name in sorted(named_by(case.decision) & published):
        found |= _reckoned(name, library, names)
    nearest: list[Fraction] = []
    for most, name in _likeliest_first(case.decision, query.portrait, library, published):
        if len(nearest) == MOST_SHOWN and most < nearest[-1]:
            break
        if name not in found:
            found |= _reckoned(name, library, names)
        if name in found:
            like = likeness_of(query.portrait, found[name].portrait, features=FEATURES)
            nearest = nlargest(MOST_SHOWN, [*nearest, like.similarity or Fraction(0)])
    return rows_of(query, found)


def _likeliest_first(
    decision: Decision, query: Portrait, library: Library, published: frozenset[str]
) -> Iterator[tuple[Fraction, str]]:
    """Earlier published decisions that may be near, each with the most its likeness can be."""
    here = decision.opened, decision.id
    earlier = (
        trace
        for trace in library.traces.all
        if trace.id in published and (trace.opened, trace.id) < here
    )
    bounds = [(_at_most(query, question_left(trace).portrait), trace.id) for trace in earlier]
    return iter(sorted((b for b in bounds if b[0] >= NEAR), key=lambda b: (-b[0], b[1])))


def _at_most(query: Portrait, question: Portrait) -> Fraction:
    """How like two decisions are if all three scores are the same."""
    likeness = likeness_of(query, question, features=OF_THE_QUESTION)
    compared = likeness.coverage * _IN_ALL
    alike = (likeness.similarity or Fraction(0)) * compared
    return (alike + _OF_LEVELS) / (compared + _OF_LEVELS)


def _reckoned(name: str, library: Library, names: Names) -> dict[str, Past]:
    """A decision scored, by its id; nothing where it cannot be read."""
    entry = library.by_id.get(name)
    if entry is None or entry.value is None:
        return {}
    return {name: _past(score_out(entry.value, entry.machine, library), names)}


def _past(case: Case, names: Names) -> Past:
    return Past(
        written=case.decision,
        machine_name=names.machine(case.machine_id),
        portrait=portrait_of(case),
    )
