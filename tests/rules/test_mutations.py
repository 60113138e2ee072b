"""Every term of every rule matters: with one taken away, some case comes out otherwise.

All of them are tried in every run, since the whole sweep takes seconds.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import pytest

from witnessmark.rules import cel
from witnessmark.rules.cases import lay_over
from witnessmark.rules.cel_grammar import parse
from witnessmark.rules.cel_tree import Logic, Node, children
from witnessmark.rules.facts import Asking
from witnessmark.rules.rule import Rule, Scope
from witnessmark.rules.rulebook_check import load_shipped

WORDS = ("true", "false")


@dataclass(frozen=True)
class Mutant:
    """A rule with one piece of one expression replaced by a word."""

    rule: Rule
    field: str
    start: int
    end: int
    word: str

    @property
    def written(self) -> str:
        return str(getattr(self.rule, self.field))

    @property
    def piece(self) -> str:
        return self.written[self.start : self.end]

    @property
    def expression(self) -> str:
        return f"{self.written[: self.start]}({self.word}){self.written[self.end :]}"

    def __str__(self) -> str:
        return f"{self.rule.id}:{self.field}:{self.start}:{self.word}"


def _terms(node: Node) -> Iterator[Node]:
    if isinstance(node, Logic):
        yield from node.terms
    for child in children(node):
        yield from _terms(child)


def _mutants(rule: Rule) -> Iterator[Mutant]:
    if rule.when != "true":
        for word in WORDS:
            yield Mutant(rule, "when", 0, len(rule.when), word)
    for name in ("when", "holds"):
        for term in _terms(parse(getattr(rule, name))):
            start = _opened(getattr(rule, name), term)
            for word in WORDS:
                yield Mutant(rule, name, start, term.end, word)


def _opened(written: str, term: Node) -> int:
    """Where a term starts, with the brackets that it closes itself."""
    start = term.start
    while written.count("(", start, term.end) < written.count(")", start, term.end):
        start -= 1
    return start


def _all() -> list[Mutant]:
    return [mutant for rule in load_shipped().rules for mutant in _mutants(rule)]


@cache
def _askings(record: str, scope: Scope) -> tuple[Asking, ...]:
    return tuple(a for a in lay_over(record, scope=scope).askings if a.scope is scope)


def _answers(rule: Rule, when: str, holds: str) -> list[tuple[str, ...]]:
    """For each case, what the two expressions say of each thing the rule is asked of."""
    asked_when, asked_holds = cel.compile(when), cel.compile(holds)
    found = []
    for case in rule.cases:
        row = []
        for asking in _askings(case.record, rule.scope):
            bound = cel.bind(asking.context)
            try:
                applies = asked_when.decide(bound)
                row.append(("keeps" if asked_holds.decide(bound) else "breaks") if applies else "-")
            except cel.RuleFault:
                row.append("no answer")
        found.append(tuple(row))
    return found


def _is_noticed(mutant: Mutant) -> bool:
    rule = mutant.rule
    expressions = {"when": rule.when, "holds": rule.holds, mutant.field: mutant.expression}
    before = _answers(rule, rule.when, rule.holds)
    return before != _answers(rule, expressions["when"], expressions["holds"])


def _said(rule: Rule) -> set[str]:
    return {answer for row in _answers(rule, rule.when, rule.holds) for answer in row}


@pytest.mark.parametrize("mutant", _all(), ids=str)
def test_a_rule_without_one_of_its_terms_judges_some_case_otherwise(mutant: Mutant) -> None:
    assert _is_noticed(mutant), mutant.piece


@pytest.mark.parametrize("rule", load_shipped().rules, ids=lambda rule: str(rule.id))
def test_every_rule_applies_to_some_case_and_breaks_in_some(rule: Rule) -> None:
    assert {"keeps", "breaks"} <= _said(rule)


def test_a_rule_that_never_applies_is_noticed() -> None:
    for rule in load_shipped().rules:
        idle = rule.model_copy(update={"when": f"({rule.when}) && 1 > 2"})
        assert {"-"} == _said(idle), rule.id


@pytest.mark.parametrize("rule", load_shipped().rules, ids=lambda rule: str(rule.id))
def test_a_term_that_changes_nothing_is_noticed(rule: Rule) -> None:
    """What the sweep is for, asked of every rule with an idle term added to it."""
    padded = rule.model_copy(update={"holds": f"({rule.holds}) && 1 < 2"})
    idle = [mutant for mutant in _mutants(padded) if mutant.piece == "1 < 2"]
    assert [("true", False), ("false", True)] == [(one.word, _is_noticed(one)) for one in idle]


def test_no_term_of_any_rule_is_left_out() -> None:
    """Counted without the parser: each && or || has a term before it and joins one more."""
    for rule in load_shipped().rules:
        for name in ("when", "holds"):
            bare = re.sub(r'"[^"]*"', "", getattr(rule, name))
            joins = len(re.findall(r"&&|\|\|", bare))
            pieces = {(m.start, m.end) for m in _mutants(rule) if m.field == name}
            if name == "when":
                pieces.discard((0, len(rule.when)))
            assert joins < len(pieces) or joins == len(pieces) == 0, rule.id
