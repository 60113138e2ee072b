"""Rules as the public sees them: the book's, the museum's own, and where each was met or not."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from functools import lru_cache

from witnessmark.model.findings import Finding
from witnessmark.model.library import Library
from witnessmark.publish.public_decision import PublicDecision
from witnessmark.publish.public_rule import PublicCase, PublicRule
from witnessmark.rules.cases import complaints
from witnessmark.rules.kept import MUSEUM, standings_around
from witnessmark.rules.own_rules import own_rules_of
from witnessmark.rules.rule import CaseVerdict, Rule, Standing
from witnessmark.rules.rulebook import RuleBook

KnownRules = Mapping[str, tuple[Rule, str | None]]
"""Rules by id, each with the policy it is of; None for one of the book."""


def known_rules(library: Library, rulebook: RuleBook) -> KnownRules:
    """The rules that pages may name: the book's, and every policy's own as the newest has it."""
    own = {
        rule.id: (rule, name)
        for name, _ in sorted(library.policies.items(), key=lambda row: (row[1].valid_from, row[0]))
        for rule in own_rules_of(library, name).rules
    }
    book: dict[str, tuple[Rule, str | None]] = {rule.id: (rule, None) for rule in rulebook.rules}
    return {**book, **{name: row for name, row in own.items() if name not in book}}


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
    for rule, policy in known.values():
        said = around.get(rule.id, {})
        shown = {name: standing for name, standing in said.items() if name in machines}
        yield PublicRule(
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
            policy=policy,
            met_in=tuple(d.id for d in decisions if rule.id in dict(d.met)),
            broken_in=tuple(d.id for d in decisions if rule.id in dict(d.broken)),
            waived_in=tuple(
                (d.id, note.because) for d in decisions for note in d.waived if note.rule == rule.id
            ),
            explained_in=tuple(
                (d.id, note.because)
                for d in decisions
                for note in d.explained
                if note.rule == rule.id
            ),
            met_by=_named(shown, Standing.HOLDS),
            broken_by=_named(shown, Standing.BROKEN),
            in_museum=said[MUSEUM] is Standing.HOLDS if MUSEUM in said else None,
        )


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
