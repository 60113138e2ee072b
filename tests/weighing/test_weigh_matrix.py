"""Bare numbers in, figures out: the JSON contract, and what it says to a file it cannot weigh."""

from __future__ import annotations

import json
import subprocess
import sys
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from witnessmark.errors import WitnessmarkError
from witnessmark.weighing import MOST_OPTIONS, read_matrix, weigh_matrix, weighing_figures

# Made for this project and worked by hand in exact fractions (see test_fixed_weights.py).
FOUR = """{
  "options": {
    "rebush": [3, 3, 2],
    "rolling": {"authenticity": 1, "safety": {"likely": 4}, "reversibility": "1"},
    "shim": [3.0, 2, "6/2"],
    "keep": {"authenticity": {"low": 4, "likely": 4, "high": 4}, "safety": 1, "reversibility": 3}
  },
  "weights": {"authenticity": 0.35, "safety": 0.40, "reversibility": "1/4"},
  "ranges": {"authenticity": [0.2, 0.5], "safety": ["3/10", 0.6], "reversibility": [1e-1, 0.4]}
}"""


def figures(text: str) -> dict[str, Any]:
    return weighing_figures(weigh_matrix(text))


def written(**keys: object) -> str:
    return json.dumps({"options": {"a": [4, 1, 1], "b": [0, 3, 3]}, **keys})


def test_the_figures_have_exactly_the_promised_keys() -> None:
    expected = ["winner", "verdict", "options", "stability", "flips"]
    assert expected == list(figures(FOUR))


def test_each_option_has_exactly_the_promised_keys() -> None:
    expected = [
        "value",
        "standing",
        "dominated_by",
        "tied_with",
        "share_all",
        "share_policy",
        "central_weights",
        "chance_best",
        "regret",
        "ranks",
        "nearest",
    ]
    assert expected == list(figures(FOUR)["options"]["keep"])


def test_every_way_of_writing_a_number_is_read_exactly() -> None:
    expected = {
        "value": "51/20",
        "standing": "supported",
        "dominated_by": [],
        "tied_with": [],
        "share_all": "4/9",
        "share_policy": "11/117",
        "central_weights": {
            "authenticity": "202/495",
            "safety": "313/990",
            "reversibility": "91/330",
        },
        "chance_best": "0",
        "regret": "4/5",
        "ranks": ["4/9", "1/6", "4/45", "3/10"],
        "nearest": {
            "moved": "1/15",
            "weights": {"authenticity": "23/60", "safety": "1/3", "reversibility": "17/60"},
        },
    }
    assert expected == figures(FOUR)["options"]["keep"]


def test_the_winner_and_verdict_stand_at_the_top() -> None:
    found = figures(FOUR)
    expected = (["rebush"], "holds")
    assert expected == (found["winner"], found["verdict"])


def test_the_interval_of_each_weight_stands_at_the_top() -> None:
    found = figures(FOUR)
    expected = {
        "authenticity": ["3/29", "11/24"],
        "safety": ["1/3", "19/31"],
        "reversibility": ["0", "8/23"],
    }
    assert expected == found["stability"]


def test_a_flip_says_which_score_from_and_to() -> None:
    weights = {"authenticity": 0.5, "safety": 0.25, "reversibility": 0.25}
    expected = [
        {"option": "a", "criterion": "authenticity", "from": "4", "to": "1"},
        {"option": "b", "criterion": "authenticity", "from": "0", "to": "3"},
    ]
    assert expected == figures(written(weights=weights))["flips"]


def test_figures_that_need_weights_are_null_without_them() -> None:
    found = figures(written())
    top = [found[key] for key in ("winner", "verdict", "stability", "flips")]
    option = found["options"]["a"]
    inner = [option[key] for key in ("value", "chance_best", "nearest", "share_policy", "regret")]
    expected = [None] * 9
    assert expected == top + inner


def test_figures_that_need_no_weights_stand_without_them() -> None:
    option = figures(written())["options"]["a"]
    expected = (
        "4/9",
        ["4/9", "5/9"],
        {"authenticity": "5/9", "safety": "2/9", "reversibility": "2/9"},
    )
    assert expected == (option["share_all"], option["ranks"], option["central_weights"])


def test_options_below_a_floor_cannot_win() -> None:
    found = figures(written(weights=[0.5, 0.25, 0.25], floors={"safety": 2}))
    expected = (["b"], "only-one-left")
    assert expected == (found["winner"], found["verdict"])


