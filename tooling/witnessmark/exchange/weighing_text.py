"""A worked-out decision as text for a terminal."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap

from witnessmark.model.options import Option
from witnessmark.model.words import Aspect, Criterion
from witnessmark.scoring.authenticity import AspectScore, NotApplicable
from witnessmark.scoring.score import Score, Withheld, one_decimal
from witnessmark.weighing.case import Case
from witnessmark.weighing.verdict import in_a_hundred

WIDTH = 92


def render_case(case: Case) -> str:
    """The decision, each option with its scores and facts, then who leads and how surely."""
    decision = case.decision
    lines = [f"{decision.id}  {decision.title}", f"  {decision.question.strip()}", ""]
    if case.ground is None:
        lines.append("The machine or the policy cannot be read, so nothing is reckoned.")
        return "\n".join(lines)
    ground = case.ground
    lines += _folded(
        f"Read as on {ground.day}: {ground.machine.name}, kept {ground.kept.value}, "
        f"policy {ground.policy_id}.",
        "",
    )
    for option in decision.options:
        lines += ["", *_option(option, case)]
    lines += ["", *_outcome(case)]
    return "\n".join(lines)


def _folded(text: str, indent: str, rest: str | None = None) -> list[str]:
    further = indent if rest is None else rest
    return wrap(text, WIDTH, initial_indent=indent, subsequent_indent=further) or [indent]


def _option(option: Option, case: Case) -> Iterator[str]:
    chosen = case.decision.choice and case.decision.choice.option == option.id
    marks = [
        mark for mark, is_so in (("chosen", chosen), ("leads", option.id in case.winners)) if is_so
    ]
    tail = f"  [{', '.join(marks)}]" if marks else ""
    yield f"{option.id}: {option.title}{tail}"
    for why in case.aside.get(option.id, ()):
        yield from _folded(f"set aside: {why}", "  ", "    ")
    scores = case.scores[option.id]
    yield "  aspects        " + "  ".join(
        f"{aspect.value} {_short(scores.authenticity.aspects[aspect])}" for aspect in Aspect
    )
    for criterion, score in scores.criteria.items():
        yield f"  {criterion.value:<14} {_range(score)}"
        for fact in _facts(score, scores.authenticity.aspects, criterion):
            yield from _folded(fact, " " * 17, " " * 19)
    weighed = case.weighing.of(option.id) if case.weighing else None
    if weighed and weighed.value is not None:
        parts = [f"value {one_decimal(weighed.value)}", weighed.standing.value]
        if weighed.share_policy is not None:
            parts.append(f"wins {in_a_hundred(weighed.share_policy)} of our policy's weightings")
        if weighed.chance_best is not None:
            parts.append(f"chance of being best {in_a_hundred(weighed.chance_best)}")
        yield from _folded(", ".join(parts), "  ", "    ")


def _facts(
    score: Score | Withheld, aspects: dict[Aspect, AspectScore] | object, criterion: Criterion
) -> Iterator[str]:
    if isinstance(score, Withheld):
        yield from score.why
        return
    yield from score.facts
    if criterion is Criterion.AUTHENTICITY and isinstance(aspects, dict):
        material = aspects[Aspect.MATERIAL].score
        if isinstance(material, Score):
            yield from (f"material: {fact}" for fact in material.facts)


def _short(aspect: AspectScore) -> str:
    if isinstance(aspect.score, Withheld):
        return "?"
    if isinstance(aspect.score, NotApplicable):
        return "n/a"
    return _range(aspect.score)


def _range(score: Score | Withheld) -> str:
    if isinstance(score, Withheld):
        return "withheld"
    likely = one_decimal(score.likely)
    if score.low == score.high:
        return likely
    return f"{likely} ({one_decimal(score.low)} to {one_decimal(score.high)})"


def _outcome(case: Case) -> Iterator[str]:
    weighing = case.weighing
    if weighing is None:
        yield "The policy's weights do not hold together, so nothing is weighed."
        return
    if weighing.winner:
        verb = "leads" if len(weighing.winner) == 1 else "lead together"
        yield f"{' and '.join(weighing.winner)} {verb}."
    if weighing.verdict:
        word = weighing.verdict.word
        yield from _folded(f"Verdict: {word.value}. {weighing.verdict.because}", "")
    for lifted in weighing.if_lifted:
        winners = " and ".join(lifted.winners)
        yield from _folded(f"Were {lifted.option} not set aside, {winners} would lead.", "")
    if case.decision.departs_from_ranking:
        yield from _folded(f"Departs from the ranking: {case.decision.departs_from_ranking}", "")
    yield from _folded("Scores are computed from the facts in the record; the reasons decide.", "")
