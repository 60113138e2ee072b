"""The rules that come with the program, by their own cases and by laws that no case can say.

Both CEL engines answer every case (cel-expr-python, and cel-python as a second opinion). What the
rules rest on is cited in each rule; the base museum is invented.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import witnessmark.rules
from witnessmark.model.decision import Decision
from witnessmark.model.library import Folder, Library, assemble
from witnessmark.model.words import Role
from witnessmark.rules import cel
from witnessmark.rules.asking import breaches
from witnessmark.rules.cases import (
    DECISION,
    ELSEWHERE,
    CaseFault,
    base_museum,
    lay_over,
    lines_complained_of,
)
from witnessmark.rules.facts import (
    Asking,
    asking_of_museum,
    askings_of_decision,
    askings_of_findings,
    askings_of_machine,
)
from witnessmark.rules.rule import Case, CaseVerdict, Rule, Scope, Standing
from witnessmark.rules.rulebook import load_rulebook
from witnessmark.rules.rulebook_check import load_shipped, shipped_files
from witnessmark.rules.views import VARIABLES
from witnessmark.weighing.case import work_out

BOOKS = {
    "cel-expr-python": load_shipped(),
    "cel-python": load_rulebook(shipped_files(), variables=VARIABLES, engine=cel.second_engine()),
}
CASES = [
    pytest.param(rule, case, id=f"{engine}:{rule.id}:{case.name}")
    for engine, book in BOOKS.items()
    for rule in book.rules
    for case in rule.cases
]
RULES = [pytest.param(rule, id=rule.id) for rule in load_shipped().rules]
NEVER_WAIVED = {
    "givers-conditions-are-kept",
    "hazards-are-answered",
    "machines-conditions-are-kept",
    "owner-agrees-in-writing",
    "risk-is-above-the-floor",
    "special-hazard-is-surveyed",
    "stored-energy-is-made-safe",
    "two-roles-agree",
    "unknown-hazard-stops-work",
    "work-waits-for-agreement",
}
"""DESIGN names policy floor, safety High, unanswered hazard and work before agreement. The rest is
our own judgement: no signature stands in for another, nobody here can lift what an owner or giver
set, and a waiver makes neither an unknown fibre nor a charged strut any safer."""

BARE = """
witnessmark: 1
id: 2024-009
title: A record that says nothing
question: What should be done?
aim: {what: Something., because: Somebody said so.}
about: [lever-gear/pin]
policy: 2020-01
state: agreed
opened: 2024-02-01
proposed_by: fitter
"""
BARE_OPTION = """
options:
  - {id: renew, kind: renew-like-for-like, title: Renew it}
choice:
  option: renew
  because: It is worn.
  gives_up: Nothing.
  would_change_our_mind: Nothing.
  dissent: []
