"""Options as the public sees them: equal fields for all, the scores and the facts behind them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from witnessmark.model.decision import Decision, Hazard
from witnessmark.model.museum import Museum
from witnessmark.model.options import Effort, NoneBecause, NoneSigned, Option
from witnessmark.model.words import Criterion, Do, Fate
from witnessmark.publish.public_decision import (
    Pieces,
    PublicAnswer,
    PublicAspect,
    PublicOption,
    PublicScore,
)
from witnessmark.publish.shown_names import Names, within
from witnessmark.publish.shown_steps import public_consequences, public_steps
from witnessmark.publish.shown_undo import undo_facts, undone_means
from witnessmark.scoring.authenticity import AspectScore, NotApplicable
from witnessmark.scoring.fabric import Treated
from witnessmark.scoring.matrix882 import cell_in_full
from witnessmark.scoring.score import Score, Scored, one_decimal
from witnessmark.scoring.scores import OptionScores
from witnessmark.weighing.case import Case

BOTH = 2
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def letters_of(decision: Decision) -> Mapping[str, str]:
    """A letter for each option in the order written; numbers once the letters run out."""
    marks = (*LETTERS, *(str(n) for n in range(27, 200)))
    return {option.id: mark for option, mark in zip(decision.options, marks, strict=False)}


def public_options(case: Case, *, names: Names, museum: Museum) -> tuple[PublicOption, ...]:
    """Every option of a decision, in the order written."""
    letters = letters_of(case.decision)
    return tuple(
        _option(option, case, letters[option.id], names, museum) for option in case.decision.options
    )


def _option(option: Option, case: Case, letter: str, names: Names, museum: Museum) -> PublicOption:
    scores = case.scores.get(option.id)
    undo = scores.undoing.rows if scores else ()
    changed, untouched = _treated(scores)
    nothing = option.consequences
    steps = public_steps(option.steps, machine=case.machine_id, names=names, undo=undo)
    return PublicOption(
        id=option.id,
        letter=letter,
        kind=option.kind,
        title=option.title,
        what=option.what,
        steps=steps,
        consequences=public_consequences(
            option.listed_consequences,
            machine=case.machine_id,
            names=names,
            undo=undo,
            first=len(option.steps),
        ),
        no_consequences=nothing.none if isinstance(nothing, NoneBecause) else None,
        pieces=_pieces(option, case),
        changed=changed,
        untouched=untouched,
        not_scored=option.not_scored,
        undone_means=undone_means(option, scores) if scores else None,
        way_back=option.way_back,
        later_cost=option.later_cost,
        why_not=option.why_not,
        effort=tuple(_effort(option.effort, museum)) if option.effort else (),
        answers=tuple(_answers(option, case.decision.listed_hazards)),
        aspects=tuple(
            _aspect(row, case.machine_id, names) for row in scores.authenticity.aspects.values()
        )
        if scores
        else (),
        scores=tuple(_criteria(scores, case, names)) if scores else (),
        aside=case.aside.get(option.id, ()),
        is_chosen=bool(case.decision.choice and case.decision.choice.option == option.id),
    )


def _treated(
    scores: OptionScores | None,
) -> tuple[tuple[tuple[str, str], ...], tuple[str, ...]]:
    """Original parts that are changed or leave, each with what happens; and those left alone."""
    treated = scores.fabric.treated if scores else ()
    changed = tuple((t.name, _how_many(t) + t.what) for t in treated if t.share < 1)
    return changed, tuple(t.name for t in treated if t.share == 1)


def _how_many(treated: Treated) -> str:
    """Before what happens to all of several pieces; where it happens to some, that says so."""
    if treated.count == 1 or treated.what[:1].isdigit():
        return ""
    return "both " if treated.count == BOTH else f"all {treated.count} "


def _pieces(option: Option, case: Case) -> Pieces | None:
    """Original pieces in scope that stay, some of them altered, leave and are kept, or are lost."""
    if case.ground is None:
        return None
    scope = {
        a: sum(p.count for p in here if p.is_in_scope) for a, here in case.ground.scope.items()
    }
    out = {address: {"kept": 0, "lost": 0} for address in scope}
    for step in option.steps:
        for address in set(step.addresses) & set(out):
            gone = out[address]
            if step.do is Do.REMOVE and step.fate is not None:
                way = "lost" if step.fate is Fate.LOST else "kept"
                left = scope[address] - gone["kept"] - gone["lost"]
                gone[way] += min(left, step.count or left)
    kept = sum(gone["kept"] for gone in out.values())
    lost = sum(gone["lost"] for gone in out.values())
    scores = case.scores.get(option.id)
    altered = sum(t.altered for t in scores.fabric.treated) if scores else 0
    return Pieces(stay=sum(scope.values()) - kept - lost, kept=kept, lost=lost, altered=altered)


def _effort(effort: Effort, museum: Museum) -> Iterator[tuple[str, str]]:
    """Money and hours only where the museum shows them."""
    if effort.done_by:
        yield "Where it would be done", effort.done_by.definition
    if effort.hours and museum.shown.hours:
        yield "Hours of work", _between(effort.hours)
    if effort.cost and museum.shown.money:
        yield "Cost", f"{_between(effort.cost)} {museum.currency}"


def _between(ends: tuple[Fraction, Fraction]) -> str:
    low, high = (one_decimal(end) for end in ends)
    return low if low == high else f"{low} to {high}"


def _answers(option: Option, hazards: tuple[Hazard, ...]) -> Iterator[PublicAnswer]:
    for hazard in hazards:
        answer = option.answers.get(hazard.id)
        if answer is None:
            after = "not answered"
        elif answer.after is None:
            after = f"no such danger: {within(answer.none or '')}"
        else:
            after = cell_in_full(answer.after)
        yield PublicAnswer(
            what=hazard.what,
            when=hazard.when,
            before=cell_in_full(hazard.before),
            after=after,
            because=answer.because if answer else None,
            controls=tuple((c.order.value, c.what) for c in answer.controls) if answer else (),
        )


def _aspect(row: AspectScore, machine: str, names: Names) -> PublicAspect:
    return PublicAspect(
        aspect=row.aspect,
        weight=row.weight,
        score=None
        if isinstance(row.score, NotApplicable)
        else public_score(row.score, machine=machine, names=names),
        how=row.how,
        because=row.because,
        by=names.person(row.by) if row.by else None,
    )


def public_score(
    scored: Scored, *, machine: str, names: Names, facts: tuple[str, ...] | None = None
) -> PublicScore:
    """A score or the reason there is none; `facts` stand in for its own where given."""
    own = scored.facts if isinstance(scored, Score) else scored.why
    said = tuple(names.in_place_of_addresses(machine, fact) for fact in facts or own)
    if not isinstance(scored, Score):
        return PublicScore(withheld=said)
    return PublicScore(low=scored.low, likely=scored.likely, high=scored.high, facts=said)


def _criteria(
    scores: OptionScores, case: Case, names: Names
) -> Iterator[tuple[Criterion, PublicScore]]:
    for criterion, scored in scores.criteria.items():
        facts = None
        if criterion is Criterion.SAFETY and isinstance(case.decision.hazards, NoneSigned):
            # The score's own sentence names the signer by id, which stays private.
            signed = case.decision.hazards.none
            said = f"It was signed by {names.person(signed.by)} that there is no hazard"
            facts = (f"{said}: {signed.because}", *scores.safety.caps)
        if criterion is Criterion.REVERSIBILITY:
            facts = undo_facts(scores, machine=case.machine_id, names=names)
        yield (
            criterion,
            public_score(scored, machine=case.machine_id, names=names, facts=facts),
        )
