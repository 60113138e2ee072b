"""What is told of a rule at sight is what the engine says; what is not plain is left to it.

The oracle is the compiled CEL engine (cel-expr-python, a binding of the C++ implementation).
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.rules import cel
from witnessmark.rules.asking import Questions, breaches
from witnessmark.rules.cases import lay_over
from witnessmark.rules.cel_grammar import parse
from witnessmark.rules.cel_sight import NOT_KNOWN, at_sight
from witnessmark.rules.facts import Asking
from witnessmark.rules.rule import Rule
from witnessmark.rules.rulebook_check import load_shipped

RULES = load_shipped().rules


def askings(rule: Rule) -> list[Asking]:
    every = (a for case in rule.cases for a in lay_over(case.record, scope=rule.scope).askings)
    return [asking for asking in every if asking.scope is rule.scope]


def engine_says(expression: str, record: dict[str, object]) -> object:
    try:
        return cel.compile(expression).decide(cel.bind(record))
    except cel.RuleFault:
        return "no answer"


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_every_answer_at_sight_is_the_engines(rule: Rule) -> None:
    told = 0
    for asking in askings(rule):
        for expression in (rule.when, rule.holds):
            seen = at_sight(parse(expression))(asking.context)
            if seen is not NOT_KNOWN:
                assert engine_says(expression, dict(asking.context)) == seen
                told += 1
    assert told


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_asking_with_sight_finds_the_breaches_that_asking_without_it_finds(rule: Rule) -> None:
    asked = askings(rule)
    assert list(breaches(RULES, asked)) == list(Questions.of(RULES).breaches(asked))


PLAIN = [
    'r.word == "a"',
    'r.word != "a" && r.number > 1',
    'r.word in ["a", "b"] || r.flag',
    "!r.flag",
    "size(r.rows) > 1",
    'r.rows.exists(x, x.word == "a")',
    "r.rows.all(x, x.number <= 1 || x.flag)",
    "size(r.rows.filter(x, x.flag)) == 1",
    'r.rows.exists(x, r.rows.all(y, x.word <= y.word && y.word in ["a", ""]))',
    "r.rows.exists_one(x, x.flag)",
    "r.rows.exists_one(x, r.rows.exists(y, y.word == x.word))",
    "r.number != null && r.number >= 1",
    "r.word == null || null == r.flag",
    "r.flag == true",
    "r.word == r.number",
    "r.missing == 1 || r.flag",
    "r.missing && r.flag",
    "r.number > 0.5 || r.number == 1.0",
    "r.number + 1 > 1",
    "r.number - 2 < 0 || r.word + r.word == r.word",
    'r.word + "a" >= "aa"',
    "r.rows[0].flag == r.flag",
    "r.rows[1].number == r.rows[r.number].number",
    'r.word.split("-")[1] == "07" || size(r.word.split(" ")) >= 2',
    'int(r.word) == 7 || int(r.word.split("-")[1]) > 6',
    'string(r.number) == "1" || string(int(r.word)) == r.word',
    "size(r.rows.map(x, x.word).distinct()) >= 2",
    "r.rows.map(x, x.number)[0] == 1",
    "size(r.rows.map(x, x.flag).distinct()) == 1",
    "size(r.word) == 1",
]
NOT_PLAIN = ['r.word.matches("a")', "r.number * 2 > 1", "r.rows[3].flag", "double(r.number) > 0.5"]
VALUES = st.one_of(
    st.booleans(),
    st.none(),
    st.integers(-2, 2),
    st.sampled_from([2**63 - 1, -(2**63)]),
    st.sampled_from(["a", "b", "", "07", "+7", " 7", "7 ", "1e1", "x-07", "a b", "\u0667", "-"]),
    st.sampled_from([1.0, 0.0, -0.5]),
)
ROWS = st.lists(
    st.fixed_dictionaries({"word": VALUES, "number": VALUES, "flag": VALUES}), max_size=3
)

RECORDS = st.fixed_dictionaries({"word": VALUES, "number": VALUES, "flag": VALUES, "rows": ROWS})


@pytest.mark.parametrize("expression", PLAIN)
@given(
    record=st.fixed_dictionaries({"word": VALUES, "number": VALUES, "flag": VALUES, "rows": ROWS})
)
def test_values_of_any_kind_are_told_as_the_engine_tells_them(
    expression: str, record: dict[str, object]
) -> None:
    seen = at_sight(parse(expression))({"r": record})
    if seen is not NOT_KNOWN:
        assert engine_says(expression, {"r": record}) == seen


@pytest.mark.parametrize("expression", NOT_PLAIN)
def test_what_is_not_plain_is_left_to_the_engine(expression: str) -> None:
    record = {"word": "a", "number": 1, "rows": [{"flag": True}]}
    assert at_sight(parse(expression))({"r": record}) is NOT_KNOWN
