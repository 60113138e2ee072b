"""Hazards as rules see them: what touches them, who looked, and how each option answers."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.model.decision import Decision, Hazard
from witnessmark.model.options import Answer, Option, Step
from witnessmark.model.words import Do, DoneBy
from witnessmark.rules.in_force import steps_in_force
from witnessmark.rules.view_decision import HazardView
from witnessmark.rules.view_option import AnswerView

LEAVES_ALONE = frozenset({Do.LOCK_OUT})
"""What may be done around something nobody knows: stop others from getting at it."""


def hazard_views(decision: Decision) -> list[HazardView]:
    """Every listed hazard, in the order written."""
    steps = steps_in_force(decision)
    return [_hazard(n, hazard, steps, decision) for n, hazard in enumerate(decision.listed_hazards)]


def _hazard(index: int, hazard: Hazard, steps: tuple[Step, ...], decision: Decision) -> HazardView:
    survey, safe = hazard.survey, hazard.made_safe
    return {
        "index": index,
        "id": hazard.id,
        "what": hazard.what,
        "phase": hazard.when.value,
        "before": hazard.before,
        "who": list(hazard.who),
        "kind": hazard.kind.value if hazard.kind else "",
        "found": hazard.found.value if hazard.found else "",
        "parts": list(hazard.addresses),
        "touched_by": list(dict.fromkeys(_touching(hazard, steps))),
        "sent_out": _is_sent_out(decision),
        "surveyed_by": survey.by if survey else "",
        "survey_ref": survey.ref if survey else "",
        "energy": safe.energy if safe else "",
        "made_safe_how": safe.how if safe else "",
        "tested_by": safe.tested_by if safe else "",
    }


def _touching(hazard: Hazard, steps: tuple[Step, ...]) -> Iterator[str]:
    """The steps that touch the hazard's parts; all of them, where it is not said where it sits."""
    for step in steps:
        met = [a for a in step.addresses if not hazard.addresses or a in hazard.addresses]
        if met and step.do not in LEAVES_ALONE:
            yield f"{step.do.value} of {', '.join(met)}"


def _is_sent_out(decision: Decision) -> bool:
    effort = decision.chosen.effort if decision.chosen else None
    return effort is not None and effort.done_by is DoneBy.SENT_OUT


def answer_views(decision: Decision, option: Option) -> list[AnswerView]:
    """How an option answers each listed hazard that it does answer."""
    return [
        _answer(hazard, option.answers[hazard.id])
        for hazard in decision.listed_hazards
        if hazard.id in option.answers
    ]


def _answer(hazard: Hazard, answer: Answer) -> AnswerView:
    after = answer.after or ""
    return {
        "hazard": hazard.id,
        "before": hazard.before,
        "after": after,
        "claims_less": bool(after) and _is_less(after, hazard.before),
        "because_words": len((answer.because or "").split()),
        "orders": [control.order.value for control in answer.controls],
    }


def _is_less(after: str, before: str) -> bool:
    """Severity falls from 1 to 4 and probability from A to F (MIL-STD-882E, Tables I and II)."""
    return after[0] > before[0] or after[1] > before[1]
