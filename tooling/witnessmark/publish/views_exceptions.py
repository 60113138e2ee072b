"""The page of exceptions: where the museum let a rule rest, and where it set rules of its own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from witnessmark.model.words import State
from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.public_decision import PublicDecision, PublicRuleNote
from witnessmark.publish.views import Section, View


@dataclass(frozen=True, slots=True)
class Accepted:
    """A risk that somebody accepted for a time."""

    decision: PublicDecision
    by: str
    because: str
    until: date


Resting = list[tuple[PublicDecision, PublicRuleNote]]


def exceptions_view(museum: PublicMuseum) -> View:
    """Waivers, explanations, accepted risks, and what the policies change in the rules."""
    risks = [row for d in museum.decisions for row in _accepted(d)]
    live, ended = _waivers(museum)
    values = {
        "live": live,
        "ended": ended,
        "explained": [(d, note) for d in museum.decisions for note in d.explained],
        "risks_live": [r for r in risks if _is_live(r.decision, r.until, museum)],
        "risks_ended": [r for r in risks if not _is_live(r.decision, r.until, museum)],
        "emergencies": [d for d in museum.decisions if d.emergency],
        "own": [rule for rule in museum.rules if rule.is_own],
        "off": museum.policies[0].rules_off if museum.policies else (),
        "held": museum.policies[0].held_as_must if museum.policies else (),
        "known_rules": {rule.id: rule for rule in museum.rules},
    }
    return View(
        path="exceptions/index.html",
        title="Exceptions",
        description=f"Where {museum.name} let a rule rest, why, who allowed it and until when.",
        lead="exceptions/lead.html",
        sections=tuple(_sections(values)),
        values=values,
    )


def _sections(values: dict[str, object]) -> Iterator[Section]:
    """The three kinds of exception stand there also when empty, since empty is an answer."""
    for name, title, is_there in (
        ("waivers", "Rules that rest now", True),
        ("ended", "Waivers that have ended", bool(values["ended"])),
        ("explained", "Advice we did not follow", True),
        ("risks", "Risks that somebody accepted", True),
        ("emergencies", "Work before agreement", bool(values["emergencies"])),
        ("off", "Advice switched off here", True),
        ("held", "Advice we hold as binding", bool(values["held"])),
        ("own", "Rules of our own", True),
    ):
        if is_there:
            yield Section(id=name, title=title, template=f"exceptions/{name}.html")


def _waivers(museum: PublicMuseum) -> tuple[Resting, Resting]:
    """The waivers that hold on the day of the site, and those that do not; soonest end first."""
    found = [(d, note) for d in museum.decisions for note in d.waived]
    found.sort(key=lambda row: (row[1].until or date.max, row[0].id, row[1].rule))
    live = [row for row in found if _is_live(row[0], row[1].until, museum)]
    return live, [row for row in found if row not in live]


def _is_live(decision: PublicDecision, until: date | None, museum: PublicMuseum) -> bool:
    """True while the decision stands and the day has not passed; an end is the last day."""
    stands = decision.state is not State.REPLACED
    return stands and (until is None or until >= museum.as_of)


def _accepted(decision: PublicDecision) -> Iterator[Accepted]:
    if decision.accepted_risk:
        by, because, until = decision.accepted_risk
        yield Accepted(decision, by, because, until)
