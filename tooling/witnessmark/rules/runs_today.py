"""Whether a machine runs on a day, reckoned from its records with the reasons; no certificate."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from witnessmark.model.decision import Decision
from witnessmark.model.library import Library
from witnessmark.model.words import Grade, Kept, Kind, Word
from witnessmark.rules.answered import OpenFinding, agreed_by, is_in_time, open_findings

NEVER_A_CERTIFICATE = (
    "This is reckoned from the records alone and is never a certificate: nobody has looked at the "
    "machine for it. Whether it runs is for a competent person on the day."
)


class Runs(Word):
    """What the records say about running a machine on a day, the gravest first."""

    NOT_KEPT_RUNNING = "not-kept-running", "It is not kept to run: it is shown standing or stored."
    STANDS = "stands", "Something holds it until it is answered."
    WITH_LIMITS = "runs-with-limits", "It runs within limits that a decision sets."
    RUNS = "runs", "Nothing in the records holds it."


@dataclass(frozen=True)
class Reason:
    """One reason in a sentence that quotes no record, with the records it rests on.

    `weight` is what the reason alone would make of the machine.
    """

    weight: Runs
    says: str
    finding: str | None = None
    decision: str | None = None


@dataclass(frozen=True)
class RunsToday:
    """What the records say of a machine on a day: the gravest of the reasons, and all of them."""

    machine: str
    on: date
    runs: Runs
    reasons: tuple[Reason, ...]
    notice: str = NEVER_A_CERTIFICATE


def runs_today(library: Library, machine: str, *, on: date) -> RunsToday:
    """Whether a machine runs on a day: runs, with limits, stands, or is not kept running at all."""
    ranks = list(Runs)
    reasons = sorted(_reasons(library, machine, on), key=lambda reason: ranks.index(reason.weight))
    gravest = reasons[0].weight if reasons else Runs.RUNS
    return RunsToday(machine, on, gravest, tuple(reasons))


def _reasons(library: Library, machine: str, on: date) -> Iterator[Reason]:
    whole = library.machines.get(machine)
    way = whole.kept_from(on) if whole else None
    if way and way.how is not Kept.RUNNING:
        says = f"It has been kept {way.how.value} since {way.since}."
        yield Reason(Runs.NOT_KEPT_RUNNING, says)
    for found in open_findings(library, machine, on=on):
        yield from _of_finding(found, on)
    for decision in library.decisions_of(machine):
        if decision.is_settled and agreed_by(decision, on=on):
            yield from _of_decision(decision, on)


def _of_finding(found: OpenFinding, on: date) -> Iterator[Reason]:
    finding = found.finding
    where = f" on {finding.part}" if finding.part else ""
    put_off = finding.put_off
    if finding.grade is Grade.STOP:
        told = f"{finding.id}{where} is a stop of {finding.date}, and nothing answers it"
        if found.ran_out:
            told = f"{told} since {found.ran_out[0]} ran out on {found.ran_out[1]}"
        if put_off:
            told = f"{told}; putting it off until {put_off.until} is no answer"
        decision = found.ran_out[0] if found.ran_out else None
        yield Reason(Runs.STANDS, f"{told}.", finding.id, decision)
    elif put_off and finding.grade is Grade.ACT:
        late = " That day is past." if put_off.until < on else ""
        says = f"{finding.id}{where} asks for work and is put off until {put_off.until}.{late}"
        yield Reason(Runs.RUNS, says, finding.id)
    elif finding.grade is Grade.ACT:
        yield Reason(Runs.RUNS, f"{finding.id}{where} asks for work and is open.", finding.id)


def _of_decision(decision: Decision, on: date) -> Iterator[Reason]:
    kind = decision.chosen.kind if decision.chosen else None
    until = f" until {decision.until}" if decision.until else ""
    risk = decision.accepted_risk
    if not is_in_time(decision, on=on):
        says = f"{decision.id} was for a time, and that ran out on {decision.until}."
        weight = Runs.WITH_LIMITS if kind in {Kind.RESTRICT_USE, Kind.STOP_RUNNING} else Runs.RUNS
        yield Reason(weight, says, decision=decision.id)
    elif kind is Kind.STOP_RUNNING:
        yield Reason(Runs.STANDS, f"{decision.id} takes it out of use{until}.", None, decision.id)
    elif kind is Kind.RESTRICT_USE:
        says = f"{decision.id} sets limits to its use{until}."
        yield Reason(Runs.WITH_LIMITS, says, decision=decision.id)
    work = decision.work
    if work and work.started <= on and not (work.ended and work.ended <= on):
        says = f"Work under {decision.id} began on {work.started} and has not ended."
        yield Reason(Runs.RUNS, says, decision=decision.id)
    if risk and risk.until < on:
        says = f"The risk accepted in {decision.id} was accepted until {risk.until}; that is past."
        yield Reason(Runs.STANDS, says, decision=decision.id)