def test_an_option_below_a_floor_shows_its_value_and_joins_no_figure() -> None:
    found = figures(written(weights=[0.5, 0.25, 0.25], floors={"safety": 2}))
    aside = found["options"]["a"]
    expected = ("set-aside", "5/2", None, None)
    assert expected == (
        aside["standing"],
        aside["value"],
        aside["share_all"],
        aside["ranks"],
    )


def test_a_reason_given_and_a_floor_missed_are_both_told() -> None:
    matrix = read_matrix(written(set_aside={"a": "by law"}, floors={"safety": 2}))
    expected = {"a": "by law; its safety of 1 is below the floor of 2"}
    assert expected == matrix.set_aside


def test_the_figures_are_plain_json() -> None:
    found = figures(FOUR)
    assert found == json.loads(json.dumps(found))


THIRDS = {"authenticity": "1/3", "safety": "1/3", "reversibility": "1/3"}
FAULTS = [
    ("", "not JSON: line 1, column 1"),
    ("\ufeff{}", "not JSON"),
    ('{"options": ', "not JSON: line 1"),
    ("[" * 100_000, "too deep to read"),
    ("[]", "a list of 0 stands where a group of keys belongs"),
    ("null", "null stands where"),
    ("true", "true stands where"),
    ("3", "3 stands where"),
    ("{}", "options: null stands where"),
    ('{"options": {}}', "options: there are 0"),
    ('{"options": []}', "options: a list of 0"),
    ('{"options": {"a": [1, 2, NaN]}}', "NaN is not a number"),
    ('{"options": {"a": [1, 2, -Infinity]}}', "-Infinity is not a number"),
    ('{"options": {"a": [1, 2]}}', 'options, "a": a list of 2 does not say one thing'),
    ('{"options": {"a": 3}}', 'options, "a": 3 does not say one thing'),
    ('{"options": {"a": "abc"}}', 'options, "a": "abc" does not say one thing'),
    ('{"options": {"a": [1, 2, 5]}}', "reversibility: The score 5 is off the scale"),
    ('{"options": {"a": [-1, 2, 3]}}', "authenticity: The score -1 is off the scale"),
    ('{"options": {"a": [1, 2, true]}}', "reversibility: true is not a number"),
    ('{"options": {"a": [1, 2, null]}}', "reversibility: null is not a number"),
    ('{"options": {"a": [1, 2, [3]]}}', "reversibility: a list of 1 is not a number"),
    ('{"options": {"a": [1, 2, "1/0"]}}', '"1/0" is not a number'),
    ('{"options": {"a": [1, 2, "1_0"]}}', '"1_0" is not a number'),
    ('{"options": {"a": [1, 2, "٣"]}}', "is not a number"),
    ('{"options": {"a": [1, 2, 1e999999999]}}', "1e999999999 is not a number"),
    ('{"options": {"a": [1, 2, ' + "9" * 5000 + "]}}", "is not a number"),
    ('{"options": {"a": [1, 2, 3], "a": [1, 2, 3]}}', 'The key "a" stands twice'),
    ('{"options": {"": [1, 2, 3]}}', "cannot be used as a name"),
    ('{"options": {"\\ud800": [1, 2, 3]}}', "cannot be used as a name"),
    ('{"options": {"a\\u0000": [1, 2, 3]}}', "cannot be used as a name"),
    ('{"options": {"a": {"authenticity": 1, "safety": 2}}}', "reversibility missing"),
    ('{"options": {"a": {"authenticity": 1, "saftey": 2}}}', '"saftey" is not known here'),
    ('{"options": {"a": [1, 2, {"low": 1}]}}', "likely is missing"),
    ('{"options": {"a": [1, 2, {"likely": 1, "most": 2}]}}', '"most" is not known here'),
    ('{"options": {"a": [1, 2, {"low": 3, "likely": 1}]}}', "1 is not between 3 and 1"),
    (written(wieghts=THIRDS), '"wieghts" is not known here'),
    (written(weights=1), "weights: 1 does not say one thing"),
    (written(weights=[0.5, 0.5]), "weights: a list of 2"),
    (written(weights=[0.5, 0.5, 0.1]), "add up to 11/10, not to 1"),
    (written(weights=[1.5, -0.5, 0]), "weight of safety is -1/2, below 0"),
    (written(weights={"authenticity": 1}), "safety and reversibility missing"),
    (written(ranges=[[0, 1], [0, 1], 1]), "ranges, reversibility: 1 is not a range"),
    (written(ranges=[[0, 1], [0, 1], [0, 1, 2]]), "a list of 3 is not a range"),
    (written(ranges=[[0, 1], [0, 1], [0.5, 0.2]]), "reversibility runs from 1/2 to 1/5"),
    (written(ranges=[[0, 1], [0, 1], [0.5, 2]]), "reversibility runs from 1/2 to 2"),
    (written(ranges=[["1/2", 1], ["2/5", 1], ["1/5", 1]]), "the lows add up to 11/10"),
    (written(ranges=[[0, "1/5"]] * 3), "the highs to 3/5"),
    (written(floors=[2, 2, 2]), "floors: a list of 3"),
    (written(floors={"speed": 2}), '"speed" is not known here'),
    (written(floors={"safety": 5}), "floor of safety is 5, off the scale"),
    (written(floors={"safety": None}), "floors, safety: null is not a number"),
    (written(set_aside=["a"]), "set_aside: a list of 1"),
    (written(set_aside={"c": "why"}), '"c" is not known here'),
    (written(set_aside={"a": 5}), 'set_aside, "a": 5 is not a reason'),
    (written(set_aside={"a": " "}), 'set_aside, "a": " " is not a reason'),
    (
        json.dumps({"options": {f"o{n}": [1, 2, 3] for n in range(MOST_OPTIONS + 1)}}),
        f"options: there are {MOST_OPTIONS + 1}",
    ),
]


