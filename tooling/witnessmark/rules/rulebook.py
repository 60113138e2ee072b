"""The rule book: every rule read from its file, and refused whole where one is wrong."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import PurePosixPath
from typing import TYPE_CHECKING, TypeAlias

from witnessmark.errors import WitnessmarkError
from witnessmark.model.shape import shape
from witnessmark.model.source import read
from witnessmark.rules import cel
from witnessmark.rules.cel_facts import NOTHING, Facts, facts
from witnessmark.rules.cel_fields import FieldFault, check_fields
from witnessmark.rules.cel_grammar import parse
from witnessmark.rules.cel_template import check_template
from witnessmark.rules.cel_tokens import ExpressionFault
from witnessmark.rules.cel_tree import free_names
from witnessmark.rules.rule import CaseVerdict, Rule, Scope, WrittenRule

if TYPE_CHECKING:
    from witnessmark.rules.rule import Path

Variables: TypeAlias = Mapping[Scope, Mapping[str, type]]
"""For each scope, the names its rules may use and the types that describe them."""


@dataclass(frozen=True, slots=True, order=True)
class Complaint:
    """One fault of the rule book, at a line of a file."""

    file: str
    line: int
    message: str

    def __str__(self) -> str:
        """Say it in one line, as compilers do."""
        return f"{self.file}:{self.line}: {self.message}"


class RulebookFault(WitnessmarkError):  # noqa: N818  the name the design gives it
    """Rules of the book are wrong; `lines` says each fault as `file:line: what`."""

    def __init__(self, complaints: Iterable[Complaint]) -> None:
        self.lines = tuple(str(complaint) for complaint in sorted(set(complaints)))
        message = "\n".join(("The rule book cannot be used:", *self.lines, ""))
        remedy = "Mend these rules; no record is checked by half a rule book."
        super().__init__(message, remedy=remedy)


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong with a rule, at a path in what was written."""

    path: Path
    message: str


@dataclass(frozen=True, eq=False)
class RuleBook:
    """Every rule, in the order of their codes; equal only to itself, so that it may be a key."""

    rules: tuple[Rule, ...]

    def applicable(self, scope: Scope) -> tuple[Rule, ...]:
        """The rules asked of records of this scope, in the order of their codes."""
        return tuple(rule for rule in self.rules if rule.scope is scope)


@dataclass(frozen=True, slots=True)
class _Read:
    """What one file gave: the rule, unless there are complaints, and where its code stands."""

    file: str
    line: int
    written: WrittenRule | None
    rule: Rule | None
    complaints: tuple[Complaint, ...]


def load_rulebook(
    files: Mapping[str, bytes], *, variables: Variables, engine: cel.Engine | None = None
) -> RuleBook:
    """The rule book of these files, one rule a file, each named by its rule's id.

    Raises:
        RulebookFault: something is wrong with some of them; all of it is told.

    """
    found = [_read(file, files[file], variables=variables, engine=engine) for file in sorted(files)]
    complaints = [complaint for one in found for complaint in one.complaints]
    complaints += [*_doubles(found, lambda rule: rule.code), *_doubles(found, lambda rule: rule.id)]
    if complaints:
        raise RulebookFault(complaints)
    rules = (one.rule for one in found if one.rule is not None)
    return RuleBook(tuple(sorted(rules, key=lambda rule: rule.code)))


def load_heads(files: Mapping[str, bytes]) -> RuleBook:
    """The same rule book without its cases, for files that are known to be right.

    Four fifths of a rule's file are its cases, and every expression of a rule was compared with
    what records can answer when the rule was tested; a check needs neither (0.2 s, measured).
    """
    rules = []
    for file, raw in files.items():
        head, _, _ = raw.partition(b"\ncases:")
        shaped = shape(read(file, head + b"\ncases: []\n"), WrittenRule)
        if shaped.value is None or not shaped.whole:
            complaints = (Complaint(file, one.line, one.message) for one in shaped.diagnostics)
            raise RulebookFault(complaints)
        rules.append(Rule.of(shaped.value))
    return RuleBook(tuple(sorted(rules, key=lambda rule: rule.code)))


