"""What the public may see of a rule: all of it, and which published decisions met it or not."""

from __future__ import annotations

from dataclasses import dataclass

from witnessmark.rules.rule import Case, RuleLevel, Scope, Source


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicRule:
    """One rule of the rule book; the lists hold ids of published decisions."""

    id: str
    code: str
    level: RuleLevel
    waivable: bool
    title: str
    why: str
    family: str
    scope: Scope
    sources: tuple[Source, ...]
    when: str
    holds: str
    remedy: str
    cases: tuple[Case, ...]
    met_in: tuple[str, ...] = ()
    broken_in: tuple[str, ...] = ()
    waived_in: tuple[tuple[str, str], ...] = ()
    explained_in: tuple[tuple[str, str], ...] = ()
