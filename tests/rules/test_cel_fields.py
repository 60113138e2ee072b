"""The static check: what an expression says that no record could answer is told before it runs."""

from __future__ import annotations

from enum import StrEnum
from typing import Any, Literal, NotRequired, TypedDict

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from witnessmark.rules import cel
from witnessmark.rules.cel_fields import FieldFault, check_fields
from witnessmark.rules.cel_shapes import shape_of


class Fate(StrEnum):
    STORED = "stored"
    LOST = "lost"


class Part(TypedDict):
    id: str
    mass: float | None
    drawing: NotRequired[str]


class Step(TypedDict):
    do: Literal["remove", "fit-new"]
    fate: Fate | None
    count: int
    part: Part


class Option(TypedDict):
    id: str
    index: int
    chosen: bool
    way_back: str | None
    steps: list[Step]
    scores: dict[str, float]
    extra: Any


class Machine(TypedDict, total=False):
    name: str
    built: int


class Near(TypedDict):
    ab: int
    ad: int


VARIABLES: dict[str, type] = {"option": Option, "machine": Machine}


def faults(expression: str) -> list[FieldFault]:
    return check_fields(expression, variables=VARIABLES)


SOUND = [
    "option.chosen",
    "option.steps.all(s, s.do == 'remove' || s.count > 0)",
    "option.steps.exists(s, s.fate == 'lost' && s.part.id != '')",
    "option.steps.all(s, s.part.mass == null || s.part.mass > 2.0)",
    "option.steps.all(s, s.part.mass != null && s.part.mass > 2)",
    "option.steps.all(s, !(s.part.mass == null) && s.part.mass > 2)",
    "option.steps.all(s, s.part.mass != null ? s.part.mass > 2 : true)",
    "option.way_back != null && option.way_back.trim().size() > 10",
    "!(option.way_back == null || option.chosen) && option.way_back.size() > 1",
    "(option.way_back == null ? '' : option.way_back) != ''",
    "option.way_back == 'press out' && option.way_back.contains('out')",
    "option.steps.all(s, has(s.part.drawing) && s.part.drawing != '')",
    "'safety' in option.scores && option.scores.safety >= 2",
    "'safety' in option.scores && option.scores['safety'] >= 2.0",
    "option.scores.all(c, c in option.scores && option.scores[c] > 0.0)",
    "has(machine.built) && machine.built < 1950",
    "!has(machine.name) || machine.name != ''",
    "option.steps.map(s, s.part.id).distinct().size() == option.steps.size()",
    "option.steps.filter(s, s.do in ['remove']).map(s, s.count * 2).exists(c, c > 1)",
    "option.extra.anything.at.all == 'x'",
    "[[1], [2]].flatten().exists(n, n == option.index)",
    "double(option.index) * 1.5 > 1.0",
    "option.id + '-' + string(option.index) != ''",
    "option.steps.size() > 0 && option.steps[0].count == 1",
]


@pytest.mark.parametrize("expression", SOUND)
def test_a_sound_expression_has_no_fault_and_compiles(expression: str) -> None:
    assert faults(expression) == []
    for engine in (cel.first_engine(), cel.second_engine()):
        assert expression == cel.compile(expression, engine=engine).source


WRONG = [
    ("option.stepz.size() > 0", 8, "option has no field stepz; did you mean steps?"),
    ("option.steps.all(s, s.cuont > 1)", 23, "s has no field cuont; did you mean count?"),
    ("option.steps.all(s, s.part.mas == null)", 28, "did you mean mass?"),
    ("opton.chosen", 1, "there is nothing called opton here; did you mean option?"),
    ("option.qqq == 1", 8, "known are chosen, extra, id"),
    ("s.count == 1 || option.steps.exists(s, s.count == 1)", 1, "nothing called s here"),
    ("has(option.stepz)", 12, "did you mean steps?"),
    ("has(option.steps)", 12, "always there, so has() is always true"),
    ("option.steps.exists(s, s.do == 'remov')", 32, "never 'remov'; did you mean remove?"),
    ("option.steps.exists(s, 'remov' == s.do)", 24, "never 'remov'; did you mean remove?"),
    ("option.steps.exists(s, s.do in ['remove', 'fit'])", 43, "never 'fit'"),
    ("option.steps.exists(s, s.fate == 'scrapped')", 34, "s.fate is never 'scrapped'"),
    ("option.id == null", 1, "never null"),
    ("option.steps.all(s, s.part.mass > 1.0)", 21, "may be null here; ask s.part.mass != null"),
    ("option.way_back.size() > 1", 1, "may be null"),
    ("option.way_back == null && option.way_back.size() > 1", 28, "may be null"),
    ("option.way_back != null || option.way_back.size() > 1", 28, "may be null"),
    (
        "(option.way_back != null || option.chosen) && option.way_back.size() > 1",
        47,
        "may be null",
    ),
    (
        "!(option.way_back == null && option.chosen) && option.way_back.size() > 1",
        48,
        "may be null",
    ),
    ("option.steps.all(s, s.part.drawing != '')", 28, "may be missing; ask has(s.part.drawing)"),
    ("machine.built < 1950", 9, "may be missing"),
    ("option.scores['safety'] > 1.0", 1, "may hold nothing under 'safety'"),
    ("option.scores.safety > 1.0", 1, "may hold nothing under 'safety'"),
    ("'undo' in option.scores && option.scores.safety > 1.0", 28, "may hold nothing"),
    ("option.index == '1'", 1, "a whole number and '1' is a text"),
    ("option.index == 1.0", 1, "write the whole number with .0"),
    ("option.index < 'a'", 1, "cannot be compared"),
    ("option.chosen < true", 1, "must be a whole number or a decimal or a text"),
    ("option.index * 1.5 > 1.0", 1, "CEL does not join them by *"),
    ("option.id - 'a' == ''", 1, "what - joins must be"),
    ("option.id in 'rebush'", 14, "after `in` must be a list or a map"),
    ("1 in ['a']", 1, "cannot be compared"),
    ("option.index in option.scores", 1, "cannot be compared"),
    ("option.steps.exists(option, true)", 21, "already names something here"),
    ("option.id.exists(c, true)", 1, "must be a list or a map"),
    ("option.steps.exists(s, s.count)", 24, "the condition of exists() must be true or false"),
    ("option.id.contains(1)", 20, "what contains() takes must be a text"),
    ("option.steps.join(',') == ''", 1, "join() takes a list of texts"),
    ("option.steps.flatten().size() > 0", 1, "flatten() takes a list of lists"),
    ("string(2.5) == '2.5'", 8, "what string() takes must be"),
    ("option.steps[option.id].count == 1", 14, "the index of a list must be a whole number"),
    ("option.id.size.x == 1", 1, "a field is taken from must be a record or a map"),
    ("[1, 'a'].size() > 0", 5, "is a text among"),
    ("(option.chosen ? 1 : 'a') == 1", 2, "both answers must be of one kind"),
    ("!option.id", 2, "what ! turns round must be true or false"),
    ("option.chosen && option.id", 18, "a term of && must be true or false"),
    ("option.id ==", 13, "the end stands where a value should"),
]


