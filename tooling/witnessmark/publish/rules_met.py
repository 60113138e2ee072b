"""Which rules a decision keeps and which it breaks, as the rule book answers today."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from witnessmark.model.library import Library
from witnessmark.rules import cel
from witnessmark.rules.facts import askings_of_decision
from witnessmark.rules.rule import Rule, Standing
from witnessmark.weighing.case import Case


def standings_of(case: Case, library: Library, rules: Iterable[Rule]) -> Mapping[str, Standing]:
    """What each rule that applies says of a decision; broken anywhere is broken.

    A rule that gives no answer says nothing here; `check` reports it as a fault of the rule.
    """
    askings = list(askings_of_decision(case, library))
    found: dict[str, Standing] = {}
    for rule in rules:
        try:
            said = {
                rule.evaluate(cel.bind(asking.context, engine=rule.asked.holds.engine)).standing
                for asking in askings
                if asking.scope is rule.scope
            }
        except cel.RuleFault:
            continue
        if Standing.BROKEN in said:
            found[rule.id] = Standing.BROKEN
        elif Standing.HOLDS in said:
            found[rule.id] = Standing.HOLDS
    return found
