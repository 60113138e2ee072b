"""A worked-out decision as text for a terminal: the sentences, the options, the figures."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from witnessmark.exchange.text_table import folded
from witnessmark.exchange.weighing_tables import figures_of_options, what_would_change_it
from witnessmark.model.options import Option
from witnessmark.model.words import Aspect, Criterion
from witnessmark.scoring.authenticity import AspectScore, NotApplicable
from witnessmark.scoring.score import Score, Withheld, one_decimal
from witnessmark.weighing.case import Case
from witnessmark.weighing.sentences import account_of

FACTS = " " * 17
"""Under a score: as wide as the widest criterion and the blanks around it."""


def render_case(case: Case) -> str:
    """Who leads and how surely in sentences; each option with its facts; then every figure."""
    lines = list(_heading(case))
    if case.ground is None:
        return "\n".join(lines)
    lines += ["", *_account(case)]
    for option in case.decision.options:
        lines += ["", *_option(option, case)]
    lines += ["", *figures_of_options(case), *what_would_change_it(case), ""]
    lines += folded("Scores are computed from the facts in the record; the reasons decide.")
    return "\n".join(lines)


def render_case_briefly(case: Case) -> str:
    """The sentences and the table of figures alone."""
    lines = list(_heading(case))
    if case.ground is not None:
        lines += ["", *_account(case), "", *figures_of_options(case)]
    return "\n".join(lines)


def _heading(case: Case) -> Iterator[str]:
    decision, ground = case.decision, case.ground
    yield from folded(f"{decision.id}  {decision.title}", rest=" " * 10)
    yield from folded(decision.question.strip(), indent="  ")
    if ground is None:
        yield ""
        yield "The machine or the policy cannot be read, so nothing is reckoned."
        return
    yield from folded(
        f"Read as on {ground.day}: {ground.machine.name}, kept {ground.kept.value}, "
        f"policy {ground.policy_id}.",
        indent="  ",
    )


def _account(case: Case) -> Iterator[str]:
    """The plain sentences, a paragraph for each thing a reader asks; options by their ids."""
    if case.weighing is None:
        yield "The policy's weights do not hold together, so nothing is weighed."
        return
    account = account_of(case.weighing, names={})
    word = case.weighing.verdict.word if case.weighing.verdict else None
    verdict = [f"Verdict: {word.value}."] if word else []
    yield from folded(" ".join([*account.lead, *verdict]))
    for part in (account.doubt, account.flips, account.steps, account.others, account.aside):
        if part:
            yield from folded(" ".join(part))
    yield from _departure(case)


def _departure(case: Case) -> Iterator[str]:
    decision = case.decision
    chosen = decision.choice.option if decision.choice else None
    if chosen and decision.departs_from_ranking:
        yield from folded(f"{chosen} was chosen all the same: {decision.departs_from_ranking}")


def _option(option: Option, case: Case) -> Iterator[str]:
    yield from folded(f"{option.id}: {option.title}{_marks(option, case)}", rest="  ")
    for why in case.aside.get(option.id, ()):
        yield from folded(f"set aside: {why}", indent="  ", rest="    ")
    scores = case.scores[option.id]
    yield from folded(_aspects(scores.authenticity.aspects), indent="  ", rest=FACTS)
    for criterion, score in scores.criteria.items():
        yield f"  {criterion.value:<14} {_range(score)}"
        for fact in _facts(score, scores.authenticity.aspects, criterion):
            yield from folded(fact, indent=FACTS, rest=f"{FACTS}  ")


def _marks(option: Option, case: Case) -> str:
    choice = case.decision.choice
    is_so = {
        "chosen": choice is not None and choice.option == option.id,
        "leads": option.id in case.winners,
    }
    marks = [mark for mark, holds in is_so.items() if holds]
    return f"  [{', '.join(marks)}]" if marks else ""


def _aspects(aspects: Mapping[Aspect, AspectScore]) -> str:
    shown = ", ".join(f"{aspect.value} {_short(aspects[aspect])}" for aspect in Aspect)
    return f"{'aspects':<14} {shown}"


def _facts(
    score: Score | Withheld, aspects: Mapping[Aspect, AspectScore], criterion: Criterion
) -> Iterator[str]:
    if isinstance(score, Withheld):
        yield from score.why
        return
    yield from score.facts
    if criterion is Criterion.AUTHENTICITY:
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
