"""How sure a result is, in words that name options by the letters of the page."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from witnessmark.publish.public_decision import PublicVerdict
from witnessmark.publish.shown_names import listed
from witnessmark.publish.shown_options import letters_of
from witnessmark.scoring.score import one_decimal
from witnessmark.weighing.case import Case
from witnessmark.weighing.outcome import Weighing
from witnessmark.weighing.words import VerdictWord


def public_verdict(case: Case) -> PublicVerdict | None:
    """The verdict of a weighing, or None where nothing could be weighed at the policy's weights."""
    weighing = case.weighing
    if weighing is None or weighing.verdict is None:
        return None
    letters = letters_of(case.decision)
    return PublicVerdict(
        word=weighing.verdict.word,
        because=_because(weighing, letters),
        weighed=weighing.verdict.weighed,
        flips=tuple(_flips(weighing, letters)),
        lifted=tuple(_lifted(weighing, letters)),
    )


def _because(weighing: Weighing, letters: Mapping[str, str]) -> str:
    """The verdict's own sentence, the option's id in front replaced by its letter."""
    verdict, winners = weighing.verdict, weighing.winner or ()
    if verdict is None:
        return ""
    named = listed(letters[winner] for winner in winners)
    if verdict.word is VerdictWord.TIED:
        return f"Options {named} have exactly the same value at the museum's weights."
    if verdict.word is VerdictWord.ONLY_ONE_LEFT:
        return f"Only option {named} is left, so nothing was weighed against it."
    if len(winners) == 1 and verdict.because.startswith(f"{winners[0]} "):
        return f"Option {named}{verdict.because[len(winners[0]) :]}"
    return verdict.because


def _flips(weighing: Weighing, letters: Mapping[str, str]) -> Iterator[str]:
    winners = {letters[winner] for winner in weighing.winner or ()}
    for flip in weighing.flips or ():
        letter = letters[flip.option]
        end = "it would no longer lead" if letter in winners else "it would lead"
        yield (
            f"If the {flip.criterion} of option {letter} were {_level(flip.after)} instead of "
            f"{_level(flip.before)}, {end}."
        )


def _level(value: Fraction) -> str:
    return one_decimal(value)


def _lifted(weighing: Weighing, letters: Mapping[str, str]) -> Iterator[str]:
    for lifted in weighing.if_lifted:
        winners = listed(letters[name] for name in lifted.winners)
        yield f"Were option {letters[lifted.option]} not set aside, {winners} would lead."
