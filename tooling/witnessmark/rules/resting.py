"""When a rule that is broken may rest: waivers of a must, and explanations of a should."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from witnessmark.model.decision import Decision, Waiver
from witnessmark.model.diagnostics import Level
from witnessmark.model.library import Library
from witnessmark.model.policy import WaiverPolicy
from witnessmark.model.words import State
from witnessmark.rules.rule import RuleLevel, WrittenRule

PUT_FORWARD = frozenset({State.FOR_REVIEW, State.AGREED, State.UNDER_WAY, State.DONE})
"""The states in which others rely on a record, or are asked to."""


def level_of_breach(rule: WrittenRule, decision: Decision) -> Level:
    """How much a breach weighs in a record of this state, while nothing lets the rule rest."""
    if decision.state not in PUT_FORWARD:
        return Level.NOTE
    if rule.level is RuleLevel.MUST and decision.is_settled:
        return Level.ERROR
    return Level.WARNING


def what_rests_it(rule: WrittenRule, decision: Decision, library: Library) -> str | None:
    """The sentence that says why a broken rule rests, or None where it does not."""
    if rule.level is RuleLevel.SHOULD:
        because = next((e.because for e in decision.explained if e.rule == rule.id), None)
        return f"Explained: {because}" if because else None
    for waiver in _waivers(rule, decision):
        if waiver_fault(waiver, rule=rule, decision=decision, library=library) is None:
            until = waiver.until.isoformat()
            return f"Waived by {waiver.approver} until {until}: {waiver.because}"
    return None


def why_not_waived(rule: WrittenRule, decision: Decision, library: Library) -> str | None:
    """What keeps the record's waiver of a broken rule from counting; None where there is none."""
    for waiver in _waivers(rule, decision):
        fault = waiver_fault(waiver, rule=rule, decision=decision, library=library)
        if fault is not None:
            return f"Its waiver does not count: {fault}"
    return None


def waiver_fault(
    waiver: Waiver, *, rule: WrittenRule, decision: Decision, library: Library
) -> str | None:
    """Why a waiver lets nothing rest, or None where it holds.

    It is read as on the day the decision is read; that it has run out since changes no record.
    """
    if rule.level is RuleLevel.SHOULD:
        return "a should is explained, not waived; write it under explained."
    if not rule.waivable:
        return "nobody may waive this rule."
    if waiver.approver == decision.proposed_by:
        return f"{waiver.approver} proposed the decision and may not waive a rule for it."
    policy = library.policies.get(decision.policy)
    limits = policy.waivers if policy else WaiverPolicy()
    return _role_fault(waiver, decision, library, limits) or _term_fault(waiver, decision, limits)


@dataclass(frozen=True, slots=True)
class WaiverEnd:
    """A waiver of a record that others rely on, and when it ends; `has_ended` as on a given day."""

    decision: str
    machine: str
    rule: str
    approver: str
    until: date
    because: str
    has_ended: bool


def waivers_by_end(library: Library, *, on: date) -> tuple[WaiverEnd, ...]:
    """Every waiver of a record that is put forward or settled, the one that ends first first.

    The last day still counts. That a waiver has ended changes no record and fails no check: what is
    due tells it.
    """
    found = (
        WaiverEnd(
            decision=decision.id,
            machine=entry.machine,
            rule=waiver.rule,
            approver=waiver.approver,
            until=waiver.until,
            because=waiver.because,
            has_ended=waiver.until < on,
        )
        for entry in library.decisions
        if (decision := entry.value) and decision.state in PUT_FORWARD
        for waiver in decision.waivers
    )
    return tuple(sorted(found, key=lambda one: (one.until, one.decision, one.rule)))


def _role_fault(
    waiver: Waiver, decision: Decision, library: Library, limits: WaiverPolicy
) -> str | None:
    day = decision.reference_day
    person = library.people.get(waiver.approver)
    if person and any(person.holds(role, on=day) for role in limits.approver_roles):
        return None
    roles = " or ".join(role.value for role in limits.approver_roles)
    return f"{waiver.approver} did not hold the role {roles} on {day.isoformat()}."


def _term_fault(waiver: Waiver, decision: Decision, limits: WaiverPolicy) -> str | None:
    day = decision.reference_day
    if waiver.until < day:
        return f"it ended on {waiver.until.isoformat()}, before the decision was read."
    last = day + timedelta(days=limits.most_days)
    if waiver.until > last:
        return f"the policy lets it run until {last.isoformat()} at most."
    return None


def _waivers(rule: WrittenRule, decision: Decision) -> tuple[Waiver, ...]:
    if rule.level is RuleLevel.SHOULD:
        return ()
    return tuple(waiver for waiver in decision.waivers if waiver.rule == rule.id)
