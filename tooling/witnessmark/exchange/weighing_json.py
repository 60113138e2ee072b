"""A worked-out decision as JSON: the figures of `weigh` with aspects, scores and facts."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from witnessmark.exchange.weighing_tables import stressed_of, strongest_of
from witnessmark.scoring.authenticity import AspectScore, NotApplicable
from witnessmark.scoring.score import Score, Withheld
from witnessmark.weighing.case import Case
from witnessmark.weighing.figures import weighing_figures
from witnessmark.weighing.ordinal import OrderTest
from witnessmark.weighing.sentences import account_of
from witnessmark.weighing.stress import Stressed


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
    return {"decision": case.decision.id, **figures, "because": because, **_further(case)}


def _further(case: Case) -> dict[str, Any]:
    """The tests of the levels, and the account in sentences; options are called by their ids."""
    weighing = case.weighing
    account = asdict(account_of(weighing, names={})) if weighing else {}
    return {
        "stress": [_stressed(one) for one in stressed_of(case)],
        "best_worst": list(strongest_of(case)),
        "order_tests": [_order_test(one) for one in weighing.order_tests] if weighing else [],
        "sentences": {part: list(sentences) for part, sentences in account.items()},
    }


def _stressed(one: Stressed) -> dict[str, Any]:
    return {
        "steps": one.steps.name.lower().replace("_", "-"),
        "level_values": [str(value) for value in one.level_values],
        "winner": None if one.winner is None else list(one.winner),
        "changes": one.changes,
        "values": {name: str(value) for name, value in one.values.items()},
        "shares": {n: None if share is None else str(share) for n, share in one.shares.items()},
    }


def _order_test(one: OrderTest) -> dict[str, Any]:
    figures = (one.level, one.winner_reaches, one.rival_reaches)
    level, ours, theirs = (None if figure is None else str(figure) for figure in figures)
    return {
        "winner": one.winner,
        "rival": one.rival,
        "holds": one.holds,
        "level": level,
        "winner_reaches": ours,
        "rival_reaches": theirs,
    }


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
