"""How every record of a museum follows one rule: kept, broken, waived or explained."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from witnessmark.model.decision import Decision
from witnessmark.model.library import Library
from witnessmark.model.words import Word
from witnessmark.rules.facts import askings_of_decision
from witnessmark.rules.kept import askings_around, rules_for, what_rules_say
from witnessmark.rules.rule import Rule, Standing
from witnessmark.rules.rulebook import RuleBook
from witnessmark.rules.rulebook_check import OVER, newest_policy
from witnessmark.weighing.case import work_out


class Followed(Word):
    """How a record follows a rule."""

    KEPT = "kept", "The record keeps the rule."
    BROKEN = "broken", "The record does not keep the rule, and no reason is written down."
    WAIVED = "waived", "The rule rests here, with a reason, a name and an end."
    EXPLAINED = "explained", "Advice that is not followed, with a reason."


@dataclass(frozen=True)
class Place:
    """A record and how it follows one rule; `because` is the reason where it does not."""

    name: str
    followed: Followed
    because: str = ""


def rule_in_museum(name: str, library: Library, *, rulebook: RuleBook) -> Iterator[Place]:
    """How every record the rule of this id is asked of follows it: decisions, then the rest.

    A museum's own rule is taken as the policy of each record has it. A record that nobody relies on
    any more breaks no rule, as in a check.
    """
    for entry in library.decisions:
        decision = entry.value
        rule = _rule_under(decision.policy, name, library, rulebook) if decision else None
        if decision is None or rule is None:
            continue
        rested = tuple(_resting(name, decision))
        yield from rested
        case = work_out(decision, entry.machine, library)
        said = what_rules_say([rule], askings_of_decision(case, library)).get(name)
        if said is Standing.HOLDS:
            yield Place(decision.id, Followed.KEPT)
        elif said is Standing.BROKEN and not rested and decision.state not in OVER:
            yield Place(decision.id, Followed.BROKEN)
    yield from _elsewhere(name, library, rulebook)


def _rule_under(policy: str, name: str, library: Library, rulebook: RuleBook) -> Rule | None:
    known = rules_for(policy, library, book=rulebook.rules)
    return next((rule for rule in known if rule.id == name), None)


def _resting(rule: str, decision: Decision) -> Iterator[Place]:
    """The waivers and explanations that a decision has for a rule, whether or not they count."""
    for waiver in decision.waivers:
        if waiver.rule == rule:
            because = f"by {waiver.approver} until {waiver.until.isoformat()}: {waiver.because}"
            yield Place(decision.id, Followed.WAIVED, because)
    for explained in decision.explained:
        if explained.rule == rule:
            yield Place(decision.id, Followed.EXPLAINED, explained.because)


def _elsewhere(name: str, library: Library, rulebook: RuleBook) -> Iterator[Place]:
    """The museum and its machines, under the newest policy, as `check` reads them."""
    rule = _rule_under(newest_policy(library), name, library, rulebook)
    if rule is None:
        return
    for machine, askings in askings_around(library):
        said = what_rules_say([rule], askings).get(name)
        if said is not None:
            followed = Followed.KEPT if said is Standing.HOLDS else Followed.BROKEN
            yield Place(machine or "the museum", followed)