@pytest.mark.parametrize(("text", "message"), FAULTS)
def test_a_file_that_cannot_be_weighed_is_told_why(text: str, message: str) -> None:
    with pytest.raises(WitnessmarkError) as caught:
        weigh_matrix(text)
    assert message in caught.value.message


@pytest.mark.parametrize(("text", "_message"), FAULTS)
def test_every_fault_comes_with_a_remedy_and_no_blame(text: str, _message: str) -> None:
    with pytest.raises(WitnessmarkError) as caught:
        weigh_matrix(text)
    assert caught.value.remedy.endswith(".")
    assert "invalid" not in str(caught.value).lower()


ANYTHING = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-2, 5)
    | st.floats()
    | st.sampled_from(["1/3", "0.5", "authenticity", "", "x"]),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(
            st.sampled_from(
                ["authenticity", "safety", "reversibility", "low", "likely", "a", "b", ""]
            ),
            inner,
            max_size=4,
        )
    ),
    max_leaves=12,
)
FILES = st.fixed_dictionaries(
    {"options": ANYTHING},
    optional=dict.fromkeys(("weights", "ranges", "floors", "set_aside", "other"), ANYTHING),
)


def weighed_or_refused(text: str) -> bool:
    """Tell that a text is either weighed or refused in words; anything else escapes."""
    try:
        found = figures(text)
    except WitnessmarkError as fault:
        return bool(fault.message and fault.remedy)
    return set(found) == {"winner", "verdict", "options", "stability", "flips"}


@settings(deadline=None, max_examples=150)
@given(FILES | ANYTHING)
def test_no_json_whatever_ends_in_a_traceback(content: object) -> None:
    assert weighed_or_refused(json.dumps(content))


TRIPLES = st.lists(st.sampled_from([0, 1, 2, "1/2", 4, 0.5, {"likely": 3}]), min_size=3, max_size=3)


@settings(deadline=None, max_examples=100)
@given(
    st.dictionaries(st.sampled_from("abc"), TRIPLES, min_size=1),
    st.none() | st.sampled_from([[1, 0, 0], ["1/2", "1/2", 0], ["1/3"] * 3, [0.2, 0.3, 0.5]]),
    st.none() | st.lists(st.sampled_from([[0, 1], [0.5, 0.5], [0, 0]]), min_size=3, max_size=3),
    st.dictionaries(st.sampled_from(["safety", "authenticity"]), st.integers(0, 5)),
    st.dictionaries(st.sampled_from("abc"), st.just("why")),
)
def test_no_nearly_right_file_ends_in_a_traceback(
    options: object, weights: object, ranges: object, floors: object, set_aside: object
) -> None:
    content = {
        "options": options,
        "weights": weights,
        "ranges": ranges,
        "floors": floors,
        "set_aside": set_aside,
    }
    assert weighed_or_refused(json.dumps(content))


@settings(deadline=None, max_examples=100)
@given(st.text(max_size=40))
def test_no_text_whatever_ends_in_a_traceback(text: str) -> None:
    assert weighed_or_refused(text)


def test_weighing_needs_neither_yaml_nor_pydantic() -> None:
    code = (
        "import sys, witnessmark.weighing;"
        "print([name for name in ('yaml', 'pydantic', 'click') if name in sys.modules])"
    )
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    expected = "[]"
    assert expected == found.stdout.strip()
