"""The sheet for a record's first review: grids in which a blank cannot hide."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from witnessmark.exchange.review.sides import Side
from witnessmark.model.decision import Decision
from witnessmark.model.library import DecisionFile
from witnessmark.model.options import Option
from witnessmark.model.words import Aspect, Criterion
from witnessmark.scoring.authenticity import AspectScore
from witnessmark.scoring.score import one_decimal
from witnessmark.weighing.case import Case
from witnessmark.weighing.changes.scores import answer_words, level_words
from witnessmark.weighing.verdict import in_a_hundred

BLANK = "BLANK"


@dataclass(frozen=True)
class Grid:
    """A table: what its rows are, the names of the columns, and one row a thing."""

    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""


@dataclass(frozen=True)
class FirstSheet:
    """Everything about a new record that a first reviewer has to have looked at."""

    record: str
    title: str
    facts: tuple[str, ...]
    grids: tuple[Grid, ...]
    blanks: tuple[str, ...]
    overrides: tuple[str, ...]
    one_hand: tuple[str, ...]


def first_sheet(entry: DecisionFile, side: Side) -> FirstSheet | None:
    """The sheet of a new record; None while it cannot be read."""
    decision, case = entry.value, side.cases.get(entry.id)
    if decision is None or case is None:
        return None
    return FirstSheet(
        record=entry.id,
        title=decision.title,
        facts=tuple(_facts(decision, case, entry.machine)),
        grids=tuple(_grids(decision, case)),
        blanks=tuple(_blanks(decision, case)),
        overrides=tuple(_overrides(case)),
        one_hand=tuple(_one_hand(decision)),
    )


def _facts(decision: Decision, case: Case, machine: str) -> Iterator[str]:
    yield decision.question
    yield f"Aim: {decision.aim.what}"
    yield (
        f"State {decision.state.value}, opened {decision.opened}, proposed by "
        f"{decision.proposed_by}."
    )
    ground = case.ground
    if ground is None:
        yield f"Machine {machine} or policy {decision.policy} cannot be read: nothing is reckoned."
        return
    weights = ground.machine.significance.carried_by
    carried = ", ".join(f"{aspect.value} {weight}" for aspect, weight in weights.items())
    yield (
        f"Read as on {ground.day}: {ground.machine.name}, kept {ground.kept.value}, policy "
        f"{ground.policy_id}. Its value is carried by {carried}."
    )
    yield from _outcome(decision, case)
    if decision.publish is True:
        yield "It is marked to be published; nothing is shown before it is agreed."


def _outcome(decision: Decision, case: Case) -> Iterator[str]:
    if case.weighing and case.weighing.verdict:
        verdict = case.weighing.verdict
        leaders = " and ".join(case.winners) or "nothing"
        yield (
            f"Leads at the policy's weights: {leaders}. Verdict: {verdict.word.value}. "
            f"{verdict.because}"
        )
    if decision.choice:
        chosen = decision.choice.option
        against = "" if chosen in case.winners else " This departs from the ranking."
        yield f"Chosen: {chosen}.{against} Because: {decision.choice.because}"
        yield f"Gives up: {decision.choice.gives_up}"
    else:
        yield "Nothing is chosen yet."


def _grids(decision: Decision, case: Case) -> Iterator[Grid]:
    if not case.scores:
        return
    options = decision.options
    yield Grid(
        "Options and scores",
        ("option", "kind", *(c.value for c in Criterion), "value", "wins", "set aside"),
        tuple(_scored(option, case) for option in options),
        "Scores run from 0 to 4, 4 best, and are computed from what follows.",
    )
    yield Grid(
        "Options and aspects of authenticity",
        ("option", *(aspect.value for aspect in Aspect)),
        tuple(_judged(option, case) for option in options),
        "A plain number is judged, with its range; material is computed; (u) is called unaffected.",
    )
    yield from _hazard_grid(decision)
    yield _part_grid(options, case)


def _scored(option: Option, case: Case) -> tuple[str, ...]:
    scores = case.scores[option.id].criteria.values()
    weighed = case.weighing.of(option.id) if case.weighing else None
    value = one_decimal(weighed.value) if weighed and weighed.value is not None else "none"
    share = weighed.share_policy if weighed else None
    wins = "" if share is None else in_a_hundred(share)
    aside = "; ".join(case.aside.get(option.id, ()))
    kind = option.kind.value
    return (
        f"{option.id}: {option.title}",
        kind,
        *(level_words(score) for score in scores),
        value,
        wins,
        aside,
    )


def _judged(option: Option, case: Case) -> tuple[str, ...]:
    aspects = case.scores[option.id].authenticity.aspects
    return (option.id, *(_aspect_cell(aspects[aspect]) for aspect in Aspect))


def _aspect_cell(row: AspectScore) -> str:
    if row.how == "blank":
        return BLANK
    marks = {"unaffected": " (u)", "computed": " (computed)"}
    return f"{level_words(row.score)}{marks.get(row.how, '')}"


def _hazard_grid(decision: Decision) -> Iterator[Grid]:
    hazards = decision.listed_hazards
    if not hazards:
        return
    now = ("as it is now", *(hazard.before for hazard in hazards))
    rows = tuple(
        (option.id, *(_answered(option, hazard.id) for hazard in hazards))
        for option in decision.options
    )
    said = "; ".join(f"{h.id} ({h.when.value}): {h.what}" for h in hazards)
    head = ("option", *(hazard.id for hazard in hazards))
    yield Grid("Options and hazards", head, (now, *rows), said)


def _answered(option: Option, hazard: str) -> str:
    answer = option.answers.get(hazard)
    return BLANK if answer is None else answer_words(answer)


def _part_grid(options: Sequence[Option], case: Case) -> Grid:
    """One row an original part in scope that any option touches, one column an option."""
    treated = {o.id: {t.address: t for t in case.scores[o.id].fabric.treated} for o in options}
    places = dict.fromkeys(a for of in treated.values() for a in of)
    still = "stays as it is"
    touched = [a for a in places if any(a in of and of[a].what != still for of in treated.values())]
    rows = tuple(
        (a, *(("" if a not in of else "" if of[a].what == still else of[a].what)
              for of in treated.values()))
        for a in touched
    )  # fmt: skip
    rest = len(places) - len(touched)
    note = f"An empty field: stays as it is. {rest} further original parts in scope stay untouched."
    return Grid("Options and original parts", ("part", *treated), rows, note)


def _blanks(decision: Decision, case: Case) -> Iterator[str]:
    for option in decision.options:
        if option.id not in case.scores:
            continue
        for aspect, row in case.scores[option.id].authenticity.aspects.items():
            if row.how == "blank":
                yield f"{option.id}: {aspect.value} is not judged"
        for hazard in decision.listed_hazards:
            if hazard.id not in option.answers:
                yield f"{option.id}: hazard {hazard.id} is not answered"
    if not decision.hazards:
        yield "no hazard is listed, and nobody signed that there is none"


def _overrides(case: Case) -> Iterator[str]:
    for name, scores in case.scores.items():
        for row in scores.undoing.rows:
            if row.is_overridden:
                parts = ", ".join(row.addresses)
                reason = row.because or "no reason is given"
                yield (
                    f"{name}: {row.what} {parts}: {row.level} where the table says "
                    f"{row.default}, because: {reason}"
                )


def _one_hand(decision: Decision) -> Iterator[str]:
    """Where the same person proposed and scored, or scored and agreed."""
    shared = decision.judged_by.by if decision.judged_by else None
    judges = {
        judged.by or shared for option in decision.options for judged in option.judged.values()
    }
    if decision.proposed_by in judges:
        yield f"{decision.proposed_by} proposed the record and judged in it."
    for signature in decision.agreed:
        if signature.by in judges:
            yield f"{signature.by} judged in the record and agreed to it."
        if signature.by == decision.proposed_by:
            yield f"{signature.by} proposed the record and agreed to it."