@pytest.mark.parametrize(("expression", "column", "words"), WRONG)
def test_what_no_record_can_answer_is_told_at_its_column(
    expression: str, column: int, words: str
) -> None:
    first = faults(expression)[0]
    assert (column, True) == (first.column, words in first.message), first


@pytest.mark.parametrize(
    "expression", ["option.id", "option.index", "option", "option.steps", "null", "option.way_back"]
)
def test_a_condition_must_give_true_or_false(expression: str) -> None:
    assert "the answer must be true or false" in faults(expression)[0].message


@pytest.mark.parametrize(
    ("expression", "column"),
    [("option.nope > 1 || true", 8), ("option.steps.exists(s, s.nope == 1 || s.count >= 0)", 26)],
)
def test_a_field_whose_error_the_logic_of_cel_would_absorb_is_caught(
    expression: str, column: int
) -> None:
    # cel-spec, langdef, "Logical Operators": an error beside a term that decides is no error.
    record = {"option": {"steps": [{"count": 1}]}}
    assert cel.compile(expression).decide(cel.bind(record))
    assert [column] == [fault.column for fault in faults(expression)]


def test_every_fault_of_an_expression_is_told() -> None:
    found = faults("option.idd == '' && option.indx == 1")
    assert [fault.column for fault in found] == [8, 28]


def test_one_slip_is_told_once() -> None:
    assert len(faults("option.stepz.filter(s, s.cuont > 1).map(s, s.do).size() > 0")) == 1


def test_two_names_equally_near_suggest_neither() -> None:
    found = check_fields("r.ac == 1", variables={"r": Near})
    assert found[0].message == "r has no field ac; known are ab, ad"


@pytest.mark.parametrize(
    "annotation", [int | str, tuple[int, ...], dict[int, str], Literal[1], set]
)
def test_a_type_no_record_can_have_is_our_own_mistake(annotation: object) -> None:
    with pytest.raises(TypeError):
        shape_of(annotation)


record_texts = st.sampled_from(["stored", "lost"])
records = st.fixed_dictionaries(
    {
        "id": st.text(max_size=3),
        "index": st.integers(0, 5),
        "chosen": st.booleans(),
        "way_back": st.none() | st.text(max_size=3),
        "steps": st.lists(
            st.fixed_dictionaries(
                {
                    "do": st.sampled_from(["remove", "fit-new"]),
                    "fate": st.none() | record_texts,
                    "count": st.integers(0, 3),
                    "part": st.fixed_dictionaries(
                        {"id": st.text(max_size=3), "mass": st.none() | st.floats(0, 9)},
                        optional={"drawing": st.text(max_size=3)},
                    ),
                }
            ),
            max_size=3,
        ),
        "scores": st.dictionaries(st.sampled_from(["safety", "undo"]), st.floats(0, 4)),
        "extra": st.just({"anything": {"at": {"all": "x"}}}),
    }
)
machines = st.fixed_dictionaries(
    {}, optional={"name": st.text(max_size=3), "built": st.integers(1900, 1999)}
)


@settings(max_examples=80, deadline=None)
@given(option=records, machine=machines)
def test_no_sound_expression_fails_on_any_record_of_the_shape(
    option: dict[str, object], machine: dict[str, object]
) -> None:
    bound = cel.bind({"option": option, "machine": machine})
    answers = {type(cel.compile(expression).decide(bound)) for expression in SOUND}
    assert {bool} == answers
