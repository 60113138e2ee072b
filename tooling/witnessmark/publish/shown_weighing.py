"""A weighing as the public sees it: figures and sentences that name options by their letters."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from witnessmark.publish.public_weighing import PublicWeighed, PublicWeighing
from witnessmark.publish.shown_deciding import what_decides
from witnessmark.publish.shown_flips import each_flip, each_weight, worth_of_levels
from witnessmark.publish.shown_options import letters_of
from witnessmark.weighing.case import Case, weighting_of
from witnessmark.weighing.sentences import account_of, beaten_in_words
from witnessmark.weighing.ternary import ternary_map
from witnessmark.weighing.weigh import Weighing
from witnessmark.weighing.words import Standing, VerdictWord

_OPTION = re.compile(r"[Oo]ption ([A-Z]|[0-9]+)\b")
_OUT = frozenset({Standing.SET_ASIDE, Standing.NOT_SCORED})


def public_weighing(case: Case) -> PublicWeighing | None:
    """The weighing of a decision, or None where nothing could be weighed with the policy."""
    weighing, ground = case.weighing, case.ground
    if weighing is None or ground is None or weighing.verdict is None:
        return None
    letters, choice = letters_of(case.decision), case.decision.choice
    named = {name: f"option {letter}" for name, letter in letters.items()}
    said = account_of(weighing, names=named)
    weighting = weighting_of(ground.policy, ground.kept)
    drawn = ternary_map(weighing, weights=weighting.weights, labels=letters)
    return PublicWeighing(
        word=weighing.verdict.word,
        lead=said.lead,
        flips=tuple(each_flip(weighing, names=named)),
        stability=tuple(each_weight(weighing, weights=weighting.weights)),
        doubt=said.doubt,
        steps=(*said.steps, *worth_of_levels(case, weighting=weighting, names=named)),
        others=_by_letter(said.others, letters),
        beaten=_by_letter(beaten_in_words(weighing, names=named), letters),
        decides=what_decides(case, names=named),
        aside=_by_letter(said.aside, letters),
        has_ranges=weighing.policy is not None,
        rows=tuple(rows_of(weighing, letters=letters, chosen=choice.option if choice else None)),
        map=drawn,
        unmapped=None if drawn else _unmapped(weighing, named),
    )


def rows_of(
    weighing: Weighing, *, letters: Mapping[str, str], chosen: str | None
) -> Iterator[PublicWeighed]:
    """Every option in the order of its letter; the one that leads has no nearest weights."""
    for shade, (name, letter) in enumerate(letters.items()):
        found = weighing.of(name)
        yield PublicWeighed(
            option=name,
            letter=letter,
            shade=shade,
            is_chosen=name == chosen,
            standing=found.standing,
            value=found.value,
            chance=found.chance_best,
            share_all=found.share_all,
            share_policy=found.share_policy,
            nearest=found.nearest.weights if found.nearest else None,
            moved=found.nearest.moved if found.nearest else None,
        )


def _by_letter(said: tuple[str, ...], letters: Mapping[str, str]) -> tuple[str, ...]:
    """Sentences in the order of the options they speak of first, as the page lists them."""
    places = {letter: place for place, letter in enumerate(letters.values())}

    def place(sentence: str) -> int:
        named = _OPTION.search(sentence)
        return places.get(named[1], 0) if named else 0

    return tuple(sorted(said, key=place))


def _unmapped(weighing: Weighing, names: Mapping[str, str]) -> str | None:
    """Why there is no map: one option, or some that score the same, lead at all weights."""
    running = [option for option in weighing.options if option.standing not in _OUT]
    if len(running) <= 1:
        return None
    first = next(place for place in weighing.all_weights.territories if place.share)
    why = f"{names[first.members[0]]} leads or ties at all of them"
    if weighing.verdict and weighing.verdict.word is VerdictWord.TIED and len(first.members) > 1:
        why = "none of them would part the options that tie"
    return f"No map of the weights is drawn, since {why}."
