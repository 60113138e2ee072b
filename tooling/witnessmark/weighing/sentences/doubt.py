"""How far the scores can be trusted to keep the result: chances, single changes, and steps."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from witnessmark.scoring.score import one_decimal
from witnessmark.weighing.flips import Flip
from witnessmark.weighing.sentences.amounts import named
from witnessmark.weighing.sentences.subject import Subject
from witnessmark.weighing.verdict import in_a_hundred


def doubt_in_scores(subject: Subject) -> Iterator[str]:
    """Give the chance of being best, and what it takes for granted."""
    if not subject.contest:
        return
    chances = {o.id: o.chance_best or Fraction(0) for o in subject.running}
    first = max(subject.winners, key=lambda winner: chances[winner])
    if chances[first] == 1:
        yield "At our weights, no doubt recorded in the scores would put another option ahead."
        return
    if chances[first] * len(subject.winners) == 1:
        yield "Given the doubt in the scores, each of them is equally likely to be best."
    else:
        yield from _chances(first, chances, subject)
    yield "These chances take the doubt in each score to be independent of the others."
    yield "They give the low and the high level of a score one chance in four each."


def _chances(first: str, chances: Mapping[str, Fraction], subject: Subject) -> Iterator[str]:
    name, odds = subject.name(first), in_a_hundred(chances[first])
    yield f"Given the doubt in the scores, {name} has a chance of {odds} of being best."
    rival = max((option for option in chances if option != first), key=lambda o: chances[o])
    yield _next(subject.name(rival), chances[rival], chances[first])


def _next(rival: str, chance: Fraction, leaders: Fraction) -> str:
    if chance > leaders:
        return f"{rival} has a higher one, {in_a_hundred(chance)}, though behind at likely scores."
    if chance == leaders:
        return f"{rival} has the same chance."
    return f"Next comes {rival} with {in_a_hundred(chance)}."


def flips_in_words(subject: Subject) -> Iterator[str]:
    """Give the smallest whole-step change of one score that changes who leads."""
    if not subject.contest or subject.nothing_flips:
        return
    flips = subject.weighing.flips or ()
    if not flips:
        yield "No change of one score by whole steps would put another option ahead."
        return
    yield _flip(flips[0], subject)
    others = len(flips) - 1
    if others == 1:
        yield "One other change of that size would also change the result."
    elif others:
        yield f"Another {others} single changes of that size would also change the result."


def _flip(flip: Flip, subject: Subject) -> str:
    before, after = one_decimal(flip.before), one_decimal(flip.after)
    end = "no longer lead" if flip.after < flip.before else "lead"
    name = subject.name(flip.option)
    return f"If the {flip.criterion} of {name} were {after} instead of {before}, it would {end}."


def worth_of_steps(subject: Subject) -> Iterator[str]:
    """Give whether a sole lead leans on what the steps between levels are worth."""
    tests = subject.weighing.order_tests
    if not subject.contest or len(subject.winners) > 1 or not tests:
        return
    levels = [test.level for test in tests if test.level is not None]
    if not levels:
        yield "The result is the same however much each step of a score is worth."
        return
    highest = max(levels)
    rivals = [subject.name(test.rival) for test in tests if test.level == highest]
    winner = subject.name(subject.winners[0])
    yield (
        f"If level {one_decimal(highest)} were worth enough more than the levels below it,"
        f" {named(rivals, last='or')} would pass {winner}."
    )
