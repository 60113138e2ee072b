"""The rule book asked of a whole museum, each breach as a diagnostic at its line."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import cache, lru_cache
from importlib.resources import files
from typing import Any

from witnessmark.model.decision import Decision
from witnessmark.model.diagnostics import Diagnostic, Level, field_name
from witnessmark.model.library import Library, MachineFolder
from witnessmark.model.words import State
from witnessmark.rules import cel
from witnessmark.rules.asking import Breach, Questions
from witnessmark.rules.facts import (
    Asking,
    asking_of_museum,
    askings_of_decision,
    askings_of_findings,
    askings_of_machine,
)
from witnessmark.rules.house_rules import book_under
from witnessmark.rules.own_rules import UNUSABLE, own_rules_of
from witnessmark.rules.report import Report
from witnessmark.rules.resting import level_of_breach, what_rests_it, why_not_waived
from witnessmark.rules.rule import RuleLevel
from witnessmark.rules.rulebook import RuleBook, load_heads, load_rulebook
from witnessmark.rules.views import VARIABLES
from witnessmark.weighing.case import Case

RULEBOOK = "rulebook"
OVER = frozenset({State.WITHDRAWN, State.REPLACED})
"""States in which nobody relies on a record any more, so rules younger than it say nothing."""


@cache
def load_shipped() -> RuleBook:
    """The rule book that comes with the program; read and compiled once."""
    return load_rulebook(shipped_files(), variables=VARIABLES)


@cache
def load_shipped_heads() -> RuleBook:
    """The same without the rules' cases, as much as a check needs; the tests read it whole."""
    return load_heads(shipped_files())


def shipped_files() -> Mapping[str, bytes]:
    """The files of the rule book that comes with the program."""
    folder = files("witnessmark") / RULEBOOK
    return {
        f"{RULEBOOK}/{entry.name}": entry.read_bytes()
        for entry in folder.iterdir()
        if entry.name.endswith(".yml")
    }


def check_rules(
    case: Case, library: Library, rulebook: RuleBook, report: Report
) -> Iterator[Diagnostic]:
    """What the rules, and those of the decision's policy, say of a decision.

    Nothing while the decision cannot be scored, since machine or policy cannot be read: that has a
    diagnostic of its own. `report` is about the decision's file.
    """
    askings = list(askings_of_decision(case, library))
    decision = case.decision
    for breach in _questions(decision.policy, library, rulebook).breaches(askings):
        yield from _told(breach, decision, library, report)
    for found in _of_own_rules(askings, library, decision.policy):
        if isinstance(found, Diagnostic):
            yield found
        else:
            yield from _told(found, decision, library, report)


def check_rules_around(library: Library, rulebook: RuleBook) -> Iterator[Diagnostic]:
    """What the rules say of the museum, of its machines and of what was found on them."""
    yield from check_rules_of_museum(library, rulebook)
    for folder in library.folders:
        yield from check_rules_in(folder, library, rulebook)


def check_rules_of_museum(library: Library, rulebook: RuleBook) -> Iterator[Diagnostic]:
    """What the rules say of the museum as a whole."""
    asked = [(Report(library.museum), [asking_of_museum(library)])]
    yield from _told_around(asked, library, rulebook)


def check_rules_in(
    folder: MachineFolder, library: Library, rulebook: RuleBook
) -> Iterator[Diagnostic]:
    """What the rules say of a machine and of what was found on it."""
    asked = []
    if folder.machine:
        asked.append((Report(folder.machine), list(askings_of_machine(folder.name, library))))
    if folder.findings:
        asked.append((Report(folder.findings), list(askings_of_findings(folder.name, library))))
    yield from _told_around(asked, library, rulebook)


def _told_around(
    asked: Iterable[tuple[Report, list[Asking]]], library: Library, rulebook: RuleBook
) -> Iterator[Diagnostic]:
    policy = newest_policy(library)
    questions = _questions(policy, library, rulebook)
    for report, askings in asked:
        for breach in questions.breaches(askings):
            yield from _kept(_diagnostic(breach, _level_around(breach), report), report)
        for found in _of_own_rules(askings, library, policy):
            if isinstance(found, Breach):
                found = _diagnostic(found, _level_around(found), report)  # noqa: PLW2901
            yield from _kept(found, report)


@lru_cache(maxsize=64)
def _questions(policy: str, library: Library, rulebook: RuleBook) -> Questions:
    """The book's rules as a policy keeps them, made ready once a museum."""
    return Questions.of(book_under(policy, library, book=rulebook.rules))


def newest_policy(library: Library) -> str:
    """The policy that what is no decision is read under: the newest; empty where there is none."""
    dated = [(policy.valid_from, name) for name, policy in library.policies.items()]
    return max(dated)[1] if dated else ""


def _level_around(breach: Breach) -> Level:
    """Only a decision can explain a should, so elsewhere it never is more than a note."""
    return Level.ERROR if breach.rule.level is RuleLevel.MUST else Level.NOTE


def _of_own_rules(
    askings: Iterable[Asking], library: Library, policy: str
) -> Iterator[Breach | Diagnostic]:
    """Breaches of a policy's own rules; one that gives no answer is a fault of the policy."""
    asked = list(askings)
    for name, questions in _own_questions(policy, library):
        try:
            yield from list(questions.breaches(asked))
        except cel.RuleFault as fault:
            yield _unanswered(name, fault.message, library, policy)


@lru_cache(maxsize=64)
def _own_questions(policy: str, library: Library) -> tuple[tuple[str, Questions], ...]:
    """Each of a policy's own rules with its id, by itself, so that one at fault stops no other."""
    rules = own_rules_of(library, policy).rules
    return tuple((rule.id, Questions.of([rule])) for rule in rules)


def _unanswered(rule: str, message: str, library: Library, policy: str) -> Diagnostic:
    shaped = library.policy_files[policy]
    written: tuple[dict[str, Any], ...] = shaped.value.own_rules if shaped.value else ()
    index = next(number for number, one in enumerate(written) if one.get("id") == rule)
    report = Report(shaped)
    return report.at(("own_rules", index, "holds"), UNUSABLE, f"{message}.", key=True)


def _told(
    breach: Breach, decision: Decision, library: Library, report: Report
) -> Iterator[Diagnostic]:
    """The breach at the weight its state gives it; nothing where a waiver or explanation rests it.

    What rests stands in the record and on its page, so a check need not say it again.
    """
    rule = breach.rule
    level = level_of_breach(rule, decision)
    if decision.state in OVER or what_rests_it(rule, decision, library) is not None:
        return
    aside = why_not_waived(rule, decision, library)
    yield from _kept(_diagnostic(breach, level, report, aside=aside), report)


def _kept(diagnostic: Diagnostic, report: Report) -> Iterator[Diagnostic]:
    if not report.is_follow_on(diagnostic):
        yield diagnostic


def _diagnostic(
    breach: Breach, level: Level, report: Report, *, aside: str | None = None
) -> Diagnostic:
    rule = breach.rule
    place = report.shaped.place(breach.path, key=True)
    written = report.shaped.as_written(breach.path)
    return Diagnostic(
        code=rule.code,
        level=level,
        file=report.shaped.document.file,
        line=place.line,
        column=place.column,
        record=report.record,
        field=field_name(written),
        message=f"{breach.message} {aside}" if aside else breach.message,
        why=rule.why,
        fix=rule.remedy,
        path=written,
    )