"""


@pytest.mark.parametrize(("rule", "case"), CASES)
def test_every_case_comes_out_on_its_exact_lines(rule: Rule, case: Case) -> None:
    assert case.lines == lines_complained_of(case.record, rule=rule)


@pytest.mark.parametrize("rule", RULES)
def test_every_rule_has_two_cases_that_pass_and_two_faulted(rule: Rule) -> None:
    verdicts = [case.verdict for case in rule.cases]
    assert min(verdicts.count(verdict) for verdict in CaseVerdict) >= 2


@pytest.mark.parametrize("rule", RULES)
def test_no_case_of_a_rule_is_laid_over_in_vain(rule: Rule) -> None:
    """A piece that changes nothing would test the base museum, not the rule."""
    assert all(case.record.strip() for case in rule.cases)
    assert len({case.record for case in rule.cases}) == len(rule.cases)


@pytest.mark.parametrize("rule", RULES)
def test_every_message_is_one_whole_sentence(rule: Rule) -> None:
    for case in rule.cases:
        for breach in breaches([rule], lay_over(case.record, scope=rule.scope).askings):
            assert re.fullmatch(r"\S.*[^.]\.", breach.message)
            assert "  " not in breach.message


@pytest.mark.parametrize("rule", RULES)
def test_every_rule_says_why_in_two_or_three_sentences(rule: Rule) -> None:
    assert len(re.findall(r"[^.]+\.(?: |$)", rule.why)) in (2, 3)


def test_the_rules_that_nobody_may_waive_are_these() -> None:
    assert {rule.id for rule in load_shipped().rules if not rule.waivable} == NEVER_WAIVED


def test_there_are_at_least_sixteen_rules_of_every_kind_of_scope_but_the_museum() -> None:
    rules = load_shipped().rules
    assert len(rules) >= 16
    assert set(Scope) - {Scope.MUSEUM} <= {rule.scope for rule in rules}


def everything(library: Library) -> list[Asking]:
    found = [asking_of_museum(library)]
    for machine in library.machines:
        found += [*askings_of_machine(machine, library), *askings_of_findings(machine, library)]
    for entry in library.decisions:
        if entry.value:
            case = work_out(entry.value, entry.machine, library)
            found += askings_of_decision(case, library)
    return found


def test_the_base_museum_is_read_without_a_word() -> None:
    library = base_museum()
    files = [
        library.museum,
        library.people_file,
        library.stores_file,
        *library.policy_files.values(),
        *library.machine_files.values(),
        *library.finding_files.values(),
        *(entry.shaped for entry in library.decisions),
    ]
    assert () == library.problems
    assert [] == [d for shaped in files if shaped for d in shaped.diagnostics]


@pytest.mark.parametrize("book", BOOKS.values(), ids=BOOKS)
def test_the_base_museum_keeps_every_rule(book: object) -> None:
    rules = book.rules  # type: ignore[attr-defined]
    assert [] == [breach.message for breach in breaches(rules, everything(base_museum()))]


@pytest.mark.parametrize("rule", RULES)
def test_a_rule_that_is_asked_of_the_base_decision_or_of_a_case_can_hold(rule: Rule) -> None:
    """Every rule is kept by some record, so none complains of everything."""
    held = [
        rule.evaluate(cel.bind(asking.context)).standing
        for case in rule.cases
        if case.verdict is CaseVerdict.PASSES
        for asking in lay_over(case.record, scope=rule.scope).askings
        if asking.scope is rule.scope
    ]
    assert Standing.HOLDS in held


def bare(text: str) -> list[Asking]:
    files = base_files()
    files["shore-press/2024-009-bare.yml"] = text.encode()
    library = assemble(Folder("museum", files))
    entry = library.by_id["2024-009"]
    assert isinstance(entry.value, Decision)
    assert entry.shaped.whole
    return list(askings_of_decision(work_out(entry.value, entry.machine, library), library))


def base_files() -> dict[str, bytes]:
    base = Path(witnessmark.rules.__path__[0]) / "case_base"
    return {p.relative_to(base).as_posix(): p.read_bytes() for p in base.rglob("*.yml")}


@pytest.mark.parametrize("text", [BARE, BARE + BARE_OPTION], ids=["no option", "a bare option"])
@pytest.mark.parametrize("rule", RULES)
def test_no_rule_is_kept_by_a_record_that_says_nothing(rule: Rule, text: str) -> None:
    found = [
        rule.evaluate(cel.bind(asking.context)).standing
        for asking in bare(text)
        if asking.scope is rule.scope
    ]
    assert Standing.HOLDS not in found


def test_a_record_that_says_nothing_breaks_these_rules() -> None:
    found = {b.rule.id for b in breaches(load_shipped().rules, bare(BARE))}
    assert {
        "condition-is-checked-before-the-decision",
        "decision-is-looked-at-again",
        "decision-rests-on-what-can-be-found",
        "interests-are-declared",
        "losses-are-listed",
        "no-action-is-appraised",
        "published-or-withheld-with-a-reason",
        "two-real-options-are-weighed",
        "two-roles-agree",
    } == found


def test_a_bare_renewal_breaks_these_rules_too() -> None:
    found = {b.rule.id for b in breaches(load_shipped().rules, bare(BARE + BARE_OPTION))}
    assert {
        "condition-is-checked-before-the-decision",
        "decision-is-looked-at-again",
        "decision-rests-on-what-can-be-found",
        "disagreement-is-answered",
        "hazards-are-answered",
        "interests-are-declared",
        "losses-are-listed",
        "no-action-is-appraised",
        "published-or-withheld-with-a-reason",
        "renewal-shows-its-steps",
        "risk-is-above-the-floor",
        "scores-are-explained",
        "two-real-options-are-weighed",
        "two-roles-agree",
    } == found


def test_a_case_may_add_an_option_and_change_one_field_of_another() -> None:
    text = "options:\n  - {id: leave, title: Stay}\n  - {id: new, kind: undo, title: Undo it}\n"
    case = lay_over(text, scope=Scope.DECISION)
    options = case.askings[0].context["options"]
    assert isinstance(options, list)
    assert ["leave", "rebuild", "renew", "stop", "new"] == [option["id"] for option in options]
    assert ("Stay", "leave-as-found") == (options[0]["title"], options[0]["kind"])
    assert (3, ELSEWHERE) == (case.line(("options", 4, "kind")), case.line(("aim",)))


def test_a_case_with_the_id_of_another_decision_is_laid_over_that_one() -> None:
    (first, *_) = lay_over("id: 2023-003\n", scope=Scope.DECISION).askings
    machine = first.context["machine"]
    assert isinstance(machine, dict)
    assert "dune-tractor" == machine["id"]


def test_a_line_outside_the_piece_can_match_no_case() -> None:
    rule = next(r for r in load_shipped().rules if r.id == "decision-is-looked-at-again")
    assert Case.model_fields["lines"].default == ()
    with pytest.raises(ValueError, match="greater than or equal to 1"):
        Case(name="x", verdict=CaseVerdict.FAULTED, record="x: y", lines=(ELSEWHERE,))
    assert lines_complained_of("look_again: null\n", rule=rule) == (1,)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("optoins: []\n", 'There is no field called "optoins"'),
        ("state: perhaps\n", '"perhaps" is not a word for this'),
        ("just words\n", 'the file starts with "just words"'),
        ("a: 'b\n", "never closed"),
    ],
)
def test_a_case_that_is_no_piece_of_a_record_is_told(text: str, said: str) -> None:
    with pytest.raises(CaseFault, match=re.escape(said)):
        lay_over(text, scope=Scope.DECISION)


def test_the_roles_held_on_the_day_are_seen() -> None:
    (first, *_) = lay_over("opened: 2024-02-01\n", scope=Scope.DECISION).askings
    facts = first.context["facts"]
    assert isinstance(facts, dict)
    held = {Role.COLLECTIONS, Role.ENGINEERING, Role.GOVERNING, Role.OBJECTOR, Role.SAFETY}
    assert sorted({*held, Role.WORKSHOP}) == facts["roles_held"]


def test_the_decision_of_the_cases_is_the_one_named() -> None:
    assert DECISION in base_museum().by_id
