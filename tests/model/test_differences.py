"""Differences are told by ids: order, layout and defaults count for nothing."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from building import BASE, DECISION, GONE, changed, decision_in, museum, plainly, written
from witnessmark.model.decision import Decision
from witnessmark.model.differences import differences, named, normal_form, settled
from witnessmark.model.word_difference import Stretch, shortened, word_difference

PLAIN = st.recursive(
    st.none() | st.booleans() | st.text(max_size=4),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=4), inner, max_size=3)
    ),
    max_leaves=12,
)  # fmt: skip


def _form(changes: dict[str, object], text: str = BASE[DECISION]) -> Any:
    return normal_form(decision_in(museum(also={DECISION: changed(text, changes)})))


def _paths(changes: dict[str, object]) -> list[str]:
    return [".".join(d.path) for d in differences(_form({}), _form(changes))]


@given(PLAIN)
def test_nothing_differs_from_itself(value: Any) -> None:
    assert [] == list(differences(settled(value), settled(value)))


@given(st.text(max_size=20), st.text(max_size=20))
def test_two_texts_differ_exactly_when_they_are_not_equal(one: str, other: str) -> None:
    found = list(differences({"a": one}, {"a": other}))
    assert (one != other) == bool(found)


@given(
    st.lists(st.sampled_from(["old", "new", "bush", "and"])), st.lists(st.text("ab", min_size=1))
)
def test_what_stayed_and_went_is_the_old_text_and_what_stayed_and_came_the_new(
    old: list[str], new: list[str]
) -> None:
    found = word_difference(" ".join(old), " ".join(new))
    before = " ".join(s.text for s in found if s.fate != Stretch.CAME)
    after = " ".join(s.text for s in found if s.fate != Stretch.WENT)
    assert (" ".join(old), " ".join(new)) == (before, after)


def test_a_long_unchanged_stretch_is_cut_around_the_change() -> None:
    words = " ".join(f"w{n}" for n in range(40))
    told = shortened(word_difference(f"{words} old", f"{words} new"))
    assert "\N{HORIZONTAL ELLIPSIS} w34 w35 w36 w37 w38 w39" == told[0].text


SAME: dict[str, dict[str, object]] = {
    "options in another order": {"options": list(reversed(plainly(BASE[DECISION])["options"]))},
    "hazards in another order": {"hazards": list(reversed(plainly(BASE[DECISION])["hazards"]))},
    "a default written out": {"publish": False},
    "part and parts": {"options.1.steps.0.part": GONE, "options.1.steps.0.parts": ["drum/bush"]},
    "label and labels": {"options.1.steps.0.label": GONE, "options.1.steps.0.labels": ["TB-0001"]},
    "a range that is no range": {"options.0.judged.use.low": 3, "options.0.judged.use.high": 3},
}


@pytest.mark.parametrize("case", SAME)
def test_another_way_of_writing_the_same_is_no_difference(case: str) -> None:
    assert [] == _paths(SAME[case])


OTHER: dict[str, tuple[dict[str, object], list[str]]] = {
    "an option by its id": ({"options.0.title": "No"}, ["options.leave.title"]),
    "a step by what it does": (
        {"options.1.steps.1.material": "steel"},
        ["options.rebush.steps.fit-new drum/bush.material"],
    ),
    "steps in another order": (
        {"options.1.steps": list(reversed(plainly(BASE[DECISION])["options"][1]["steps"]))},
        ["options.rebush.steps.order"],
    ),
    "a list of names": ({"about": ["drum/bush", "drum/shaft"]}, ["about"]),
    "an end of a range": ({"options.1.judged.technique.low": 2},
                          ["options.rebush.judged.technique.low"]),
    "a dissent in place of none": (
        {"choice.dissent": [{"who": "fitter", "what": "No", "answer": "Yes"}]},
        ["choice.dissent"],
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", OTHER)
def test_a_difference_is_named_by_ids(case: str) -> None:
    changes, expected = OTHER[case]
    assert expected == _paths(changes)


def test_like_members_are_told_apart_by_a_number() -> None:
    twice = [{"do": "heat", "parts": ["a/b"]}, {"do": "heat", "parts": ["a/b"]}]
    assert ["heat a/b", "heat a/b #2"] == list(named(twice, "steps"))


def test_every_field_of_a_decision_is_seen() -> None:
    """Whatever is added to the model later is compared without anybody thinking of it."""
    whole = plainly(BASE[DECISION])
    for name in sorted(Decision.model_fields):
        if name in whole:
            assert list(differences(settled(whole), settled({**whole, name: "another"})))


def test_the_layout_of_a_file_is_no_difference() -> None:
    text = written(plainly(BASE[DECISION]))
    assert BASE[DECISION] != text
    assert [] == list(differences(_form({}), _form({}, text)))
