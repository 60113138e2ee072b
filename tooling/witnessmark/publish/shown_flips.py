"""What would change a result, in sentences: one score, one weight, or the worth of the levels."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from witnessmark.publish.shown_names import listed
from witnessmark.scoring.score import one_decimal
from witnessmark.weighing.case import Case, bare_options
from witnessmark.weighing.option import CRITERIA, Weights
from witnessmark.weighing.sentences.amounts import part_of_weight
from witnessmark.weighing.stability import Interval
from witnessmark.weighing.stress import best_worst_scores, stress_levels
from witnessmark.weighing.weigh import Weighing
from witnessmark.weighing.weighting import Weighting

_ANY: Final[Interval] = (Fraction(0), Fraction(1))
"""A weight may be anything from none to all."""


def each_flip(weighing: Weighing, *, names: Mapping[str, str]) -> Iterator[str]:
    """Every single score that, changed by the fewest whole steps, changes who leads."""
    for flip in weighing.flips or ():
        end = "no longer lead" if flip.after < flip.before else "lead"
        yield (
            f"If the {flip.criterion} of {names[flip.option]} were {one_decimal(flip.after)}"
            f" instead of {one_decimal(flip.before)}, it would {end}."
        )


def each_weight(weighing: Weighing, *, weights: Weights | None) -> Iterator[str]:
    """How far each weight can move, the other two in proportion, before the result changes."""
    running = sum(1 for option in weighing.options if option.share_all is not None)
    if weights is None or weighing.stability is None or running <= 1:
        return
    if all(interval == _ANY for interval in weighing.stability):
        yield "Whatever any one of the three counts for, the result stays."
        return
    for criterion, weight, interval in zip(CRITERIA, weights, weighing.stability, strict=True):
        yield f"{criterion.capitalize()}, now {_part(weight)}: {_may_count(interval)}."


def _may_count(interval: Interval) -> str:
    least, most = interval
    if interval == _ANY:
        return "whatever it counts for, the result stays"
    if least == most:
        return "any change of it ends the tie"
    if least == 0:
        return f"the result stays while it counts for at most {_part(most)}"
    if most == 1:
        return f"the result stays while it counts for at least {_part(least)}"
    return f"the result stays while it counts for {_part(least)} to {_part(most)}"


def _part(weight: Fraction) -> str:
    """A weight in words; none and all are said as such, and never meant by anything rounded."""
    if weight in _ANY:
        return "everything" if weight else "nothing"
    return part_of_weight(weight)


def worth_of_levels(case: Case, *, weighting: Weighting, names: Mapping[str, str]) -> Iterator[str]:
    """Who would lead if the steps between levels were worth other amounts, or nothing were traded.

    Silent where the order of the levels settles the result, for then no worth can change it.
    """
    tests = case.weighing.order_tests if case.weighing else ()
    if len(case.winners) != 1 or all(test.level is None for test in tests):
        return
    options = bare_options(case.scores)
    changed = [
        tried
        for tried in stress_levels(options, weighting=weighting, set_aside=case.aside)
        if tried.changes and tried.winner
    ]
    for tried in changed:
        yield f"If {tried.steps.in_words}, {_lead(tried.winner or (), names)}."
    if not changed:
        yield (
            "We also tried levels whose steps grow towards the top, and ones whose steps shrink;"
            " the same option still leads."
        )
    strongest = best_worst_scores(options, set_aside=case.aside)
    lead = _lead(strongest, names, one="would lead", more="would tie")
    yield f"If each option counted only by its weakest score, {lead}."


def _lead(
    found: tuple[str, ...],
    names: Mapping[str, str],
    *,
    one: str = "leads",
    more: str = "lead together",
) -> str:
    verb = one if len(found) == 1 else more
    return f"{listed(sorted(names[name] for name in found))} {verb}"
