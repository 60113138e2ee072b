"""Changing one place of a record leaves comments, order and layout as they are."""

from __future__ import annotations

import pytest

from witnessmark.errors import RefusedError
from witnessmark.model.source import Document, read
from witnessmark.model.surgery import with_block, with_item, with_scalar

RECORD = """\
# a note at the top
id: 2024-003   # the number
state: for-review
title: >-
  Why we kept
  the bolts
# about the end
look_again: {date: 2027-03-01}
"""


def _document(text: str) -> Document:
    return read("decisions/crane/2024-003.yml", text.encode())


def test_a_word_is_replaced_and_every_other_line_stays() -> None:
    changed = with_scalar(_document(RECORD), ("state",), "agreed")
    assert RECORD.replace("for-review", "agreed") == changed.text


def test_a_list_is_begun_at_the_end_when_there_is_none() -> None:
    changed = with_item(_document(RECORD), "agreed", "{role: collections, by: curator}")
    assert RECORD + "agreed:\n  - {role: collections, by: curator}\n" == changed.text


def test_a_member_is_added_after_the_last_with_the_same_indent() -> None:
    text = RECORD + "agreed:\n- {by: curator}  # first\n\npublish: true\n"
    changed = with_item(_document(text), "agreed", "{by: engineer}")
    expected = RECORD + "agreed:\n- {by: curator}  # first\n- {by: engineer}\n\npublish: true\n"
    assert expected == changed.text


def test_a_member_is_added_after_a_member_of_several_lines() -> None:
    text = "agreed:\n  - by: curator\n    role: collections\npublish: true\n"
    changed = with_item(_document(text), "agreed", "{by: engineer}")
    expected = (
        "agreed:\n  - by: curator\n    role: collections\n  - {by: engineer}\npublish: true\n"
    )
    assert expected == changed.text


def test_a_blank_list_is_begun_where_it_was_left_empty() -> None:
    changed = with_item(_document("agreed: []\nstate: draft\n"), "agreed", "{by: curator}")
    assert "state: draft\nagreed:\n  - {by: curator}\n" == changed.text


def test_a_list_in_one_line_is_refused_with_the_remedy() -> None:
    document = _document("agreed: [{by: curator}]\nstate: draft\n")
    with pytest.raises(RefusedError, match="one member a line"):
        with_item(document, "agreed", "{by: engineer}")


def test_a_block_is_written_anew_in_its_place() -> None:
    text = "reckoned:\n  winner: [a]\n  # old\nstate: draft\n"
    changed = with_block(_document(text), "reckoned", "reckoned:\n  winner: [b]\n")
    assert "reckoned:\n  winner: [b]\n  # old\nstate: draft\n" == changed.text


def test_a_change_that_would_reach_further_is_refused() -> None:
    with pytest.raises(RefusedError, match="change something else"):
        with_scalar(_document("state: draft\nid: a\n"), ("state",), "agreed\nid: b")


def test_a_file_without_a_last_line_end_is_changed_cleanly() -> None:
    changed = with_item(_document("state: draft"), "agreed", "{by: curator}")
    assert "state: draft\nagreed:\n  - {by: curator}\n" == changed.text


def test_a_member_of_several_lines_is_set_in_as_far_as_the_others() -> None:
    text = "findings:\n    - id: f-001\n      what: a\n# the end\n"
    changed = with_item(_document(text), "findings", "id: f-002\nwhat: >-\n  b\n\n  c")
    expected = (
        "findings:\n    - id: f-001\n      what: a\n"
        "    - id: f-002\n      what: >-\n        b\n\n        c\n# the end\n"
    )
    assert expected == changed.text


def test_a_file_keeps_its_line_endings() -> None:
    changed = with_item(_document("agreed:\r\n  - a\r\nstate: draft\r\n"), "agreed", "b")
    assert "agreed:\r\n  - a\r\n  - b\r\nstate: draft\r\n" == changed.text
