"""The book as a museum's policy keeps it: advice switched off, and advice held as binding.

A museum may switch a should off, and hold a should as a must; either takes a reason. No must can be
switched off: it rests only record by record, by a waiver with a name and an end, if it may rest at
all.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache

from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.library import Library
from witnessmark.model.policy import HouseRule, Policy
from witnessmark.model.shape import Shaped
from witnessmark.model.spelling import hint
from witnessmark.rules.own_rules import UNUSABLE
from witnessmark.rules.report import Report
from witnessmark.rules.rule import Path, Rule, RuleLevel

OFF, HELD = "rules_off", "held_as_must"


@dataclass(frozen=True, slots=True)
class _Kept:
    """What a policy says of the book's rules, by rule, with the reason; faults left out."""

    off: Mapping[str, str]
    held: Mapping[str, str]


def book_under(policy: str, library: Library, *, book: Iterable[Rule]) -> tuple[Rule, ...]:
    """The book's rules as a policy keeps them, less those it switches off.

    An entry with a fault changes nothing: until it is mended, the rule stands as in the book.
    """
    said = _said(policy, library)
    if not said.off and not said.held:
        return tuple(book)
    return tuple(_as_kept(rule, said) for rule in book if not _is_off(rule, said))


def _is_off(rule: Rule, said: _Kept) -> bool:
    return rule.level is RuleLevel.SHOULD and rule.id in said.off


def _as_kept(rule: Rule, said: _Kept) -> Rule:
    return rule.model_copy(update={"level": RuleLevel.MUST}) if rule.id in said.held else rule


def why_off(rule: Rule, policy: str, library: Library) -> str | None:
    """The policy's reason for switching a rule off; None where it is in force."""
    said = _said(policy, library)
    return said.off.get(rule.id) if _is_off(rule, said) else None


def held_as_must(policy: str, library: Library) -> Mapping[str, str]:
    """The rules a policy holds as musts though the book has them as advice, with the reason."""
    return _said(policy, library).held


@lru_cache(maxsize=256)
def _said(policy: str, library: Library) -> _Kept:
    value = library.policies.get(policy)
    if value is None:
        return _Kept({}, {})
    held = {one.rule: one.because for one in value.held_as_must if one.because}
    off = {one.rule: one.because for one in value.rules_off if one.because}
    return _Kept({rule: why for rule, why in off.items() if rule not in held}, held)


def check_house_rules(library: Library, *, book: Iterable[Rule]) -> Iterator[Diagnostic]:
    """Every fault of what the policies say of the book's rules, at its line of the policy."""
    rules = {rule.id: rule for rule in book}
    for _, shaped in sorted(library.policy_files.items()):
        if shaped.value is not None:
            yield from _faults(shaped, shaped.value, rules)


def _faults(
    shaped: Shaped[Policy], policy: Policy, rules: Mapping[str, Rule]
) -> Iterator[Diagnostic]:
    report = Report(shaped)
    seen: set[str] = set()
    for field, listed in ((OFF, policy.rules_off), (HELD, policy.held_as_must)):
        for number, entry in enumerate(listed):
            fault = _fault(entry, field, rules, seen)
            if fault:
                path: Path = (field, number, "rule")
                yield report.at(path, UNUSABLE, fault, fix=_FIX)
            seen.add(entry.rule)
    for number, own in enumerate(policy.own_rules):
        if own.get("id") in rules:
            message = f"{own['id']} is the id of a rule of the book."
            yield report.at(("own_rules", number, "id"), UNUSABLE, message)


_FIX = (
    "Name a should of the book and give the reason under because; a must can only be waived, "
    "record by record."
)


def _fault(entry: HouseRule, field: str, rules: Mapping[str, Rule], seen: set[str]) -> str | None:
    rule = rules.get(entry.rule)
    if rule is None:
        return f'The book has no rule "{entry.rule}".{hint(entry.rule, sorted(rules))}'
    if rule.level is RuleLevel.MUST:
        what = "cannot be switched off" if field == OFF else "needs no holding as one"
        return f"{rule.id} is a must, so it {what}."
    if entry.rule in seen:
        return f"{rule.id} is named twice."
    if not entry.because:
        return f"{rule.id}: no reason is given."
    return None
