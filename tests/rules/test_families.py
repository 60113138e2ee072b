"""The families of the rule book: every rule has one, and its code lies in its range.

The ranges and the number of families are the project's own plan; no text outside says them.
"""

from __future__ import annotations

import re
from itertools import pairwise

import pytest

from witnessmark.rules.families import BY_ID, FAMILIES, Family
from witnessmark.rules.rule import Rule
from witnessmark.rules.rulebook_check import load_shipped

RULES = [pytest.param(rule, id=rule.id) for rule in load_shipped().rules]
ALL = [pytest.param(family, id=family.id) for family in FAMILIES]


@pytest.mark.parametrize("rule", RULES)
def test_the_family_of_every_rule_exists_and_holds_its_code(rule: Rule) -> None:
    assert BY_ID[rule.family].holds(rule.code)


def test_the_ranges_follow_one_another_without_gap_or_overlap() -> None:
    assert (101, 200) == (FAMILIES[0].codes.start, FAMILIES[-1].codes.stop)
    assert all(one.codes.stop == other.codes.start for one, other in pairwise(FAMILIES))


def test_there_are_eleven_families_each_with_a_name_of_its_own() -> None:
    assert (11, 11, 11) == (len(FAMILIES), len(BY_ID), len({f.title for f in FAMILIES}))


@pytest.mark.parametrize("family", ALL)
def test_every_family_is_introduced_in_two_or_three_sentences(family: Family) -> None:
    assert len(re.findall(r"[^.]+\.(?: |$)", family.introduction)) in (2, 3)
    assert "  " not in family.introduction


@pytest.mark.parametrize("family", ALL)
def test_no_family_stands_empty(family: Family) -> None:
    assert [rule.id for rule in load_shipped().rules if rule.family == family.id]


@pytest.mark.parametrize("code", ["WM110", "WM100", "WM", "WM10x", "110"])
def test_a_code_outside_the_range_is_not_held(code: str) -> None:
    assert not BY_ID["significance-and-evidence"].holds(code)
