"""Sentences with expressions in braces."""

from __future__ import annotations

from typing import TypedDict

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from witnessmark.rules import cel
from witnessmark.rules.cel_template import check_template, compile_template


class Part(TypedDict):
    name: str
    index: int
    mass: float
    kept: bool
    note: str | None
    labels: list[str]


PART = {
    "name": "upper {bush}",
    "index": 2,
    "mass": 3.0,
    "kept": True,
    "note": None,
    "labels": ["a", "b"],
}


def rendered(text: str) -> str:
    return compile_template(text).render(cel.bind({"part": PART}))


def said(text: str) -> list[tuple[int, str]]:
    return [(f.column, f.message) for f in check_template(text, variables={"part": Part})]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("nothing to fill", "nothing to fill"),
        ("{part.name} leaves", "upper {bush} leaves"),
        ("{part.index} of {part.mass} kg: {part.kept}", "2 of 3 kg: true"),
        ("{part.labels.join(' and ')}", "a and b"),
        ("a {{b}} {part.index}}}", "a {b} 2}"),
        ("{'}{'}", "}{"),
        ("{{'a': 1}}", "{'a': 1}"),
        ("{ {'a': part.index}['a'] }", "2"),
        ("{part.index}{part.index}", "22"),
    ],
)
def test_braces_are_filled_in_and_doubled_ones_stand(text: str, expected: str) -> None:
    assert expected == rendered(text)


@pytest.mark.parametrize(
    ("text", "column", "words"),
    [
        ("the {part.nmae} leaves", 11, "did you mean name?"),
        ("the {part.name} of {prt.index}", 21, "did you mean part?"),
        ("{part.note}", 2, "may be null here"),
        ("{part.labels}", 2, "a list, and the answer must be a text"),
        ("{part}", 2, "a record, and the answer must be a text"),
        ("a {part.name", 3, "not closed"),
        ("a } b", 3, "no opening one"),
        ("{}", 2, "the end stands where a value should"),
        ("{part.labels.exists(l, l.nope == 'a')}", 24, "must be a record or a map"),
    ],
)
def test_what_a_sentence_cannot_show_is_told_at_its_column(
    text: str, column: int, words: str
) -> None:
    found = said(text)
    assert [column] == [place for place, _ in found]
    assert words in found[0][1]


def test_a_step_of_a_path_that_is_a_whole_number_stays_one() -> None:
    bound = cel.bind({"part": PART})
    steps = [
        compile_template(text).step(bound) for text in ("parts", "{part.index}", "n{part.index}")
    ]
    assert steps == ["parts", 2, "n2"]


@settings(max_examples=150, deadline=None)
@given(words=st.text(alphabet=st.characters(codec="utf-8", exclude_characters="\0"), max_size=40))
def test_any_words_can_stand_in_a_sentence(words: str) -> None:
    doubled = words.replace("{", "{{").replace("}", "}}")
    assert words + "2" == rendered(doubled + "{part.index}")


@settings(max_examples=150, deadline=None)
@given(text=st.text(alphabet="{}'\"ab. \\", max_size=20))
def test_no_text_makes_the_check_of_a_template_raise(text: str) -> None:
    assert all(1 <= column <= len(text) + 1 for column, _ in said(text))
