"""Scores as linked data: each an attribute assignment, with who gave it and in which role."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from witnessmark.exchange.export.addresses import Addresses
from witnessmark.exchange.export.nodes import (
    PROGRAM,
    Node,
    in_role,
    levels,
    node,
    ref,
    some,
    word,
)
from witnessmark.exchange.export.published import Decision, Option, Score
from witnessmark.model.words import Word

SCORER = "wm:scorer"


@dataclass(frozen=True)
class _Given:
    """A score on something, with its reason and who judged it, where somebody did."""

    measure: Word
    score: Score
    because: str
    judge: str | None = None


def score_nodes(decision: Decision, at: Addresses) -> Iterator[Node]:
    """One for each aspect and criterion that has a score, in the order of the options."""
    for option in decision.options:
        for aspect in option.aspects:
            if aspect.score is not None:
                judge = aspect.by if aspect.how == "judged" else None
                given = _Given(aspect.aspect, aspect.score, aspect.because, judge)
                yield from _score(decision, option, at, given)
        for criterion in option.scores:
            because = " ".join(criterion.score.facts)
            given = _Given(criterion.criterion, criterion.score, because)
            yield from _score(decision, option, at, given)


def _score(decision: Decision, option: Option, at: Addresses, given: _Given) -> Iterator[Node]:
    """A judged value has its judge; every other level is the program's, from what is recorded."""
    level, judge, measure = levels(given.score), given.judge, given.measure
    if level is None:
        return
    agent = at.person(judge) if judge else PROGRAM
    policy = at.policy(decision.policy)
    yield node(
        at.within(decision.id, f"score-{option.id}-{measure.value}"),
        *("crm:E13_Attribute_Assignment", "prov:Activity", "wm:Score"),
        label=f"{measure.value.capitalize()} of: {option.title}",
        **some(
            crm__P3_has_note=given.because or None,
            crm__P14_carried_out_by=ref(agent) if judge else None,
            crm__P140_assigned_attribute_to=ref(at.option(decision.id, option.id)),
            crm__P141_assigned=level,
            crm__P177_assigned_property_of_type=word(measure),
            crm__P33_used_specific_technique=ref(policy),
            prov__qualifiedAssociation=in_role(agent, SCORER, plan=policy),
        ),
    )
