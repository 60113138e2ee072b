"""Each sheet stands on other people's worked numbers, or says in words that none was found."""

from __future__ import annotations

import pytest

from calling import call
from witnessmark.worksheets import built_names, describe_sheet, find_sheet
from witnessmark.worksheets.declare import Example, Sheet, Standing

SHEETS = [find_sheet(name) for name in built_names()]
BY_NAME = pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
ENOUGH = 2
UNDER_TWO = {
    "galvanic-pair": 1,
    "tack-weld-break": 0,
    "wasted-fastener": 0,
    "wear-life": 1,
}


def published(sheet: Sheet) -> list[Example]:
    """The examples of others; what the project reckoned by hand is none."""
    return [
        example
        for example in sheet.examples
        if example.source.standing is not Standing.COMMON_PRACTICE
        and example.source.author != "the project"
    ]


@BY_NAME
def test_a_sheet_has_two_published_examples_or_says_that_none_was_found(sheet: Sheet) -> None:
    assert len(published(sheet)) == UNDER_TWO.get(sheet.id, len(published(sheet)))
    assert len(published(sheet)) >= ENOUGH or " found" in sheet.none_found


@BY_NAME
def test_what_was_not_found_is_told_with_the_sheet(sheet: Sheet) -> None:
    told = describe_sheet(sheet)
    assert (sheet.id in UNDER_TWO) is bool(told["none_found"])


@pytest.mark.parametrize("name", sorted(UNDER_TWO))
def test_what_was_not_found_is_shown_in_the_form(name: str) -> None:
    shown = " ".join(call("worksheet", "show", name).out.split())
    assert find_sheet(name).none_found in shown
