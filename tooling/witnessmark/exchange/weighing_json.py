"""A worked-out decision as JSON: the figures of `weigh` with aspects, scores and facts."""

from __future__ import annotations

from typing import Any

from witnessmark.scoring.authenticity import AspectScore, NotApplicable
from witnessmark.scoring.score import Score, Withheld
from witnessmark.weighing.case import Case
from witnessmark.weighing.figures import weighing_figures


def case_as_json(case: Case) -> dict[str, Any]:
    """Every figure of one decision; exact numbers as fraction strings."""
    figures: dict[str, Any] = (
        weighing_figures(case.weighing)
        if case.weighing
        else {"winner": [], "verdict": None, "options": {}, "stability": None, "flips": None}
    )
    options: dict[str, Any] = figures["options"]
    lifted = (
        {one.option: list(one.winners) for one in case.weighing.if_lifted} if case.weighing else {}
    )
    for option in case.decision.options:
        row = options.setdefault(option.id, {})
        scores = case.scores.get(option.id)
        if scores is not None:
            row["aspects"] = {
                aspect.value: _aspect(judged)
                for aspect, judged in scores.authenticity.aspects.items()
            }
            row["scores"] = {c.value: _score(score) for c, score in scores.criteria.items()}
        row["set_aside"] = list(case.aside.get(option.id, ()))
        row["if_lifted"] = lifted.get(option.id)
    because = case.weighing.verdict.because if case.weighing and case.weighing.verdict else None
    return {"decision": case.decision.id, **figures, "because": because}


def _score(score: Score | Withheld | NotApplicable) -> dict[str, Any]:
    if isinstance(score, Withheld):
        return {"withheld": " ".join(score.why)}
    if isinstance(score, NotApplicable):
        return {"not_applicable": score.because}
    return {
        "low": str(score.low),
        "likely": str(score.likely),
        "high": str(score.high),
        "facts": list(score.facts),
    }


def _aspect(judged: AspectScore) -> dict[str, Any]:
    return {**_score(judged.score), "weight": str(judged.weight), "how": judged.how}
