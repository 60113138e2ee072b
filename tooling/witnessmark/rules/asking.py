"""Asking rules of records: what each broken one says, and at which path of the file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from witnessmark.rules import cel
from witnessmark.rules.facts import Asking
from witnessmark.rules.rule import Rule, Standing

if TYPE_CHECKING:
    from witnessmark.rules.rule import Path


@dataclass(frozen=True, slots=True)
class Breach:
    """A rule that a record breaks, the sentence that says so, and where in the file."""

    rule: Rule
    message: str
    path: Path


def breaches(rules: Iterable[Rule], askings: Iterable[Asking]) -> Iterator[Breach]:
    """Every breach, record by record and rule by rule; a rule's `at` counts from its record.

    All rules of a call were compiled by one engine.

    Raises:
        RuleFault: a rule gave no answer.

    """
    by_scope: dict[str, list[Rule]] = {}
    for rule in rules:
        by_scope.setdefault(rule.scope, []).append(rule)
    for asking in askings:
        asked = by_scope.get(asking.scope)
        if not asked:
            continue
        bound = cel.bind(asking.context, engine=asked[0].asked.holds.engine)
        for rule in asked:
            verdict = rule.evaluate(bound)
            if verdict.standing is Standing.BROKEN:
                yield Breach(rule, verdict.message, (*asking.path, *verdict.at))
