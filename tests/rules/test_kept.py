"""What rules say of whole records, and where a museum keeps them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from witnessmark.model.decision import Decision
from witnessmark.model.library import Library, assemble
from witnessmark.repository.disk import read_museum
from witnessmark.rules.cases import base_museum, lay_over
from witnessmark.rules.check import check
from witnessmark.rules.followed import Followed, rule_in_museum
from witnessmark.rules.kept import MUSEUM, rules_for, standings_around, what_rules_say
from witnessmark.rules.rule import CaseVerdict, Rule, Scope, Standing
from witnessmark.rules.rulebook_check import OVER, load_shipped

BOOK = load_shipped()
DEMO = Path(__file__).parents[2] / "decisions"


@pytest.fixture(scope="module")
def demo() -> Library:
    return assemble(read_museum(DEMO))


@pytest.mark.parametrize("rule", BOOK.rules, ids=lambda rule: rule.id)
def test_a_case_that_is_faulted_is_broken_and_one_that_passes_is_not(rule: Rule) -> None:
    for case in rule.cases:
        said = what_rules_say([rule], lay_over(case.record, scope=rule.scope).askings)
        is_broken = said.get(rule.id) is Standing.BROKEN
        assert (case.name, case.verdict is CaseVerdict.FAULTED) == (case.name, is_broken)


def test_rules_asked_together_say_what_they_say_alone() -> None:
    askings = lay_over("title: Another title\n", scope=Scope.DECISION).askings
    together = what_rules_say(BOOK.rules, askings)
    alone: dict[str, Standing] = {}
    for rule in BOOK.rules:
        alone |= what_rules_say([rule], askings)
    assert together
    assert alone == together


def test_a_record_that_breaks_a_rule_in_one_step_of_two_breaks_it() -> None:
    rule = next(rule for rule in BOOK.rules if rule.id == "removed-part-is-kept")
    faulted = next(case for case in rule.cases if case.verdict is CaseVerdict.FAULTED)
    askings = lay_over(faulted.record, scope=rule.scope).askings
    single = {v for one in askings for v in what_rules_say([rule], [one]).values()}
    assert Standing.BROKEN in single
    assert {rule.id: Standing.BROKEN} == what_rules_say([rule], (*askings, *reversed(askings)))


def test_the_base_museum_keeps_every_rule_around_its_decisions() -> None:
    told = standings_around(base_museum(), book=BOOK.rules)
    broken = {rule: said for rule, said in told.items() if Standing.BROKEN in said.values()}
    assert told
    assert {} == broken


def test_findings_that_do_not_count_say_nothing() -> None:
    of_findings = [rule for rule in BOOK.rules if rule.scope.value == "finding"]
    counted = standings_around(base_museum(), book=of_findings)
    silent = standings_around(base_museum(), book=of_findings, findings=lambda _: False)
    assert of_findings
    assert (True, {}) == (bool(counted), silent)


def test_rules_of_the_museum_are_told_of_the_museum() -> None:
    of_museums = [rule for rule in BOOK.rules if rule.scope.value == "museum"]
    told = standings_around(base_museum(), book=of_museums)
    assert {MUSEUM} == {name for said in told.values() for name in said} or not of_museums


def test_a_museums_own_rule_never_takes_the_place_of_one_in_the_book(demo: Library) -> None:
    for policy in demo.policies:
        known = [rule.id for rule in rules_for(policy, demo, book=BOOK.rules)]
        assert sorted(set(known)) == sorted(known)


@pytest.fixture(scope="module")
def careless() -> Library:
    """The demo museum, had it thrown away what it took off and marked nothing new."""
    folder = read_museum(DEMO)
    files = {
        name: re.sub(rb"fate: stored", b"fate: lost", re.sub(rb", marked: [^,}]*", b"", content))
        for name, content in folder.files.items()
    }
    return assemble(replace(folder, files=files))


@pytest.fixture(scope="module")
def complaints(careless: Library) -> dict[str, set[str]]:
    """The decisions of which a check of the careless museum complains, by rule code."""
    found: dict[str, set[str]] = {}
    for one in check(careless, rulebook=BOOK).diagnostics:
        if one.record:
            found.setdefault(one.code, set()).add(one.record)
    return found


@pytest.mark.parametrize("name", ["removed-part-is-kept", "new-part-is-marked-and-dated"])
def test_where_a_rule_is_broken_is_where_a_check_complains_of_it(
    name: str, careless: Library, complaints: dict[str, set[str]]
) -> None:
    rule = next(rule for rule in BOOK.rules if rule.id == name)
    places = rule_in_museum(name, careless, rulebook=BOOK)
    broken = {place.name for place in places if place.followed is Followed.BROKEN}
    assert broken
    assert complaints[rule.code] == broken


def notes_of(decision: Decision) -> Iterator[tuple[str, str]]:
    yield from ((waiver.rule, waiver.because) for waiver in decision.waivers)
    yield from ((explained.rule, explained.because) for explained in decision.explained)


def test_every_waiver_and_explanation_is_found_under_its_rule(demo: Library) -> None:
    known = {rule.id for rule in BOOK.rules}
    written = {
        (entry.id, rule, because)
        for entry in demo.decisions
        if entry.value
        for rule, because in notes_of(entry.value)
        if rule in known
    }
    assert written
    told = {
        (place.name, rule, place.because.split(": ", 1)[-1])
        for rule in {row[1] for row in written}
        for place in rule_in_museum(rule, demo, rulebook=BOOK)
        if place.followed in {Followed.WAIVED, Followed.EXPLAINED}
    }
    assert written == told


def test_a_replaced_decision_breaks_no_rule(careless: Library) -> None:
    over = {e.id for e in careless.decisions if e.value and e.value.state in OVER}
    broken = {
        place.name
        for place in rule_in_museum("removed-part-is-kept", careless, rulebook=BOOK)
        if place.followed is Followed.BROKEN
    }
    assert over
    assert set() == broken & over


def test_a_rule_that_nobody_knows_is_followed_nowhere(demo: Library) -> None:
    assert [] == list(rule_in_museum("no-such-rule", demo, rulebook=BOOK))