def _read(file: str, raw: bytes, *, variables: Variables, engine: cel.Engine | None) -> _Read:
    document = read(file, raw)
    shaped = shape(document, WrittenRule)
    line = document.place(("code",)).line
    if shaped.value is None or not shaped.whole:
        told = tuple(Complaint(file, one.line, one.message) for one in shaped.diagnostics)
        return _Read(file, line, shaped.value, None, told or (Complaint(file, 1, "no rule here"),))
    prepared = prepare(shaped.value, variables=variables, engine=engine)
    rule = prepared if isinstance(prepared, Rule) else None
    problems = [*_name_problems(shaped.value, file)]
    problems += [] if isinstance(prepared, Rule) else prepared
    told = tuple(Complaint(file, document.place(one.path).line, one.message) for one in problems)
    return _Read(file, line, shaped.value, rule, told)


def prepare(
    written: WrittenRule, *, variables: Variables, engine: cel.Engine | None = None
) -> Rule | tuple[Problem, ...]:
    """The rule, checked and compiled, or all that is wrong with it; there is no other way to one.

    A policy's own rules go this way too, their problems told at the path in the policy's file.
    """
    problems = tuple(rule_problems(written, variables=variables))
    if problems:
        return problems
    rule = Rule.of(written, engine=engine)
    try:
        rule.asked.compile()
    except ExpressionFault as fault:
        return (Problem(("holds",), f"the CEL library refuses an expression: {fault}"),)
    return rule


def rule_problems(written: WrittenRule, *, variables: Variables) -> Iterator[Problem]:
    """All that is wrong with a rule beyond its shape: its cases and what its expressions read."""
    yield from _case_problems(written)
    if written.scope not in variables:
        yield Problem(("scope",), f"no record of scope {written.scope} is described to rules")
        return
    names = variables[written.scope]
    applies = _facts(written.when, when=True)
    broken = applies | _facts(written.holds, when=False)
    yield from _field_problems("when", check_fields(written.when, variables=names))
    yield from _field_problems("holds", check_fields(written.holds, variables=names, known=applies))
    yield from _field_problems(
        "message", check_template(written.message, variables=names, known=broken)
    )
    for number, step in enumerate(written.at):
        faults = check_template(step, variables=names, known=broken)
        yield from _field_problems("at", faults, number)
    if _reads_nothing(written.holds):
        yield Problem(("holds",), "holds reads nothing from the record, so nothing can break it")


def _reads_nothing(expression: str) -> bool:
    try:
        return not free_names(parse(expression))
    except ExpressionFault:
        return False


def _facts(expression: str, *, when: bool) -> Facts:
    try:
        return facts(parse(expression), when=when)
    except ExpressionFault:
        return NOTHING


def _field_problems(key: str, faults: Iterable[FieldFault], *rest: int) -> Iterator[Problem]:
    for fault in faults:
        yield Problem((key, *rest), f"in {key}, at character {fault.column}: {fault.message}")


def _case_problems(written: WrittenRule) -> Iterator[Problem]:
    shown = {case.verdict for case in written.cases}
    for verdict, wanted in ((CaseVerdict.PASSES, "that passes"), (CaseVerdict.FAULTED, "faulted")):
        if verdict not in shown:
            yield Problem(("cases",), f"the rule needs at least one case {wanted}")
    names = [case.name for case in written.cases]
    for number, case in enumerate(written.cases):
        if case.name in names[:number]:
            yield Problem(("cases", number, "name"), f"two cases are called {case.name!r}")
        if (case.verdict is CaseVerdict.FAULTED) is not bool(case.lines):
            message = "a faulted case names the lines complained of, and only a faulted one does"
            yield Problem(("cases", number), f"{case.name}: {message}")


def _name_problems(written: WrittenRule, file: str) -> Iterator[Problem]:
    name = PurePosixPath(file).name
    if name != f"{written.id}.yml":
        yield Problem(("id",), f"the rule is called {written.id} and its file {name}; use one name")


def _doubles(found: Iterable[_Read], word: Callable[[WrittenRule], str]) -> Iterator[Complaint]:
    """A complaint for each rule whose code or id another file has, too."""
    taken: dict[str, str] = {}
    for one in found:
        if one.written is None:
            continue
        first = taken.setdefault(word(one.written), one.file)
        if first != one.file:
            message = f"{word(one.written)} is already taken by {first}"
            yield Complaint(one.file, one.line, message)
