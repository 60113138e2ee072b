"""Rules as the public sees them: the book's, the museum's own, and where each was met or not."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TypeVar

from witnessmark.model.findings import Finding
from witnessmark.model.library import Library
from witnessmark.publish.public_decision import PublicDecision
from witnessmark.publish.public_rule import PublicCase, PublicRule
from witnessmark.rules.cases import complaints
from witnessmark.rules.house_rules import book_under, held_as_must, why_off
from witnessmark.rules.kept import MUSEUM, standings_around
from witnessmark.rules.own_rules import own_rules_of
from witnessmark.rules.rule import CaseVerdict, Rule, RuleLevel, Standing
from witnessmark.rules.rulebook import RuleBook
from witnessmark.rules.rulebook_check import newest_policy

T = TypeVar("T")

KnownRules = Mapping[str, tuple[Rule, str | None]]
"""Rules by id, each with the policy it is of; None for one of the book."""


def known_rules(library: Library, rulebook: RuleBook) -> KnownRules:
    """The rules that pages may name: the book's, and every policy's own, as the newest has them."""
    own = {
        rule.id: (rule, name)
        for name, _ in sorted(library.policies.items(), key=lambda row: (row[1].valid_from, row[0]))
        for rule in own_rules_of(library, name).rules
    }
    kept = book_under(newest_policy(library), library, book=rulebook.rules)
    every = {rule.id: rule for rule in (*rulebook.rules, *kept)}
    book: dict[str, tuple[Rule, str | None]] = {name: (rule, None) for name, rule in every.items()}
    return {**book, **{name: row for name, row in own.items() if name not in book}}


def rules_of_pages(
    known: KnownRules, *, decisions: Sequence[PublicDecision]
) -> Iterator[PublicRule]:
    """Every rule as a decision's page names it, without what other records make of it."""
    in_decisions = _read(decisions)
    return (_bare(rule, in_decisions) for rule, _ in known.values())


def public_rules(
    known: KnownRules,
    *,
    library: Library,
    book: RuleBook,
    decisions: Sequence[PublicDecision],
    machines: Collection[str],
) -> Iterator[PublicRule]:
    """Every rule with what published decisions, the machines shown and the museum make of it."""
    around = standings_around(library, book=book.rules, findings=_is_public)
    newest = newest_policy(library)
    held = held_as_must(newest, library)
    in_decisions = _read(decisions)
    for rule, policy in known.values():
        said = around.get(rule.id, {})
        shown = {name: standing for name, standing in said.items() if name in machines}
        yield replace(
            _bare(rule, in_decisions),
            policy=policy,
            off_because=why_off(rule, newest, library),
            held_because=held.get(rule.id) if rule.level is RuleLevel.MUST else None,
            met_by=_named(shown, Standing.HOLDS),
            broken_by=_named(shown, Standing.BROKEN),
            in_museum=said[MUSEUM] is Standing.HOLDS if MUSEUM in said else None,
        )


@dataclass(frozen=True, slots=True)
class _InDecisions:
    """Ids of decisions by rule, with the reason where there is one."""

    met: Mapping[str, Sequence[str]]
    broken: Mapping[str, Sequence[str]]
    waived: Mapping[str, Sequence[tuple[str, str]]]
    explained: Mapping[str, Sequence[tuple[str, str]]]


def _read(decisions: Sequence[PublicDecision]) -> _InDecisions:
    """What decisions say of rules, read once over all of them, since there may be thousands."""
    return _InDecisions(
        met=_by_rule((rule, d.id) for d in decisions for rule, _ in d.met),
        broken=_by_rule((rule, d.id) for d in decisions for rule, _ in d.broken),
        waived=_by_rule((n.rule, (d.id, n.because)) for d in decisions for n in d.waived),
        explained=_by_rule((n.rule, (d.id, n.because)) for d in decisions for n in d.explained),
    )


def _bare(rule: Rule, told: _InDecisions) -> PublicRule:
    """What the rule says of itself, and decisions of it."""
    return PublicRule(
        id=rule.id,
        code=rule.code,
        level=rule.level,
        waivable=rule.waivable,
        title=rule.title,
        why=rule.why,
        family=rule.family,
        scope=rule.scope,
        sources=rule.sources,
        when=rule.when,
        holds=rule.holds,
        remedy=rule.remedy,
        cases=_cases(rule),
        met_in=tuple(told.met.get(rule.id, ())),
        broken_in=tuple(told.broken.get(rule.id, ())),
        waived_in=tuple(told.waived.get(rule.id, ())),
        explained_in=tuple(told.explained.get(rule.id, ())),
    )


def _by_rule(rows: Iterable[tuple[str, T]]) -> Mapping[str, list[T]]:
    """What was told of each rule, in the order of telling."""
    found: dict[str, list[T]] = {}
    for rule, told in rows:
        found.setdefault(rule, []).append(told)
    return found


def _is_public(finding: Finding) -> bool:
    return finding.public is True


def _named(said: Mapping[str, Standing], wanted: Standing) -> tuple[str, ...]:
    return tuple(sorted(name for name, standing in said.items() if standing is wanted))


# Remembered because asking the rules of their cases takes longer than writing their pages.
@lru_cache(maxsize=512)
def _cases(rule: Rule) -> tuple[PublicCase, ...]:
    return tuple(
        PublicCase(
            name=case.name,
            verdict=case.verdict,
            lines=case.marked_lines,
            says=complaints(case.record, rule=rule) if case.verdict is CaseVerdict.FAULTED else (),
        )
        for case in rule.cases
    )
