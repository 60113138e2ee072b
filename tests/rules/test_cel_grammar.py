"""The reader of CEL, against the grammar of its specification.

Source: github.com/google/cel-spec, doc/langdef.md, "Syntax".
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from witnessmark.rules import cel
from witnessmark.rules.cel_grammar import ExpressionFault, parse
from witnessmark.rules.cel_tree import Binary, Literal, Logic, Name, Select, free_names


def test_precedence_is_that_of_the_specification() -> None:
    # From loose to tight: || && comparison + * minus (langdef, "Syntax").
    assert parse("(a || (b && ((c + (d * (-e))) > f)))") == parse("a || b && c + d * -e > f")


@pytest.mark.parametrize(
    ("loose", "explicit"),
    [
        ("a - b - c", "(a - b) - c"),
        ("a / b * c", "(a / b) * c"),
        ("a ? b : c ? d : e", "a ? b : (c ? d : e)"),
        ("!a.b", "!(a.b)"),
        ("-a.b", "-(a.b)"),
        ("a.b[c].d", "((a.b)[c]).d"),
        ("!a == b", "(!a) == b"),
    ],
)
def test_operators_bind_from_the_side_the_specification_says(loose: str, explicit: str) -> None:
    assert parse(explicit) == parse(loose)


@pytest.mark.parametrize(
    ("source", "value"),
    [
        ("0x1F", 31),
        ("-9223372036854775808", -(2**63)),
        ("9223372036854775807", 2**63 - 1),
        ("1e3", 1000.0),
        (".5", 0.5),
        ("'it''s'", None),
        (r"'\u00e9\x41\101\n'", "éAA\n"),
        (r"r'a\d'", r"a\d"),
        ("'''a\nb'''", "a\nb"),
        ('"a\'b"', "a'b"),
        ("null", None),
    ],
)
def test_literals_mean_what_the_specification_says(source: str, value: object) -> None:
    if source == "'it''s'":  # two texts side by side are no expression in CEL
        with pytest.raises(ExpressionFault):
            parse(source)
        return
    tree = parse(source)
    assert isinstance(tree, Literal)
    assert (type(value), value) == (type(tree.value), tree.value)


def test_numbers_of_two_kinds_and_truths_are_different_literals() -> None:
    assert len({parse("1"), parse("1.0"), parse("true")}) == 3


def test_nodes_know_their_columns() -> None:
    tree = parse("a &&\n  b.c == 'x'")
    assert isinstance(tree, Logic)
    comparison = tree.terms[1]
    assert isinstance(comparison, Binary)
    assert isinstance(comparison.left, Select)
    assert (comparison.left.column, comparison.left.mark + 1) == (8, 10)


def test_a_word_of_the_language_may_be_a_field_and_not_a_variable() -> None:
    # langdef, "Syntax": SELECTOR excludes only the keywords, IDENT the reserved words too.
    assert Select(0, 0, Name(0, 0, "step"), "for", 0) == parse("step.for")
    with pytest.raises(ExpressionFault, match="for is a word of CEL itself"):
        parse("for")


def test_variables_a_macro_makes_are_not_free() -> None:
    tree = parse("a.all(x, x.b == c && d.exists(y, y == x))")
    assert frozenset({"a", "c", "d"}) == free_names(tree)


def test_a_variable_is_free_outside_the_macro_that_names_one_like_it() -> None:
    assert frozenset({"a", "x"}) == free_names(parse("a.all(x, x) && x"))


@pytest.mark.parametrize(
    ("source", "column", "words"),
    [
        ("", 1, "the end stands where a value should"),
        ("a b", 3, "join them with && or"),
        ("a.?b", 2, "not used in rules"),
        ("a < b < c", 7, "compare two things at a time"),
        ("1u", 1, "not a whole number or a decimal"),
        ("b'x'", 2, "follows a whole expression"),
        ("a // b", 3, "a comment would hide"),
        ("frobnicate(a)", 1, "not a function rules may call"),
        ("a.frobnicate()", 3, "not a function rules may call"),
        ("a.contains()", 3, "takes 1 values here and has 0"),
        ("a.all(x.y, true)", 8, "should follow the variable of all"),
        ("a.all(x)", 8, "should follow the variable of all"),
        ("a.map(x, x > 1, x)", 15, "should close map"),
        ("has(a)", 5, "has() asks about one field"),
        ("[1, 2,]", 7, "take the comma out"),
        ("{'a': 1", 8, "should close the map"),
        ("a ? b", 6, "should part the two answers"),
        ("9223372036854775808", 1, "too great"),
        ("1e999", 1, "too great"),
        (r"'\q'", 2, "not an escape"),
        (r"'\ud800'", 2, "names no character"),
        ("'a\nb'", 1, "not closed"),
        ("a == \ud800", 6, "U+D800"),
        ("a @ b", 3, "not known in an expression"),
        ("a.in", 3, "should follow the dot"),
        ("Step{do: 'x'}", 5, "follows a whole expression"),
        ("a" + ".b" * 40, 64, "nested more than 32 deep"),
        ("a" * 2001, 2001, "make two rules"),
    ],
)
def test_what_rules_leave_out_is_refused_at_its_place_saying_so(
    source: str, column: int, words: str
) -> None:
    with pytest.raises(ExpressionFault) as caught:
        parse(source)
    assert (column, True) == (caught.value.column, words in caught.value.message)


def test_many_terms_are_one_level() -> None:
    tree = parse(" && ".join(["a"] * 60))
    assert isinstance(tree, Logic)
    assert len(tree.terms) == 60


PIECES = (
    "a b.c .? ( ) [ ] { } , : ? ! - + * / % == != < <= && || in true null has( size( .all(x, .map("
    " 'q' 1 2.5 r' \" \\ \ud800 \n"
)
pieces = st.sampled_from(PIECES.split(" "))


@settings(max_examples=400, deadline=None)
@given(source=st.one_of(st.text(max_size=60), st.lists(pieces, max_size=25).map("".join)))
def test_no_text_makes_the_reader_raise_anything_but_its_own_fault(source: str) -> None:
    ends = (1, len(source) + 1)
    assert ends[0] <= column_of_outcome(source) <= ends[1]


def column_of_outcome(source: str) -> int:
    """Where the fault is, or where the tree starts."""
    try:
        return parse(source).column
    except ExpressionFault as fault:
        return fault.column


def joined(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    return st.one_of(
        st.tuples(inner, st.sampled_from(["&&", "||"]), inner).map(lambda t: f"({' '.join(t)})"),
        inner.map(lambda e: f"!({e})"),
        st.tuples(inner, inner).map(lambda t: f"[{t[0]}].exists(q, q == ({t[1]}))"),
        st.tuples(inner, inner, inner).map(lambda t: f"({t[0]} ? {t[1]} : {t[2]})"),
    )


truths = st.recursive(
    st.sampled_from(["true", "r.a", "r.n > 1", "r.t == 'x'", "'x' in r.l", "has(r.a)"]),
    joined,
    max_leaves=5,
)


@settings(max_examples=150, deadline=None)
@given(source=truths)
def test_what_we_read_both_engines_read_and_decide_alike(source: str) -> None:
    record = {"r": {"a": True, "n": 2, "t": "x", "l": ["x"]}}
    engines = (cel.first_engine(), cel.second_engine())
    answers = {
        cel.compile(source, engine=one).decide(cel.bind(record, engine=one)) for one in engines
    }
    assert len(answers) == 1
