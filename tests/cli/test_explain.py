"""A rule explained in a terminal, from the data its page is made of."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from calling import Record, call
from witnessmark.cli.explain_rule import render_rule
from witnessmark.rules.rule import CaseVerdict, Rule
from witnessmark.rules.rulebook_check import load_shipped

RULES = load_shipped().rules
OWN = """
own_rules:
  - id: machine-has-its-day
    code: WM901
    level: should
    title: The title of a decision starts with why
    why: A reader asks why first.
    family: our-own
    scope: decision
    sources: [{text: Our own judgement, standing: current, confidence: own-judgement}]
    holds: decision.title.startsWith("Why")
    message: The title does not start with why.
    remedy: Start the title with why.
    at: [title]
    cases:
      - {name: Why, verdict: passes, record: "title: Why we waited"}
      - {name: No why, verdict: faulted, record: "title: Waiting", lines: [1]}
"""


def flat(text: str) -> str:
    return re.sub(r"\s+", " ", text)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_a_rule_is_told_with_why_sources_cases_and_remedy(rule: Rule) -> None:
    told = flat("\n".join(render_rule(rule)))
    texts = [rule.title, rule.why, rule.remedy, rule.holds, *(s.cited for s in rule.sources)]
    texts += [case.name for case in rule.cases]
    assert [] == [text for text in texts if flat(text) not in told]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_the_lines_complained_of_and_no_others_are_marked(rule: Rule) -> None:
    lines = "\n".join(render_rule(rule)).splitlines()
    marked = [line.partition(" | ")[2] for line in lines if re.match(r"  > *\d+ \| ", line)]
    wanted = [
        case.record.splitlines()[number - 1]
        for case in rule.cases
        if case.verdict is CaseVerdict.FAULTED
        for number in sorted({*case.lines})
    ]
    assert wanted == marked


def test_a_faulted_case_says_what_the_check_would_say() -> None:
    told = flat(call("explain", "removed-part-is-kept").out)
    assert "says, of line 6: Lever bush is not kept, and it is not said why." in told


def test_with_a_museum_it_says_where_the_rule_was_waived_and_kept(demo: Path) -> None:
    told = flat(call("explain", "WM140", "--museum", str(demo)).out)
    assert "Waived (1 time) 2025-006, by trustee-for-machines until 2027-06-01: The lifting" in told
    assert re.search(r"Kept \(\d+\): .*2024-003", told)


def test_with_a_museum_it_says_where_the_rule_was_broken(demo: Path, bushes: Record) -> None:
    before = flat(call("explain", "WM132", "--museum", str(demo)).out)
    assert re.search(r"Kept \(\d+\): [^()]*2024-003", before)
    text = bushes.path.read_text(encoding="utf-8")
    bushes.path.write_text(re.sub(r", labels: \[[^\]]*\]", "", text), encoding="utf-8")
    after = flat(call("explain", "WM132", "--museum", str(demo)).out)
    assert re.search(r"Not kept, and no reason is written down \(\d+\): [^()]*2024-003", after)


def test_a_museums_own_rule_is_explained_with_its_museum(demo: Path) -> None:
    policy = max((demo / "policy").glob("*.yml"))
    text = policy.read_text(encoding="utf-8")
    if "own_rules:" not in text:
        policy.write_text(text.rstrip() + OWN, encoding="utf-8")
    called = call("explain", "WM901", "--museum", str(demo))
    assert (0, True) == (called.code, "In this museum" in called.out)
    assert 2 == call("explain", "machine-has-its-day").code


def test_without_a_museum_nothing_is_said_of_one() -> None:
    assert "In this museum" not in call("explain", "WM140").out


def test_a_folder_that_is_no_museum_is_refused_in_plain_words(tmp_path: Path) -> None:
    called = call("explain", "WM140", "--museum", str(tmp_path))
    assert (2, True) == (called.code, "No museum.yml" in called.err)
