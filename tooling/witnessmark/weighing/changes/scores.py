"""Changed scores: who judged, on what reason and evidence, and what the facts now give."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain

from witnessmark.model.decision import Decision
from witnessmark.model.options import Answer, Option
from witnessmark.model.words import Aspect, Criterion
from witnessmark.scoring.authenticity import AspectScore, NotApplicable
from witnessmark.scoring.fabric import Fabric, Treated, one_percent
from witnessmark.scoring.score import Score, Scored, Withheld, one_decimal
from witnessmark.scoring.scores import OptionScores
from witnessmark.scoring.undo import Undo
from witnessmark.weighing.case import Case
from witnessmark.weighing.changes.change import Change, Kind, Weight

NOT_JUDGED_AFRESH = "the reason is as before"


def score_changes(before: Case, after: Case, *, evidence: Sequence[str] = ()) -> Iterator[Change]:
    """Scores that differ on both sides of a review, option by option.

    `evidence` names what the record newly rests on.
    """
    old = {option.id: option for option in before.decision.options}
    for option in after.decision.options:
        if option.id in old and option.id in before.scores and option.id in after.scores:
            yield from _of_option(old[option.id], option, before, after, tuple(evidence))
    yield from new_overrides(before, after)


def _of_option(
    old: Option, new: Option, before: Case, after: Case, evidence: tuple[str, ...]
) -> Iterator[Change]:
    was, now, record = before.scores[new.id], after.scores[new.id], after.decision.id
    for criterion in Criterion:
        first, second = was.criteria[criterion], now.criteria[criterion]
        if levels_of(first) != levels_of(second):
            yield _criterion(record, new.id, criterion, first, second)
    yield from chain(
        _aspects(record, new.id, was, now, evidence),
        _answers(old, new, after.decision, evidence),
        _fabric(record, new, was.fabric, now.fabric),
    )


def levels_of(score: Scored | NotApplicable) -> tuple[object, ...]:
    """What has to be equal for two scores to be the same."""
    if isinstance(score, Score):
        return (score.low, score.likely, score.high)
    return ("withheld",) if isinstance(score, Withheld) else ("not applicable",)


def level_words(score: Scored | NotApplicable) -> str:
    """A score as people read it: the likely level, and the range where there is one."""
    if isinstance(score, Withheld):
        return "withheld"
    if isinstance(score, NotApplicable):
        return "not applicable"
    likely = one_decimal(score.likely)
    if score.low == score.high:
        return likely
    return f"{likely} ({one_decimal(score.low)} to {one_decimal(score.high)})"


def _criterion(
    record: str, option: str, criterion: Criterion, first: Scored, second: Scored
) -> Change:
    before, after = level_words(first), level_words(second)
    says = f"{criterion.value} of {option}: {before} to {after} (computed)"
    field = f"options.{option}.scores.{criterion.value}"
    facts = second.facts if isinstance(second, Score) else second.why
    return Change.of(Kind.SCORE, record, field, says, before=before, after=after, remarks=facts[:2])


def _aspects(
    record: str, option: str, was: OptionScores, now: OptionScores, evidence: tuple[str, ...]
) -> Iterator[Change]:
    for aspect in Aspect:
        first, second = was.authenticity.aspects[aspect], now.authenticity.aspects[aspect]
        same = levels_of(first.score) == levels_of(second.score) and first.how == second.how
        if aspect is Aspect.MATERIAL or (same and _judges(first) == _judges(second)):
            continue
        before, after = _aspect_words(first), _aspect_words(second)
        yield Change.of(
            Kind.SCORE, record, f"options.{option}.judged.{aspect.value}",
            f"{aspect.value} of {option}: {before} to {after}", before=before, after=after,
            who=_who(first, second), remarks=tuple(_remarks(first, second, evidence)),
        )  # fmt: skip


def _aspect_words(aspect: AspectScore) -> str:
    words = level_words(aspect.score)
    return words if aspect.how in {"judged", "blank", "not applicable"} else f"{words} {aspect.how}"


def _judges(aspect: AspectScore) -> str:
    return aspect.by or ""


def _who(first: AspectScore, second: AspectScore) -> str:
    then, now = _judges(first), _judges(second)
    return now if then == now or not then else f"{then}, now {now or 'nobody'}"


def _remarks(first: AspectScore, second: AspectScore, evidence: tuple[str, ...]) -> Iterator[str]:
    moved = levels_of(first.score) != levels_of(second.score)
    if first.because == second.because:
        yield NOT_JUDGED_AFRESH
    else:
        yield f"reason now: {second.because}"
    if moved and first.date == second.date and second.date and second.by:
        yield f"still dated {second.date}"
    if _is_narrower(first.score, second.score):
        yield "the range is narrower"
    yield f"new evidence: {', '.join(evidence)}" if evidence else "no new evidence"


def _is_narrower(first: object, second: object) -> bool:
    if not isinstance(first, Score) or not isinstance(second, Score):
        return False
    return second.high - second.low < first.high - first.low


def _answers(
    old: Option, new: Option, after: Decision, evidence: tuple[str, ...]
) -> Iterator[Change]:
    names = dict.fromkeys([*(h.id for h in after.listed_hazards), *old.answers, *new.answers])
    for name in names:
        first, second = old.answers.get(name), new.answers.get(name)
        if _answer_key(first) == _answer_key(second):
            continue
        was, now = answer_words(first), answer_words(second)
        told = evidence_words(evidence)
        same = _reason(first) == _reason(second)
        reason = NOT_JUDGED_AFRESH if same else f"reason now: {_reason(second)}"
        yield Change.of(
            Kind.RISK, after.id, f"options.{new.id}.answers.{name}",
            f"Risk left by {new.id} for hazard {name}: {was} to {now}", before=was, after=now,
            remarks=(reason, told),
        )  # fmt: skip


def evidence_words(evidence: Sequence[str]) -> str:
    """What is new to rest on, or that there is nothing new."""
    return f"new evidence: {', '.join(evidence)}" if evidence else "no new evidence"


def _answer_key(answer: Answer | None) -> object:
    if answer is None:
        return None
    return answer.after, answer.none is None, [(c.order, c.what) for c in answer.controls]


def _reason(answer: Answer | None) -> str:
    return (answer.none or answer.because or "") if answer else ""


def answer_words(answer: Answer | None) -> str:
    """An answer as its cell, with the orders of its controls; a blank is named."""
    if answer is None:
        return "blank"
    cell = answer.after or "none"
    orders = ", ".join(control.order.value for control in answer.controls)
    return f"{cell} ({orders})" if orders else cell


def _fabric(record: str, option: Option, was: Fabric, now: Fabric) -> Iterator[Change]:
    if {t.address: (t.share, t.what) for t in was.treated} == {
        t.address: (t.share, t.what) for t in now.treated
    }:
        return
    before, after = fabric_words(was), fabric_words(now)
    lost = sorted(_lost(now) - _lost(was))
    kept = sorted(_lost(was) - _lost(now))
    remarks: tuple[str, ...] = (f"newly lost: {', '.join(lost)}",) if lost else ()
    remarks += (f"now kept: {', '.join(kept)}",) if kept else ()
    says = f"Original material under {option.id}: {before} to {after}"
    field = f"options.{option.id}.fabric"
    yield Change.of(Kind.FABRIC, record, field, says, before=before, after=after, remarks=remarks)


def fabric_words(fabric: Fabric) -> str:
    """How much original material is left as evidence on average, and how many places lose all."""
    lost = len(_lost(fabric))
    places = "no place loses its part" if not lost else f"{lost} of {len(fabric.treated)} lost"
    return f"{one_percent(fabric.mean)} left as evidence, {places}"


def _lost(fabric: Fabric) -> set[str]:
    return {t.address for t in fabric.treated if is_lost(t)}


def is_lost(treated: Treated) -> bool:
    """True where the original is taken out and not kept."""
    return "not kept" in treated.what


def new_overrides(before: Case | None, after: Case) -> Iterator[Change]:
    """Undo levels that the record sets against the museum's table, where they are new."""
    known = set(_overrides(before)) if before else set()
    for key, row in _overrides(after).items():
        if key not in known:
            option = key[0]
            says = (
                f"{row.what} {', '.join(row.addresses)} in {option}: undo {row.level}; the "
                f"museum's table says {row.default}"
            )
            yield Change.of(
                Kind.UNDO, after.decision.id, f"options.{option}.undo", says,
                before=str(row.default), after=str(row.level),
                remarks=(f"reason: {row.because}" if row.because else "no reason is given",),
                weight=Weight.LOOK if row.because else Weight.PERSON,
            )  # fmt: skip


def _overrides(case: Case) -> dict[tuple[str, str, tuple[str, ...], int], Undo]:
    return {
        (name, row.what, row.addresses, row.level): row
        for name, scores in case.scores.items()
        for row in scores.undoing.rows
        if row.is_overridden
    }
