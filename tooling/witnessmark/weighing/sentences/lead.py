"""Who leads, what would end it, and how sure that is: the sentences to read first."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from witnessmark.weighing.sentences.amounts import named, weight_shifted
from witnessmark.weighing.sentences.bound import bound_in_words
from witnessmark.weighing.sentences.subject import Subject
from witnessmark.weighing.verdict import in_a_hundred
from witnessmark.weighing.words import Standing, VerdictWord


def lead_in_words(subject: Subject) -> Iterator[str]:
    """Give two or three sentences on the result."""
    running = subject.running
    if not running:
        yield "No option is left to weigh."
        yield "Each was set aside or has a score missing."
    elif len(running) == 1:
        yield f"Only {subject.name(running[0].id)} is left, so nothing was weighed against it."
        yield "That says nothing about how good it is."
    elif not subject.winners:
        yield from _without_weights(subject)
    elif len(subject.winners) > 1:
        yield from _tie(subject)
    else:
        yield _who_leads(subject)
        yield _what_ends_it(subject)
        yield _how_sure(subject)


def _without_weights(subject: Subject) -> Iterator[str]:
    yield "Our policy gives no weights here, so no option leads."
    shares = {o.id: o.share_all or Fraction(0) for o in subject.running}
    widest = max(shares.values())
    names = [subject.name(option) for option, share in shares.items() if share == widest]
    if len(names) == 1:
        yield f"More weightings favour {names[0]} than any other: {in_a_hundred(widest)}."
    else:
        yield f"{named(names)} each lead for {in_a_hundred(widest)} of all weightings."


def _tie(subject: Subject) -> Iterator[str]:
    names = named([subject.name(winner) for winner in subject.winners])
    yield f"{names} tie: they have exactly the same value at our weights."
    equals = subject.territory(subject.weighing.all_weights).members
    if set(equals) == set(subject.winners):
        yield "Their scores are the same, so no weighting would part them."
    else:
        yield "The least shift of the weights would part them."
    yield "The figures do not choose between them; the written reasons must."


def _who_leads(subject: Subject) -> str:
    territory = subject.territory(subject.allowed)
    leads = f"{subject.name(subject.winners[0])} leads at our weights"
    if subject.leads_throughout(subject.allowed):
        every = "every weighting our policy allows" if subject.weighing.policy else "all others"
        return f"{leads} and for {every}."
    if territory.region.is_empty:
        return f"{leads}, but for no weighting within our policy's ranges."
    if not territory.share:
        return f"{leads}, but for almost no other weighting our policy allows."
    return f"{leads} and for {in_a_hundred(territory.share)} of {subject.allowed_in_words}."


def _what_ends_it(subject: Subject) -> str:
    weighing = subject.weighing
    if subject.nothing_flips:
        return "Nothing flips this: no weighting, and no change of one score by whole steps."
    if subject.leads_throughout(weighing.all_weights):
        return "No weighting would put another option ahead."
    bound = bound_in_words(weighing.all_weights, option=subject.winners[0])
    if bound:
        return f"It {bound}."
    if weighing.policy and subject.leads_throughout(weighing.policy):
        return "Only weights outside our policy's ranges would end its lead."
    within = weighing.policy and bound_in_words(weighing.policy, option=subject.winners[0])
    if within:
        return f"Within our policy's ranges it {within}."
    return _nearest(subject)


def _nearest(subject: Subject) -> str:
    """Give the least shift of weight that ends the lead, to an option that then leads alone."""
    moved = {
        option.id: option.nearest.moved
        for option in subject.running
        if option.nearest and option.standing is Standing.SUPPORTED
    }
    least = min(moved.values())
    rivals = [subject.name(option) for option, move in moved.items() if move == least]
    shift = weight_shifted(least)
    return f"Shifting {shift} of the weight could put {named(rivals, last='or')} ahead."


def _how_sure(subject: Subject) -> str:
    word = subject.weighing.verdict and subject.weighing.verdict.word
    if word is VerdictWord.FIRM and subject.nothing_flips:
        return "The result is firm."
    if word is VerdictWord.FIRM:
        return "The result is firm: no single step of one score would end its lead."
    chance = subject.weighing.of(subject.winners[0]).chance_best or Fraction(0)
    odds = f"its chance of being best is {in_a_hundred(chance)}"
    if word is VerdictWord.CLOSE:
        return f"It is a close call: {odds}."
    doubts = " and ".join(_doubts(subject)) or odds
    return f"The result holds but is not firm: {doubts}."


def _doubts(subject: Subject) -> Iterator[str]:
    """Give what keeps the result from being firm, other than its chance.

    A lead at every weighting and a result that is not firm seem to contradict each other, so the
    sentence then says how both are true.
    """
    flips = any(flip.steps == 1 for flip in subject.weighing.flips or ())
    if subject.leads_throughout(subject.allowed):
        which = "other weights" if subject.leads_throughout(subject.weighing.all_weights) else ""
        which = which or "other weights that our policy allows"
        if flips:
            yield f"{which} would not end its lead, but one score set one step differently would"
        return
    allowed = "allowed weightings" if subject.weighing.policy else "weightings"
    yield f"some {allowed} favour another option"
    if flips:
        yield "one step of one score would end its lead"
