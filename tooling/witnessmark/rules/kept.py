"""Where a museum keeps a rule and where it does not: by decision, by machine, by the museum."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping

from witnessmark.model.findings import Finding
from witnessmark.model.library import Library
from witnessmark.rules import cel
from witnessmark.rules.facts import (
    Asking,
    asking_of_museum,
    askings_of_findings,
    askings_of_machine,
)
from witnessmark.rules.house_rules import book_under
from witnessmark.rules.own_rules import own_rules_of
from witnessmark.rules.rule import Rule, Standing
from witnessmark.rules.rulebook_check import newest_policy

MUSEUM = ""
"""Stands for the museum itself among the ids of machines."""


def every_finding(finding: Finding) -> bool:
    """True: all findings count."""
    del finding
    return True


def what_rules_say(rules: Iterable[Rule], askings: Iterable[Asking]) -> Mapping[str, Standing]:
    """What each rule that applies says of a record, by id; broken anywhere is broken.

    A rule that gives no answer says nothing here; `check` reports it as a fault of the rule.
    """
    by_scope: dict[str, list[Rule]] = {}
    for rule in rules:
        by_scope.setdefault(rule.scope, []).append(rule)
    said: dict[str, Standing] = {}
    silent: set[str] = set()
    for asking in askings:
        asked = by_scope.get(asking.scope)
        if not asked:
            continue
        # Bound anew for each record, as what answers take is given back only with the record.
        bound: cel.Bound | None = None
        for rule in asked:
            standing = rule.standing_at_sight(asking.context)
            if standing is None:
                bound = bound or cel.bind(asking.context, engine=rule.asked.holds.engine)
                standing = _answer(rule, bound)
            if standing is None:
                silent.add(rule.id)
            elif standing is Standing.BROKEN or standing is Standing.HOLDS:
                said[rule.id] = _graver(said.get(rule.id), standing)
    return {name: standing for name, standing in said.items() if name not in silent}


def _answer(rule: Rule, bound: cel.Bound) -> Standing | None:
    try:
        return rule.evaluate(bound).standing
    except cel.RuleFault:
        return None


def _graver(before: Standing | None, now: Standing) -> Standing:
    return Standing.BROKEN if Standing.BROKEN in (before, now) else now


def rules_for(policy: str, library: Library, *, book: Iterable[Rule]) -> tuple[Rule, ...]:
    """The rules that records read under a policy are held against: the book's, then its own.

    The book's are taken as the policy keeps them, so one that it switches off is not among them.
    """
    whole = tuple(book)
    taken = {rule.id for rule in whole}
    shipped = book_under(policy, library, book=whole)
    return (*shipped, *(r for r in own_rules_of(library, policy).rules if r.id not in taken))


def standings_around(
    library: Library, *, book: Iterable[Rule], findings: Callable[[Finding], bool] = every_finding
) -> Mapping[str, Mapping[str, Standing]]:
    """What rules say of what is no decision: by rule, then by machine, MUSEUM for the whole.

    `findings` tells which findings count, so that one that is withheld gives nothing away.
    """
    rules = rules_for(newest_policy(library), library, book=book)
    told: dict[str, dict[str, Standing]] = {}
    for name, askings in askings_around(library, findings=findings):
        for rule, standing in what_rules_say(rules, askings).items():
            told.setdefault(rule, {})[name] = standing
    return told


def askings_around(
    library: Library, *, findings: Callable[[Finding], bool] = every_finding
) -> Iterator[tuple[str, list[Asking]]]:
    """The museum, then each machine with what was found on it, as rules are asked of them."""
    yield MUSEUM, [asking_of_museum(library)]
    for name in library.machines:
        log = zip(askings_of_findings(name, library), library.findings_of(name), strict=True)
        shown = [asking for asking, finding in log if findings(finding)]
        yield name, [*askings_of_machine(name, library), *shown]
