"""Slips that can be put right in one way only, and those that are left to a person."""

from __future__ import annotations

import difflib
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import BaseModel

from building import BASE, DECISION, FINDINGS, POLICY, STORES
from witnessmark.model.build import Plain
from witnessmark.model.corrections import corrections
from witnessmark.model.day_spellings import Order, day_readings
from witnessmark.model.decimal_commas import with_points
from witnessmark.model.decision import Decision
from witnessmark.model.edits import Edit, applied, is_same
from witnessmark.model.findings import Findings
from witnessmark.model.policy import Policy
from witnessmark.model.source import Document, read
from witnessmark.model.spelling import clear_winner
from witnessmark.model.stores import Stores

MODELS: dict[str, type[BaseModel]] = {
    DECISION: Decision, FINDINGS: Findings, POLICY: Policy, STORES: Stores,
}  # fmt: skip


def document(before: str, after: str, *, file: str = DECISION) -> Document:
    text = BASE[file]
    assert before in text
    return read(file, text.replace(before, after, 1).encode())


def mended(found: Document, *, file: str = DECISION, blanks: bool = False) -> Document:
    last = found
    for correction in corrections(found, MODELS[file], blanks=blanks):
        last = correction.document
    return last


def changed_lines(before: str, after: str, *, file: str = DECISION) -> list[str]:
    """The lines that a mend takes out and puts in."""
    slipped = document(before, after, file=file)
    after_lines = mended(slipped, file=file).text.splitlines()
    rows = difflib.unified_diff(slipped.text.splitlines(), after_lines, n=0, lineterm="")
    return [row for row in rows if row[0] in "-+"][2:]


ONE_LINE = [
    ("state: for-review", "stat: for-review", "state: for-review"),
    ("state: for-review", "state: for-reveiw", "state: for-review"),
    ("misses_aim: It", "mises_aim: It", "    misses_aim: It lifts nothing."),
    ("opened: 2024-02-11", "opened: 11 Feb 2024", "opened: 2024-02-11"),
    ("opened: 2024-02-11", "opened: February 11th, 2024", "opened: 2024-02-11"),
    ("opened: 2024-02-11", "opened: 2024/2/11", "opened: 2024-02-11"),
    ("opened: 2024-02-11", "opened: 20240211", "opened: 2024-02-11"),
    ("opened: 2024-02-11", "opened: 13.2.2024", "opened: 2024-02-13"),
    ("as it is\n", "as it is\n    temporary: no\n", "    temporary: false"),
    (
        "because: It turns but it knocks}", "because: It turns, but it knocks, alas}",
        '      use: {likely: 3, because: "It turns, but it knocks, alas"}',
    ),
    (
        "because: It turns but it knocks}", "because: It turns: but, it knocks}",
        '      use: {likely: 3, because: "It turns: but, it knocks"}',
    ),
    (
        "because: It turns but it knocks}", "because: It turns #2 but}",
        '      use: {likely: 3, because: "It turns #2 but"}',
    ),
    (
        "{bore: 65.74 ± 0.01 mm,", "{bore: 65,74 ± 0,01 mm,",
        "    given: {bore: 65.74 ± 0.01 mm, journal: 65.00 ± 0.01 mm, limit: 0.50 mm}",
    ),
    ("likely: 3,", 'likely: "3",', "      use: {likely: 3, because: It turns but it knocks}"),
    (
        "title: Leave the bush as it is", "title: Leave: the bush  # for now",
        '    title: "Leave: the bush"  # for now',
    ),
]  # fmt: skip


@pytest.mark.parametrize(("before", "after", "line"), ONE_LINE)
def test_one_slip_changes_one_line(before: str, after: str, line: str) -> None:
    taken, put = changed_lines(before, after)
    assert ("-", f"+{line}") == (taken[0], put)


@pytest.mark.parametrize("word", ["yes", "No", "012", "off"])
def test_a_word_that_readers_take_differently_is_put_in_quotes(word: str) -> None:
    _, put = changed_lines("marked: 2024 on the end", f"marked: {word}")
    assert put.endswith(f'marked: "{word}"}}')


@pytest.mark.parametrize("text", ["Leave: the bush", "Leave the bush #2 now", "@home", "% of wear"])
def test_prose_that_yaml_breaks_becomes_a_block(text: str) -> None:
    rows = changed_lines("title: Leave the bush as it is", f"title: {text}")
    assert [f"-    title: {text}", "+    title: >-", f"+      {text}"] == rows


def test_all_of_a_text_is_kept_where_two_things_break_it() -> None:
    rows = changed_lines("title: Leave the bush as it is", "title: Leave: the bush #2 as it is")
    assert "+      Leave: the bush #2 as it is" == rows[-1]


def test_tabs_become_spaces_where_every_width_is_read_alike() -> None:
    slipped = document("  option: rebush\n  because: The", "\toption: rebush\n\tbecause: The")
    text = slipped.text.replace("\n  gives", "\n\tgives").replace("\n  would", "\n\twould")
    found = mended(read(DECISION, text.replace("\n  dissent", "\n\tdissent").encode()))
    assert BASE[DECISION] == found.text


