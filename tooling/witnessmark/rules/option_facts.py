"""Options as rules see them: what was written, what was reckoned from it, and each step."""

from __future__ import annotations

from collections.abc import Mapping

from witnessmark.model.options import NoneBecause, Option, Step
from witnessmark.model.words import Criterion, Fate
from witnessmark.rules.hazard_facts import answer_views
from witnessmark.rules.in_force import is_told
from witnessmark.rules.machine_facts import iso
from witnessmark.rules.step_facts import Setting, StepList, step_views
from witnessmark.rules.view_option import AspectView, OptionView, ScoresView, StepView
from witnessmark.rules.view_words import Given
from witnessmark.scoring.authenticity import AspectScore
from witnessmark.scoring.score import Score
from witnessmark.scoring.scores import OptionScores
from witnessmark.weighing.case import Case, accepted_option

IRREVERSIBLE_TO = 1
"""Levels 0 and 1 of the museum's rubric cannot be undone (its own judgement)."""


def levels_of(case: Case) -> Mapping[str, ScoresView]:
    """The likely levels of every option, reckoned once for all that are compared."""
    return {name: _levels(scores) for name, scores in case.scores.items()}


def option_view(
    index: int, case: Case, steps: list[StepView], *, levels: Mapping[str, ScoresView]
) -> OptionView:
    """One option with its scores and its steps; the case must have been worked out with them."""
    decision = case.decision
    option = decision.options[index]
    scores = case.scores[option.id]
    chosen = decision.chosen
    removed = [row for step in steps for row in step["removed"]]
    leaving = [row for step in steps for row in step["leaving"]]
    own = levels[option.id]
    back = own["reversibility"]
    return {
        "index": index,
        "id": option.id,
        "title": option.title,
        "kind": option.kind.value,
        "is_chosen": option is chosen,
        "is_leading": option.id in case.winners,
        "is_set_aside": option.id in case.aside,
        "is_ruled_out": option.ruled_out is not None,
        "misses_aim": option.misses_aim is not None,
        "not_scored": option.not_scored or "",
        "why_not": option.why_not or "",
        "way_back": option.way_back or "",
        "forecloses": option.forecloses or "",
        "consequences_given": _consequences_given(option),
        "consequences": [
            {"parts": list(c.addresses), "becomes": c.becomes, "because": c.because}
            for c in option.listed_consequences
        ],
        "is_temporary": option.temporary,
        "done_by": option.effort.done_by.value if option.effort and option.effort.done_by else "",
        "answers": answer_views(decision, option),
        "hazards_unanswered": [h.id for h in decision.listed_hazards if h.id not in option.answers],
        "worst_risk": scores.safety.worst.value if scores.safety.worst else "",
        "is_risk_accepted": accepted_option(decision) == option.id,
        "held_down_by": list(scores.safety.held_down_by),
        "scores": own,
        "has_scores": None not in (own["authenticity"], own["safety"], back),
        "is_irreversible": back is not None and back <= IRREVERSIBLE_TO,
        "touches_original": any(row.counts for row in scores.undoing.rows),
        "loses_evidence": any(row["fate"] == Fate.LOST for row in leaving),
        "gentler": _gentler(option, case, levels),
        "aspects": [_aspect(row) for row in scores.authenticity.aspects.values()],
        "steps": [{"do": s["do"], "touches_original": s["touches_original"]} for s in steps],
        "removed": removed,
        "leaving": leaving,
        "fitted": [row for step in steps for row in step["fitted"]],
    }


def _gentler(option: Option, case: Case, all_levels: Mapping[str, ScoresView]) -> list[str]:
    """The options that may be chosen and touch the machine less, on both counts or on one."""
    own = _touch(all_levels[option.id])
    if own is None:
        return []
    found = []
    for other in case.decision.options:
        levels = _touch(all_levels[other.id])
        if levels is None or other.id in case.aside or other.not_scored:
            continue
        if levels != own and all(theirs >= ours for theirs, ours in zip(levels, own, strict=True)):
            found.append(other.id)
    return found


def _touch(levels: ScoresView) -> tuple[float, float] | None:
    material, back = levels["material"], levels["reversibility"]
    known = levels["safety"] is not None and levels["authenticity"] is not None
    return (material, back) if known and material is not None and back is not None else None


def work_steps(case: Case, setting: Setting) -> list[StepView]:
    """The steps of the work as done, laid on the machine as it was."""
    decision = case.decision
    chosen = decision.chosen.id if decision.chosen else ""
    steps: tuple[Step, ...] = decision.work.as_done if decision.work else ()
    return step_views(
        StepList(steps, chosen, is_as_done=True, is_of_chosen=True, is_in_force=True), setting
    )


def planned_steps(index: int, case: Case, setting: Setting) -> list[StepView]:
    """The steps of an option, laid on the machine as it was."""
    return step_views(_planned(case.decision.options[index], case), setting)


def _planned(option: Option, case: Case) -> StepList:
    """A plan is in force while it is the chosen one and the record does not say what was done."""
    decision = case.decision
    is_chosen = option is decision.chosen
    return StepList(
        option.steps,
        option.id,
        is_as_done=False,
        is_of_chosen=is_chosen,
        is_in_force=is_chosen and not is_told(decision),
    )


def _consequences_given(option: Option) -> Given:
    if isinstance(option.consequences, NoneBecause):
        return "none"
    return "listed" if option.consequences else "blank"


def _levels(scores: OptionScores) -> ScoresView:
    criteria = scores.criteria
    return {
        "authenticity": _likely(criteria[Criterion.AUTHENTICITY]),
        "safety": _likely(criteria[Criterion.SAFETY]),
        "reversibility": _likely(criteria[Criterion.REVERSIBILITY]),
        "material": _likely(scores.fabric.score),
    }


def _likely(scored: object) -> float | None:
    if not isinstance(scored, Score):
        return None
    # As float() does it, in less than half the time: each option has ten.
    return scored.likely.numerator / scored.likely.denominator


def _aspect(row: AspectScore) -> AspectView:
    return {
        "aspect": row.aspect.value,
        "how": row.how,
        "likely": _likely(row.score),
        "because": row.because,
        "because_words": len(row.because.split()),
        "by": row.by or "",
        "judged_on": iso(row.date),
    }
