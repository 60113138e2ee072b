"""The whole account of a weighing: short sentences, sorted by what a reader asks."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from witnessmark.weighing.sentences.doubt import doubt_in_scores, flips_in_words, worth_of_steps
from witnessmark.weighing.sentences.lead import lead_in_words
from witnessmark.weighing.sentences.others import options_beaten, options_behind, options_set_aside
from witnessmark.weighing.sentences.subject import Subject
from witnessmark.weighing.weigh import Weighing


@dataclass(frozen=True, slots=True)
class Account:
    """What a weighing found, in sentences; any part but the lead may be empty.

    `lead` says in two or three sentences who leads, what would end it and how sure it is; `doubt`
    the chance of being best and what it assumes; `flips` which single score would change the
    result; `steps` whether it leans on what the levels are worth; `others` how each option behind
    came out; `aside` what each exclusion costs.
    """

    lead: tuple[str, ...]
    doubt: tuple[str, ...]
    flips: tuple[str, ...]
    steps: tuple[str, ...]
    others: tuple[str, ...]
    aside: tuple[str, ...]

    @property
    def sentences(self) -> tuple[str, ...]:
        """Give every sentence, in the order of the parts."""
        return (*self.lead, *self.doubt, *self.flips, *self.steps, *self.others, *self.aside)


def account_of(weighing: Weighing, *, names: Mapping[str, str]) -> Account:
    """Give the account of a weighing, each option called by its short name, else by its id."""
    subject = Subject(weighing, names)
    return Account(
        lead=_sentences(lead_in_words(subject)),
        doubt=_sentences(doubt_in_scores(subject)),
        flips=_sentences(flips_in_words(subject)),
        steps=_sentences(worth_of_steps(subject)),
        others=_sentences(options_behind(subject)),
        aside=_sentences(options_set_aside(subject)),
    )


def beaten_in_words(weighing: Weighing, *, names: Mapping[str, str]) -> tuple[str, ...]:
    """Give those sentences on options behind that a table of the figures does not tell."""
    return _sentences(options_beaten(Subject(weighing, names)))


def _sentences(clauses: Iterable[str]) -> tuple[str, ...]:
    """Give each clause with a capital in front, where a short name may have none."""
    return tuple(f"{clause[:1].upper()}{clause[1:]}" for clause in clauses)
