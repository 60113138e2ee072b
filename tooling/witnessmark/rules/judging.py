"""Record checks: hazards are answered, aspects judged, and nothing computed is typed."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.model.decision import Decision
from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.model.options import Answer, NoneBecause, NoneSigned, Option
from witnessmark.model.remains import Path
from witnessmark.model.words import Aspect, Do, Kind, Order, Phase, State
from witnessmark.rules.report import Report
from witnessmark.weighing.case import Case

GRAVE = frozenset({"1", "2"})
_CUTS = frozenset({Do.GRIND, Do.MACHINE, Do.DRILL, Do.WELD, Do.BUILD_UP})
CHANGES_SHAPE = frozenset({Kind.MODIFY, Kind.RENEW_EQUIVALENT})


def check_judging(case: Case, report: Report) -> Iterator[Diagnostic]:
    """Blanks and slips in hazards, answers, aspects and undo levels; a draft may leave blanks."""
    decision = case.decision
    is_draft = decision.state in {State.DRAFT, State.WITHDRAWN}
    if not is_draft:
        yield from _phases(decision, report)
    for index, option in enumerate(decision.options):
        path: Path = ("options", index)
        yield from _slips(option, path, report)
        yield from _seconds(decision, option, path, report)
        yield from _overrides(case, option, path, report)
        if not is_draft and option.not_scored is None:
            yield from _blanks(decision, option, path, report)


def _slips(option: Option, path: Path, report: Report) -> Iterator[Diagnostic]:
    for name, answer in option.answers.items():
        yield from _answer(answer, (*path, "answers", name), report)
    yield from _typed(option, path, report)


def _seconds(
    decision: Decision, option: Option, path: Path, report: Report
) -> Iterator[Diagnostic]:
    """Each second judgement is by somebody else than the first and than any other second one."""
    shared = decision.judged_by.by if decision.judged_by else None
    for aspect, judged in option.judged.items():
        judges = [judged.by or shared]
        for number, second in enumerate(judged.second):
            where = (*path, "judged", aspect.value, "second", number)
            if second.by in judges:
                message = f"{second.by} judged {aspect.value} of {option.id} already."
                yield report.at((*where, "by"), "WM096", message)
            if second.date < decision.opened:
                message = f"Judged on {second.date}, before the record was opened."
                yield report.at((*where, "date"), "WM096", message)
            judges.append(second.by)


def _blanks(decision: Decision, option: Option, path: Path, report: Report) -> Iterator[Diagnostic]:
    yield from _unanswered(decision, option, path, report)
    yield from _unjudged(option, path, report)
    yield from _questioned(option, path, report)
    yield from _consequences(option, path, report)


def _phases(decision: Decision, report: Report) -> Iterator[Diagnostic]:
    if isinstance(decision.hazards, NoneSigned):
        return
    found = {hazard.when for hazard in decision.hazards}
    missing = [phase.value for phase in Phase if phase not in found]
    if missing:
        message = f"No hazard is listed for {' and '.join(missing)}."
        yield report.at(("hazards",), "WM063", message, key=True)


def _unanswered(
    decision: Decision, option: Option, path: Path, report: Report
) -> Iterator[Diagnostic]:
    for hazard in decision.listed_hazards:
        if hazard.id not in option.answers:
            message = f'The option "{option.id}" does not answer the hazard "{hazard.id}".'
            where = (*path, "answers") if option.answers else (*path, "id")
            yield report.at(where, "WM060", message, key=bool(option.answers))


def _answer(answer: Answer, path: Path, report: Report) -> Iterator[Diagnostic]:
    if answer.after is None:
        return
    severity, probability = answer.after[0], answer.after[1]
    is_removed = any(control.order is Order.ELIMINATE for control in answer.controls)
    if probability == "F" and not is_removed:
        message = f"{answer.after} says the hazard cannot occur, but no control takes it away."
        yield report.at((*path, "after"), "WM061", message)
    if probability == "E" and severity in GRAVE and not answer.because:
        message = f"{answer.after} is grave if it happens; say what makes it improbable."
        yield report.at((*path, "after"), "WM062", message)


def _typed(option: Option, path: Path, report: Report) -> Iterator[Diagnostic]:
    for group in ("judged", "unaffected", "not_applicable"):
        if Aspect.MATERIAL in getattr(option, group):
            message = "The aspect material is computed from parts and steps; it is not typed."
            yield report.at((*path, group, "material"), "WM065", message, key=True)


def _unjudged(option: Option, path: Path, report: Report) -> Iterator[Diagnostic]:
    said = [*option.judged, *option.unaffected, *option.not_applicable]
    blank = [a.value for a in Aspect if a is not Aspect.MATERIAL and a not in said]
    groups = ("judged", "unaffected", "not_applicable")
    blank = [a for a in blank if not any(report.has_lost((*path, group, a)) for group in groups)]
    if blank:
        message = f'The option "{option.id}" does not judge {", ".join(blank)}.'
        yield report.at((*path, "id"), "WM064", message)
    for aspect in sorted({aspect.value for aspect in said if said.count(aspect) > 1}):
        message = f"The aspect {aspect} is answered in two ways."
        yield report.at((*path, "id"), "WM064", message)


def _questioned(option: Option, path: Path, report: Report) -> Iterator[Diagnostic]:
    cutting = sorted({step.do.value for step in option.steps if step.do in _CUTS})
    changes = option.kind in CHANGES_SHAPE
    if not cutting and not changes:
        return
    what = f"steps {', '.join(cutting)}" if cutting else f"the kind {option.kind.value}"
    for aspect in (Aspect.FORM, Aspect.TECHNIQUE):
        if aspect in option.unaffected:
            message = f"{aspect.value} is called unaffected, but there are {what}."
            where = (*path, "unaffected", aspect.value)
            yield report.at(where, "WM066", message, level=Level.WARNING, key=True)


def _consequences(option: Option, path: Path, report: Report) -> Iterator[Diagnostic]:
    if option.kind not in {Kind.LEAVE_AS_FOUND, Kind.RESTRICT_USE}:
        return
    if not option.listed_consequences and not isinstance(option.consequences, NoneBecause):
        message = f'The option "{option.id}" names no consequence and does not say why none.'
        yield report.at((*path, "id"), "WM067", message)


def _overrides(case: Case, option: Option, path: Path, report: Report) -> Iterator[Diagnostic]:
    scores = case.scores.get(option.id)
    for row in scores.undoing.rows if scores else ():
        is_step = row.index < len(option.steps)
        if is_step and row.is_overridden and row.level >= 0 and not row.because:
            message = f"Undo {row.level} is set by hand; the museum's table says {row.default}."
            where = (*path, "steps", row.index, "undo")
            yield report.at(where, "WM068", message)
