"""Record checks: what each state asks of a record."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.model.decision import Decision, Signature
from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.library import Library
from witnessmark.model.remains import Path
from witnessmark.model.words import Role, State
from witnessmark.rules.report import Report
from witnessmark.scoring.matrix882 import RiskLevel
from witnessmark.scoring.score import Withheld
from witnessmark.weighing.case import Case, accepted_option

FROM_REVIEW = frozenset({State.FOR_REVIEW, State.AGREED, State.UNDER_WAY, State.DONE})
SETTLED = frozenset({State.AGREED, State.UNDER_WAY, State.DONE})


def check_states(case: Case, library: Library, report: Report) -> Iterator[Diagnostic]:
    """Choice, signatures, work and endings, as the state asks for them."""
    decision = case.decision
    if decision.state in FROM_REVIEW:
        yield from _for_review(case, report)
    if decision.state in SETTLED:
        yield from _may_stand(case, report)
    yield from _signatures(decision, library, report)
    yield from _work(decision, report)
    yield from _endings(decision, library, report)
    yield from _dates(decision, report)


def _for_review(case: Case, report: Report) -> Iterator[Diagnostic]:
    decision = case.decision
    if not decision.options:
        yield report.at((), "WM050", f"A record {decision.state.value} has options; here are none.")
    if decision.options and decision.choice is None:
        yield report.at((), "WM050", f"A record {decision.state.value} has a choice; here is none.")


def _signatures(decision: Decision, library: Library, report: Report) -> Iterator[Diagnostic]:
    seen: dict[str, Signature] = {}
    for index, signature in enumerate(decision.agreed):
        path: Path = ("agreed", index)
        person = library.people.get(signature.by)
        if person and not person.holds(signature.role, on=signature.date):
            message = (
                f"{signature.by} did not hold the role {signature.role.value} on {signature.date}."
            )
            yield report.at((*path, "role"), "WM052", message)
        earlier = seen.setdefault(signature.by, signature)
        if earlier is not signature:
            message = (
                f"{signature.by} signed as {earlier.role.value} and as {signature.role.value}."
            )
            yield report.at((*path, "by"), "WM053", message)
        if signature.date < decision.opened:
            message = f"Signed on {signature.date}, before the record was opened."
            yield report.at((*path, "date"), "WM056", message)


def _may_stand(case: Case, report: Report) -> Iterator[Diagnostic]:
    """The chosen option has three scores, is not High, and is not set aside."""
    decision, chosen = case.decision, case.decision.chosen
    if chosen is None or chosen.id not in case.scores:
        return
    path: Path = ("choice", "option")
    scores = case.scores[chosen.id]
    for criterion, score in scores.criteria.items():
        if isinstance(score, Withheld):
            message = f"{chosen.id} has no score for {criterion.value}: {' '.join(score.why)}"
            yield report.at(path, "WM085", message)
    if scores.safety.worst is RiskLevel.HIGH:
        yield report.at(
            path, "WM085", f"A High risk is left under {chosen.id}; nobody may choose it."
        )
    elif chosen.id in case.aside:
        why = "; ".join(case.aside[chosen.id])
        yield report.at(path, "WM085", f"{chosen.id} is set aside: {why}.")
    elif case.winners and chosen.id not in case.winners and not decision.departs_from_ranking:
        leader = " and ".join(case.winners)
        message = f"{leader} leads at the museum's weights, but {chosen.id} was chosen."
        yield report.at(path, "WM086", message)


def _work(decision: Decision, report: Report) -> Iterator[Diagnostic]:
    work = decision.work
    if decision.state is State.UNDER_WAY and work is None:
        yield report.at((), "WM050", "The state is under-way, but no work is written down.")
    if decision.state is State.DONE:
        yield from _done(decision, report)
    if work and work.ended and work.ended < work.started:
        message = f"The work ended on {work.ended}, before it started."
        yield report.at(("work", "ended"), "WM056", message)


def _done(decision: Decision, report: Report) -> Iterator[Diagnostic]:
    work = decision.work
    if work is None:
        yield report.at((), "WM050", "The state is done, but no work is written down.")
        return
    wanted = {
        "ended": work.ended is not None,
        "by": bool(work.by),
        "departures": work.departures != (),
    }
    for name, is_there in wanted.items():
        if not is_there:
            message = f"The state is done, but work.{name} is not written."
            yield report.at(("work",), "WM050", message, key=True)
    if not work.as_done and decision.chosen and decision.chosen.steps:
        message = "The state is done, but work.as_done does not say what was done."
        yield report.at(("work",), "WM050", message, key=True)


def _endings(decision: Decision, library: Library, report: Report) -> Iterator[Diagnostic]:
    if decision.state is State.WITHDRAWN and not decision.withdrawn_because:
        yield report.at(("state",), "WM057", "The record is withdrawn, but does not say why.")
    if decision.state is State.REPLACED and not decision.replaced_by:
        yield report.at(("state",), "WM057", "The record is replaced, but does not say by which.")
    if decision.replaced_by:
        yield from _replacement(decision, library, report)
    before = library.traces.by_id.get(decision.replaces or "")
    successor = before.replaced_by if before else None
    if before and successor not in (None, decision.id):
        message = f"{before.id} says that {successor} takes its place, and so does {decision.id}."
        yield report.at(("replaces",), "WM057", message, fix="Let one of them replace it.")


def _replacement(decision: Decision, library: Library, report: Report) -> Iterator[Diagnostic]:
    path: Path = ("replaced_by",)
    other = library.traces.by_id.get(decision.replaced_by or "")
    if decision.replaced_by == decision.id:
        return  # a record that points to itself is told where references are
    if other and other.is_read and other.replaces != decision.id:
        message = f"{other.id} does not say `replaces: {decision.id}`."
        yield report.at(path, "WM057", message)
    seen = [decision.id]
    after = other
    while after and after.replaced_by:
        seen.append(after.id)
        after = library.traces.by_id.get(after.replaced_by)
        if after and after.id in seen:
            chain = ", ".join([*seen, after.id])
            yield report.at(
                path, "WM057", f"These records replace each other in a circle: {chain}."
            )
            return


def _dates(decision: Decision, report: Report) -> Iterator[Diagnostic]:
    if decision.judged_by and decision.judged_by.date < decision.opened:
        message = f"Judged on {decision.judged_by.date}, before the record was opened."
        yield report.at(("judged_by", "date"), "WM056", message)
    again = decision.look_again
    last = max((s.date for s in decision.agreed), default=decision.opened)
    if again and again.date and again.date <= last:
        message = f"To be looked at again on {again.date}, which is not after {last}."
        yield report.at(("look_again", "date"), "WM056", message)
    if decision.until and decision.until <= decision.opened:
        message = f"Holds until {decision.until}, which is not after it was opened."
        yield report.at(("until",), "WM056", message)


def check_acceptance(case: Case, library: Library, report: Report) -> Iterator[Diagnostic]:
    """A risk is accepted, and a rule let rest, only by somebody who may."""
    decision = case.decision
    risk = decision.accepted_risk
    if risk and (person := library.people.get(risk.by)):
        day = decision.reference_day
        if not person.holds(risk.role, on=day):
            message = f"{risk.by} did not hold the role {risk.role.value} on {day}."
            yield report.at(("accepted_risk", "role"), "WM089", message)
        if risk.role not in {Role.GOVERNING, Role.SAFETY}:
            message = "A risk below the floor is accepted by the governing or safety role."
            yield report.at(("accepted_risk", "role"), "WM089", message)
    accepted = accepted_option(decision)
    if risk and accepted and accepted not in {option.id for option in decision.options}:
        yield report.at(("accepted_risk",), "WM036", f'There is no option "{accepted}" here.')
