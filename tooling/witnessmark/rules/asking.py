"""Asking rules of records: what each broken one says, and at which path of the file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from witnessmark.rules import cel
from witnessmark.rules.cel_grammar import parse
from witnessmark.rules.cel_sight import Sight, at_sight
from witnessmark.rules.cel_tree import Logic, Node
from witnessmark.rules.facts import Asking
from witnessmark.rules.rule import Rule, Standing

if TYPE_CHECKING:
    from witnessmark.rules.rule import Path
    from witnessmark.rules.views import Context


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


@dataclass(frozen=True, slots=True)
class _Question:
    """A rule, and what can be told of it at sight: whether it is meant, and whether it is kept.

    `rest` is what its `when` says after the gate's first term; None where that is all.
    """

    rule: Rule
    rest: Sight | None
    holds: Sight

    def is_kept_at_sight(self, context: Context, *, first: object) -> bool:
        """True where the rule is plainly not meant, or plainly kept; `first` is the gate's term."""
        meant = True if self.rest is None else self.rest(context)
        return meant is False or (first is True and meant is True and self.holds(context) is True)


@dataclass(frozen=True, slots=True)
class _Gate:
    """Rules whose `when` starts alike, so that one look can pass them all by."""

    first: Sight
    questions: tuple[_Question, ...]


@dataclass(frozen=True, eq=False)
class Questions:
    """Rules made ready to be asked of a whole museum; `breaches` says the same, slower."""

    gates: Mapping[str, tuple[_Gate, ...]]

    @classmethod
    def of(cls, rules: Iterable[Rule]) -> Questions:
        """The rules by scope, and in each by how their `when` starts."""
        sorted_out: dict[str, dict[Node, list[_Question]]] = {}
        for rule in rules:
            first, rest = _parted(parse(rule.when))
            question = _Question(rule, rest, rule.asked.holds_at_sight)
            sorted_out.setdefault(rule.scope, {}).setdefault(first, []).append(question)
        return cls(
            {
                scope: tuple(_Gate(at_sight(first), tuple(q)) for first, q in by_first.items())
                for scope, by_first in sorted_out.items()
            }
        )

    def breaches(self, askings: Iterable[Asking]) -> Iterator[Breach]:
        """Every breach, record by record, in the order of the rules' codes."""
        for asking in askings:
            context = asking.context
            open_to = [
                question.rule
                for gate in self.gates.get(asking.scope, ())
                if (first := gate.first(context)) is not False
                for question in gate.questions
                if not question.is_kept_at_sight(context, first=first)
            ]
            open_to.sort(key=lambda rule: rule.code)
            yield from breaches(open_to, [asking])


def _parted(when: Node) -> tuple[Node, Sight | None]:
    """The first term of a `when`, and what gives the others together; None where it is the only."""
    if not isinstance(when, Logic) or when.sign != "&&":
        return when, None
    first, *others = when.terms
    rest = others[0] if len(others) == 1 else replace(when, terms=tuple(others))
    return first, at_sight(rest)
