"""The tables of decisions, their options, scores and steps."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from witnessmark.exchange.export.columns import (
    MUSEUM,
    Link,
    Row,
    Table,
    both,
    day,
    exact,
    text,
    texts,
    whole,
    yes_no,
)
from witnessmark.exchange.export.published import (
    AspectScore,
    CriterionScore,
    Decision,
    Option,
    Published,
    Score,
    Step,
    Weighed,
)
from witnessmark.exchange.export.tables_machines import MACHINE, OF_MACHINE, page

DECISION = text("decision", "The decision's id, as in the address of its page.")
OPTION = text("option", "The option's id, unique within the decision.")
OF_DECISION = Link(("museum", "decision"), "decisions", ("museum", "decision"))
OF_OPTION = Link(("museum", "decision", "option"), "options", ("museum", "decision", "option"))
OF_PART = Link(("museum", "machine", "part"), "parts", ("museum", "machine", "part"))

AS_DONE = "as_done"
"""Stands before the number of a step that was done; no option has an underscore in its id."""


def _decisions(published: Published) -> Iterator[Row]:
    for d in published.decisions:
        work, choice = d.work, d.choice
        yield (
            *(published.name, d.id, d.machine, d.title, d.question, d.aim.what),
            *(";".join(d.about) or None, d.kept.value, d.policy, d.departs_from_policy),
            *(d.state.value, d.opened, d.settled, d.until, d.proposed_by, d.judged_by),
            *(choice.option, choice.because, choice.gives_up, choice.would_change_our_mind),
            *(d.weighing.verdict if d.weighing else None, choice.departs_from_ranking),
            *(d.emergency, work.started if work else None, work.ended if work else None),
            *(d.look_again.day, d.look_again.after, d.replaces, d.replaced_by),
            page(published, f"d/{d.id}/"),
        )


def _options(published: Published) -> Iterator[Row]:
    for decision in published.decisions:
        weighed = {row.option: row for row in _weighed(decision)}
        for o in decision.options:
            row, pieces = weighed.get(o.id), o.pieces
            yield (
                *(published.name, decision.id, o.id, o.kind.value, o.title, o.is_chosen),
                row.standing if row else None,
                *both(row.value if row else None),
                *both(row.chance if row else None),
                *both(row.share_all if row else None),
                *(pieces.stay if pieces else None, pieces.kept if pieces else None),
                pieces.lost if pieces else None,
                *("; ".join(o.set_aside) or None, o.not_scored, o.why_not, o.way_back),
            )


def _weighed(decision: Decision) -> Sequence[Weighed]:
    return decision.weighing.options if decision.weighing else ()


def _scores(published: Published) -> Iterator[Row]:
    for decision in published.decisions:
        for option in decision.options:
            start = (published.name, decision.id, option.id)
            for aspect in option.aspects:
                yield (*start, *_aspect(aspect))
            for criterion in option.scores:
                yield (*start, *_criterion(criterion))


def _aspect(row: AspectScore) -> Row:
    weight = both(row.weight)
    return (row.aspect.value, "aspect", *weight, *_levels(row.score), row.how, row.by, row.because)


def _criterion(row: CriterionScore) -> Row:
    said = row.score.withheld or row.score.facts
    how = "withheld" if row.score.withheld else "computed"
    return (
        *(row.criterion.value, "criterion", *both(None), *_levels(row.score)),
        *(how, None, " ".join(said) or None),
    )


def _levels(score: Score | None) -> Row:
    levels: tuple[Fraction | None, ...] = (None, None, None)
    if score is not None:
        levels = (score.low, score.likely, score.high)
    low, likely, high = map(both, levels)
    return (*low, *likely, *high)


def _steps(published: Published) -> Iterator[Row]:
    for decision in published.decisions:
        for option in decision.options:
            yield from _of_option(published, decision, option)
        if decision.work:
            for number, step in enumerate(decision.work.as_done, start=1):
                start = (published.name, decision.id, f"{AS_DONE}/{number}", None, "done")
                yield from _of_step(start, decision.machine, step)


def _of_option(published: Published, decision: Decision, option: Option) -> Iterator[Row]:
    for number, step in enumerate((*option.steps, *option.consequences), start=1):
        start = (published.name, decision.id, f"{option.id}/{number}", option.id, "planned")
        yield from _of_step(start, decision.machine, step)


def _of_step(start: Row, machine: str, step: Step) -> Iterator[Row]:
    """One row for each place that the step works on."""
    for index, place in enumerate(step.places):
        yield (
            *(*start, machine, place, step.do.value if step.do else None, step.becomes),
            *(step.count, step.fate.value if step.fate else None),
            step.labels[index] if index < len(step.labels) else None,
            *(step.like.value if step.like else None, step.material, step.drawing, step.marked),
            *("/".join(step.source) if step.source else None, step.undo, step.text, step.because),
        )


DECISIONS = Table(
    name="decisions",
    means="One row a published decision.",
    columns=(
        MUSEUM,
        DECISION,
        MACHINE,
        text("title", "Its title."),
        text("question", "The question that was asked."),
        text("aim", "What was to be reached."),
        texts("about", "The addresses of the parts it is about."),
        text("kept", "How the machine was kept then: running, on-display or reserve."),
        text("policy", "The policy it was weighed under."),
        text("departs_from_policy", "Why another policy than the newest of its day was used."),
        text("state", "How far it has come: agreed, under-way, done or replaced."),
        day("opened", "When the question was written down."),
        day("settled", "When the last person agreed; the day it was opened, if none has."),
        day("until", "When a temporary decision runs out."),
        text("proposed_by", "Who proposed it, by title."),
        text("judged_by", "Who judged the options, by title, where one person judged them all."),
        text("chosen", "The option that was chosen."),
        text("because", "Why it was chosen."),
        text("gives_up", "What is given up with it."),
        text("would_change_our_mind", "What would have made the museum choose otherwise."),
        text("verdict", "How sure the result of weighing is: firm, holds, close, tied and so on."),
        text("departs_from_ranking", "Why an option was chosen that did not lead; else empty."),
        text("emergency", "Why the work did not wait for agreement; else empty."),
        day("started", "When the work began."),
        day("ended", "When the work ended."),
        day("look_again", "When somebody looks again."),
        text("look_again_after", "After how much use somebody looks again."),
        text("replaces", "The decision in whose place it stands."),
        text("replaced_by", "The decision that stands in its place."),
        text("page", "The full address of its page."),
    ),
    key=("museum", "decision"),
    links=(
        OF_MACHINE,
        Link(("museum", "decision", "chosen"), "options", ("museum", "decision", "option")),
    ),
    rows=_decisions,
)
OPTIONS = Table(
    name="options",
    means="One row an option of a decision, the chosen one and the others alike.",
    columns=(
        MUSEUM,
        DECISION,
        OPTION,
        text("kind", "What sort of option it is, as the glossary has it."),
        text("title", "Its title."),
        yes_no("is_chosen", "True for the option that was chosen."),
        text("standing", "How it stands against the others over all weights."),
        *exact("value", "Its value at the policy's weights, 0 to 4."),
        *exact("chance", "The chance that it is best, given the doubt in the scores, 0 to 1."),
        *exact("share_all", "The share of all weightings for which it leads, 0 to 1."),
        whole("stay", "Original pieces in question that stay in the machine."),
        whole("leave_and_are_kept", "Original pieces that leave the machine and are kept."),
        whole("lost", "Original pieces that are lost."),
        text("set_aside", "Why it was ruled out before weighing; else empty."),
        text("not_scored", "Why it was not scored; else empty."),
        text("why_not", "Why it was not chosen."),
        text("way_back", "How it could be undone."),
    ),
    key=("museum", "decision", "option"),
    links=(OF_DECISION,),
    rows=_options,
)
SCORES = Table(
    name="scores",
    means="One row an option and what it was scored on: six aspects and three criteria.",
    columns=(
        MUSEUM,
        DECISION,
        OPTION,
        text("measure", "The aspect or criterion; no word is in both lists."),
        text("sort", "aspect or criterion."),
        *exact("weight", "What an aspect counts for in authenticity; empty for a criterion."),
        *exact("low", "The least level it could be, 0 to 4."),
        *exact("likely", "The likely level, 0 to 4."),
        *exact("high", "The greatest level it could be, 0 to 4."),
        text("how", "judged, computed, unaffected, not applicable, blank or withheld."),
        text("by", "Who judged it, by title; empty where nobody did."),
        text("because", "The reason, or what it was computed from."),
    ),
    key=("museum", "decision", "option", "measure"),
    links=(OF_OPTION,),
    rows=_scores,
)
STEPS = Table(
    name="steps",
    means=(
        "One row a step or consequence and the place it acts on. What was planned is a plan and"
        " stays one; what was done has rows of its own."
    ),
    columns=(
        MUSEUM,
        DECISION,
        text("step", f"The option's id or {AS_DONE}, and the number of the step, from 1."),
        text("option", "The option it is planned in; empty for what was done."),
        text("stands_as", "planned or done."),
        MACHINE,
        text("part", "The address of the part it acts on."),
        text("do", "What is done, as the glossary has it; empty for a consequence."),
        text("becomes", "What the part becomes without anybody working on it; else empty."),
        whole("count", "How many pieces it acts on; empty for all of them."),
        text("fate", "What becomes of what comes out: stored, displayed, study or lost."),
        text("label", "The label of what comes out."),
        text("like", "Whether what goes in matches what came out: same or unlike."),
        text("material", "What a new part is made of."),
        text("drawing", "The drawing it is made to."),
        text("marked", "How a new part is marked."),
        text("donor", "The machine and place another machine's part comes from."),
        whole("undo", "How far it can be undone, 0 to 4; empty where that is not asked."),
        text("says", "The step as a sentence."),
        text("because", "The reason given with it."),
    ),
    key=("museum", "decision", "step", "part"),
    links=(OF_DECISION, OF_PART),
    rows=_steps,
)
