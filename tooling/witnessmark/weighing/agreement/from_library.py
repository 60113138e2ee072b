"""The ratings a museum's own records hold: every value that more than one person judged.

Only judged values count. What is computed comes out the same whoever asks, so it would make people
look more alike than they are; an aspect called unaffected is a sentence, not a level.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from witnessmark.model.decision import Decision
from witnessmark.model.library import Library
from witnessmark.model.options import Option
from witnessmark.weighing.agreement.ratings import Rating, Ratings


def ratings_of_library(library: Library) -> Ratings:
    """Give the likely levels of every value with a second judgement, by decision.

    A unit is decision/option/aspect, such as 2024-003/rebush/form, and a rater is a person's id. A
    value whose first judge is not named is left out: nobody can tell who agrees with whom.
    """
    found = {
        (rating.unit, rating.rater): rating
        for entry in library.decisions
        if entry.value is not None
        for option in entry.value.options
        for rating in _ratings(entry.value, option)
    }
    # Where two files claim one id, or two options, one of them counts; the check names the slip.
    return Ratings.of(found.values())


def _ratings(decision: Decision, option: Option) -> Iterator[Rating]:
    shared = decision.judged_by.by if decision.judged_by else None
    for aspect, judged in option.judged.items():
        first = judged.by or shared
        # One rating a person and unit: a second one by the same person is a fault of the record.
        others = {second.by: second.likely for second in reversed(judged.second)}
        others.pop(first or "", None)
        if first is None or not others:
            continue
        unit = f"{decision.id}/{option.id}/{aspect.value}"
        for rater, level in {first: judged.likely, **others}.items():
            yield Rating(unit, rater, Fraction(level), decision.id)