def test_an_invisible_space_becomes_an_ordinary_one() -> None:
    found = mended(document("\n  option: rebush", "\n\u00a0\u00a0option: rebush"))
    assert BASE[DECISION] == found.text


def test_a_decimal_comma_becomes_a_point() -> None:
    after = 'running: {authenticity: "0,35", safety: 0.40, reversibility: 0.25}'
    before = "running: {authenticity: 0.35, safety: 0.40, reversibility: 0.25}"
    assert BASE[POLICY] == mended(document(before, after, file=POLICY), file=POLICY).text


def test_a_count_with_a_nought_before_it_is_the_number() -> None:
    assert BASE[STORES] == mended(document("count: 3", "count: 03", file=STORES), file=STORES).text


LEFT = [
    ("opened: 2024-02-11", "opened: 11/02/2024"),  # day or month first
    ("opened: 2024-02-11", "opened: 11.2.24"),  # which century
    ("opened: 2024-02-11", "opened: 2024-02-30"),  # no such day
    ("state: for-review", "state: no"),
    ("state: for-review", "state: ready"),
    ("likely: 3,", "likely: 7,"),
    ("title: Leave the bush as it is", 'title: "Leave" the bush'),
    ("state: for-review", "state: for-review\nstat: draft"),  # the field is there already
]


@pytest.mark.parametrize(("before", "after"), LEFT)
def test_what_can_be_read_in_two_ways_is_left_to_a_person(before: str, after: str) -> None:
    slipped = document(before, after)
    assert slipped.text == mended(slipped).text


@pytest.mark.parametrize("number", ["1,250 mm", "12,500 mm", "1,250,000"])
def test_a_comma_that_may_part_thousands_is_left(number: str) -> None:
    assert None is with_points(number)


def test_a_missing_field_is_added_blank_with_what_it_means_where_that_is_asked_for() -> None:
    question = next(row for row in BASE[DECISION].splitlines() if row.startswith("question:"))
    slipped = document(f"{question}\n", "")
    assert slipped.text == mended(slipped).text
    found = mended(slipped, blanks=True).text
    assert found.startswith(slipped.text)
    rows = found.removeprefix(slipped.text).splitlines()
    assert ("# Public. What was asked", "question:") == (rows[0][:24], rows[-1])


def test_a_missing_field_inside_a_group_stands_at_its_end() -> None:
    slipped = document("  gives_up: The old bush leaves the winch\n", "")
    rows = mended(slipped, blanks=True).text.splitlines()
    assert "  gives_up:" == rows[rows.index("losses: none") - 1]


def test_comments_and_line_ends_stay() -> None:
    text = BASE[DECISION].replace("opened: 2024-02-11", "opened: 11 Feb 2024   # by post")
    found = mended(read(DECISION, text.replace("\n", "\r\n").encode()))
    expected = text.replace("11 Feb 2024", "2024-02-11").replace("\n", "\r\n")
    assert expected == found.text


def test_a_sound_record_is_left_as_it_is() -> None:
    assert [] == list(corrections(read(DECISION, BASE[DECISION].encode()), Decision, blanks=True))


def test_an_edit_that_says_more_than_it_should_is_refused() -> None:
    slipped = read("r.yml", b"a: one\nb: two\n")
    data: Plain = {"a": "three", "b": "two"}
    assert None is applied(slipped, Edit(3, 6, "three\nc: 4", data))
    assert None is not applied(slipped, Edit(3, 6, "three", data))


def test_true_is_not_one_and_the_order_of_fields_counts() -> None:
    assert not is_same({"a": True}, {"a": 1})
    assert not is_same({"a": 1, "b": 2}, {"b": 2, "a": 1})


@given(st.dates(min_value=date(1000, 1, 1)))
def test_a_day_spelt_out_is_read_as_that_day(day: date) -> None:
    written = [f"{day:%d %B %Y}", f"{day:%B %d, %Y}", f"{day:%Y/%m/%d}", f"{day:%Y%m%d}"]
    assert [{day}] * 4 == [set(day_readings(text)) for text in written]


@given(st.dates(min_value=date(1000, 1, 1)))
def test_of_two_numbers_before_a_year_either_is_the_day_unless_the_house_settled_it(
    day: date,
) -> None:
    written = f"{day.day}/{day.month}/{day:%Y}"
    assert day in day_readings(written)
    assert {day} == day_readings(written, order=Order.DAY_FIRST)


@pytest.mark.parametrize(
    ("word", "expected"), [("atc", "act"), ("stpo", "stop"), ("wach", "watch"), ("note", None)]
)
def test_a_word_one_slip_away_is_meant(word: str, expected: str | None) -> None:
    assert expected == clear_winner(word, ["watch", "act", "stop"])
