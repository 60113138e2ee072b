"""Earlier decisions like this one: how like, on which features, and how much could be compared.

Source: Gower, A general coefficient of similarity and some of its properties, Biometrics 27(4),
1971, pp. 857-871 (formula as the manual of the R package FD gives it): the weighted mean of the
likeness on each feature; a feature that either decision lacks has no weight.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from enum import Enum
from fractions import Fraction
from typing import Final

from witnessmark.model.decision import Decision
from witnessmark.model.library import DecisionFile, Library
from witnessmark.model.machine import Machine
from witnessmark.model.trace import Trace
from witnessmark.model.words import State
from witnessmark.scoring.score import Score
from witnessmark.weighing.case import Case
from witnessmark.weighing.option import CRITERIA, HIGHEST_LEVEL

_SMALL_WORDS: Final = frozenset({"a", "and", "for", "from", "in", "of", "on", "the", "to", "with"})

Trait = str | Fraction | frozenset[str] | None
"""What a decision has of one feature: a word, a level, some words, or nothing known."""

Portrait = Mapping[str, Trait]
"""The traits of one decision by feature."""


class Comparing(Enum):
    """How two traits are compared: the same word or not, near on a scale, words in common."""

    WORD = "word"
    LEVEL = "level"
    WORDS = "words"


@dataclass(frozen=True, slots=True)
class Feature:
    """One feature, what it counts for, and how it is compared."""

    name: str
    weight: Fraction
    comparing: Comparing


OF_THE_QUESTION: Final = (
    Feature("kinds of option", Fraction(3), Comparing.WORDS),
    Feature("way of keeping", Fraction(2), Comparing.WORD),
    Feature("part", Fraction(2), Comparing.WORDS),
    Feature("material", Fraction(1), Comparing.WORDS),
)
"""What is alike before anything is chosen, with weights (own judgement, published, no source)."""

FEATURES: Final = (
    *OF_THE_QUESTION,
    *(Feature(criterion, Fraction(1), Comparing.LEVEL) for criterion in CRITERIA),
)
"""The features of decisions and their weights (own judgement, published, no source).
The levels are the scores of the option chosen."""


@dataclass(frozen=True, slots=True)
class Question:
    """What a decision asks, before anything is chosen; equal for all that ask it alike.

    `kinds` are those of its options; `part` and `material` are the words of the parts it is about,
    none where nothing is known.
    """

    kinds: frozenset[str]
    kept: str | None = None
    part: frozenset[str] = frozenset()
    material: frozenset[str] = frozenset()

    @property
    def portrait(self) -> Portrait:
        """Give its traits for OF_THE_QUESTION; what is not known is None, and so not compared."""
        traits = (self.kinds, self.kept, self.part or None, self.material or None)
        return {f.name: trait for f, trait in zip(OF_THE_QUESTION, traits, strict=True)}


@dataclass(frozen=True, slots=True)
class Likeness:
    """How like two decisions are, from 0 to 1, and the share of all weight that was compared.

    `similarity` is None where nothing could be compared. `terms` gives each compared feature's own
    likeness.
    """

    similarity: Fraction | None
    coverage: Fraction
    terms: Mapping[str, Fraction]


@dataclass(frozen=True, slots=True)
class Precedent:
    """An earlier decision and how like it is."""

    decision: str
    likeness: Likeness


def likeness_of(one: Portrait, other: Portrait, *, features: Sequence[Feature]) -> Likeness:
    """Give how like two portraits are over these features."""
    terms = {
        feature.name: likeness
        for feature in features
        if (likeness := _compared(one.get(feature.name), other.get(feature.name), feature))
        is not None
    }
    weights = {feature.name: feature.weight for feature in features}
    compared = sum((weights[name] for name in terms), Fraction(0))
    alike = sum((weights[name] * term for name, term in terms.items()), Fraction(0))
    whole = sum(weights.values(), Fraction(0))
    return Likeness(
        alike / compared if compared else None,
        compared / whole if whole else Fraction(0),
        terms,
    )


def precedents(
    query: Portrait, *, past: Mapping[str, Portrait], features: Sequence[Feature] = FEATURES
) -> tuple[Precedent, ...]:
    """Give every earlier decision that can be compared, the most like first.

    Among equals, the one with more compared comes first, then the one with the smaller id.
    """
    found = [
        Precedent(name, likeness_of(query, portrait, features=features))
        for name, portrait in past.items()
    ]
    known = [precedent for precedent in found if precedent.likeness.similarity is not None]
    return tuple(sorted(known, key=_rank))


def earlier_agreed(decision: Decision, library: Library) -> Iterator[DecisionFile]:
    """Give the decisions opened before this one that were agreed, replaced ones too, by id.

    Each id is given once, as the museum reads it.
    """
    here = decision.opened, decision.id
    for name, entry in sorted(library.by_id.items()):
        other = entry.value
        if other is None or (other.opened, name) >= here:
            continue
        if other.is_settled or other.state is State.REPLACED:
            yield entry


def portrait_of(case: Case) -> Portrait:
    """Give the traits of a worked-out decision for FEATURES; what cannot be read is absent."""
    machine = None if case.ground is None else case.ground.machine
    question = question_of(case.decision, machine=machine)
    return {**question.portrait, **dict(_chosen_levels(case))}


def question_of(decision: Decision, *, machine: Machine | None) -> Question:
    """Give what a decision asks; without its machine, only the kinds of option are known."""
    kinds = frozenset(option.kind.value for option in decision.options)
    if machine is None:
        return Question(kinds)
    return question_about(decision.about, kinds=kinds, machine=machine, on=decision.reference_day)


def question_about(
    addresses: Sequence[str], *, kinds: frozenset[str], machine: Machine, on: date
) -> Question:
    """Give what is asked about some parts of a machine on a day, with these kinds of option."""
    about = [part for address, _, part in machine.parts() if address in addresses]
    return Question(
        kinds,
        machine.kept_on(on).value,
        frozenset(word for part in about for word in _words(part.name)),
        frozenset(word for part in about for word in _words(part.material or "")),
    )


def question_left(trace: Trace) -> Question:
    """Give what a decision asked, from its trace."""
    return Question(
        trace.kinds,
        trace.kept,
        frozenset(word for name in trace.part_names for word in _words(name)),
        frozenset(word for material in trace.part_materials for word in _words(material)),
    )


def _chosen_levels(case: Case) -> Iterator[tuple[str, Trait]]:
    chosen = case.decision.chosen
    scores = case.scores.get(chosen.id) if chosen else None
    if scores is not None:
        for criterion, score in scores.criteria.items():
            yield criterion.value, score.likely if isinstance(score, Score) else None


def _words(text: str) -> Iterator[str]:
    """Give the words that say what a thing is, small words left out."""
    words = text.casefold().replace(",", " ").split()
    return (word for word in words if word not in _SMALL_WORDS)


def _compared(one: Trait, other: Trait, feature: Feature) -> Fraction | None:
    """Give the likeness of two traits, None where either is unknown or neither has any words."""
    if one is None or other is None:
        return None
    match feature.comparing, one, other:
        case Comparing.WORDS, frozenset(), frozenset():
            return Fraction(len(one & other), len(one | other)) if one | other else None
        case Comparing.LEVEL, Fraction(), Fraction():
            return 1 - abs(one - other) / HIGHEST_LEVEL
        case Comparing.WORD, str(), str():
            return Fraction(one == other)
    raise TypeError(f"{feature.name} is compared as {feature.comparing.value}")


def _rank(precedent: Precedent) -> tuple[Fraction, Fraction, str]:
    likeness = precedent.likeness
    return -(likeness.similarity or Fraction(0)), -likeness.coverage, precedent.decision
