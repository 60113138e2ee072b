"""How the options behind came out, and what setting the rest aside costs."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from witnessmark.weighing.outcome import Weighed
from witnessmark.weighing.sentences.subject import Subject
from witnessmark.weighing.verdict import in_a_hundred
from witnessmark.weighing.words import Standing


def options_behind(subject: Subject) -> Iterator[str]:
    """Give a sentence on every weighed option that does not win, in order of id."""
    if len(subject.running) <= 1:
        return
    for option in subject.running:
        if option.standing is not Standing.BEST:
            yield _standing(option, subject)
            yield from _equals(option, subject)


def options_beaten(subject: Subject) -> Iterator[str]:
    """Give which option is better throughout than another, and which score the same."""
    if len(subject.running) <= 1:
        return
    for option in subject.running:
        if option.standing is Standing.DOMINATED:
            yield _standing(option, subject)
        if option.standing is not Standing.BEST:
            yield from _equals(option, subject)


def _standing(option: Weighed, subject: Subject) -> str:
    name = subject.name(option.id)
    match option.standing:
        case Standing.TOUCHING:
            return f"{name} can tie for the lead, but never leads alone."
        case Standing.UNSUPPORTED:
            return f"Nothing is as good as {name} on every criterion, yet no weighting favours it."
        case Standing.DOMINATED:
            better = subject.name(option.dominated_by[0])
            return f"{name} cannot lead: {better} is as good on every criterion and better on one."
    return _supported(option, subject)


def _supported(option: Weighed, subject: Subject) -> str:
    name = subject.name(option.id)
    if subject.weighing.policy is None:
        return (
            f"{name} leads for {in_a_hundred(option.share_all or Fraction(0))} of all weightings."
        )
    if option.share_policy:
        share = in_a_hundred(option.share_policy)
        return f"{name} leads for {share} of the weightings our policy allows."
    place = subject.weighing.policy.of(option.id)
    if option.share_policy is None and not place.region.is_empty:
        return f"{name} leads at the one weighting that our policy's ranges allow."
    return f"{name} would lead only at weights outside our policy's ranges."


def _equals(option: Weighed, subject: Subject) -> Iterator[str]:
    """Give that an option scores the same as another, once for each group."""
    if option.tied_with and option.id < option.tied_with[0]:
        name, other = subject.name(option.id), subject.name(option.tied_with[0])
        more = len(option.tied_with) - 1
        tail = f" and {more} more" if more else ""
        yield f"{name} scores the same as {other}{tail}."


def options_set_aside(subject: Subject) -> Iterator[str]:
    """Give a sentence on every option that was not weighed, in order of id."""
    if_lifted = {lifted.option: lifted.winners for lifted in subject.weighing.if_lifted}
    for option in subject.weighing.options:
        name = subject.name(option.id)
        if option.standing is Standing.SET_ASIDE:
            yield f"{name} was set aside{_cost(option.id, if_lifted.get(option.id))}."
        elif option.standing is Standing.NOT_SCORED and option.set_aside:
            yield f"{name} was set aside, and a score of it is missing."
        elif option.standing is Standing.NOT_SCORED:
            yield f"{name} has a score missing, so it was not weighed."


def _cost(option: str, winners: tuple[str, ...] | None) -> str:
    if winners is None:
        return ""
    if winners == (option,):
        return "; allowed back, it would lead"
    if option in winners:
        return "; allowed back, it would tie for the lead"
    return "; allowed back, it would not lead"
