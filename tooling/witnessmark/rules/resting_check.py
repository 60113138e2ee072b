"""Record checks: waivers and explanations name rules that exist, and waivers hold."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache

from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.library import Library
from witnessmark.model.remains import Path
from witnessmark.model.spelling import hint
from witnessmark.rules.house_rules import book_under
from witnessmark.rules.own_rules import own_rules_of
from witnessmark.rules.report import Report
from witnessmark.rules.resting import waiver_fault
from witnessmark.rules.rule import Rule
from witnessmark.rules.rulebook import RuleBook
from witnessmark.weighing.case import Case


def check_resting(
    case: Case, library: Library, rulebook: RuleBook, report: Report
) -> Iterator[Diagnostic]:
    """Waivers and explanations name rules, and every waiver is by somebody who may give it."""
    decision = case.decision
    rules = _rules_under(decision.policy, library, rulebook)
    named: list[tuple[Path, str]] = [
        *((("waivers", n, "rule"), w.rule) for n, w in enumerate(decision.waivers)),
        *((("explained", n, "rule"), e.rule) for n, e in enumerate(decision.explained)),
    ]
    for path, name in named:
        if name not in rules:
            message = f'There is no rule "{name}".{hint(name, sorted(rules))}'
            yield report.at(path, "WM094", message)
    for number, waiver in enumerate(decision.waivers):
        if waiver.rule in rules:
            rule = rules[waiver.rule]
            fault = waiver_fault(waiver, rule=rule, decision=decision, library=library)
            if fault:
                message = f"The waiver of {rule.id} does not count: {fault}"
                yield report.at(("waivers", number), "WM089", message)


@lru_cache(maxsize=64)
def _rules_under(policy: str, library: Library, rulebook: RuleBook) -> Mapping[str, Rule]:
    """Every rule that a record under a policy may name, by id."""
    own = own_rules_of(library, policy).rules
    kept = book_under(policy, library, book=rulebook.rules)
    return {rule.id: rule for rule in (*rulebook.rules, *kept, *own)}
