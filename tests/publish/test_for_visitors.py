"""What readers without any training stumbled over on decision pages, and no longer should."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache

import pytest

from rendered_site import AS_OF, DEMO, NO_RULES, demo, pages
from witnessmark.model.library import assemble
from witnessmark.publish import public_museum
from witnessmark.publish.alike import alike, only_judge
from witnessmark.publish.public_decision import PublicDecision
from witnessmark.repository.disk import read_museum

TAG = re.compile(r"<[^>]+>")
CELL = re.compile(r"(?:before|after): ([1-4][A-F])\b")


@cache
def decisions() -> dict[str, PublicDecision]:
    shown = public_museum(assemble(read_museum(DEMO)), NO_RULES, as_of=AS_OF)
    return {decision.id: decision for decision in shown.decisions}


@cache
def told(name: str) -> str:
    """The words of a decision's page, with single blanks between them."""
    page = pages(demo())[f"d/{name}/index.html"]
    return re.sub(r"\s+", " ", TAG.sub(" ", page)).replace(" ,", ",").replace(" .", ".")


@pytest.mark.parametrize("name", sorted(decisions()))
def test_a_cell_of_the_risk_table_stands_only_behind_its_words(name: str) -> None:
    [record] = DEMO.glob(f"*/{name}-*.yml")
    cells = set(CELL.findall(record.read_text(encoding="utf-8")))
    assert [] == [c for c in sorted(cells) if re.search(rf"(?<!\(){c}\b", told(name))]


@pytest.mark.parametrize("name", sorted(decisions()))
def test_what_is_left_of_rubber_and_wood_is_not_called_metal(name: str) -> None:
    assert "riginal metal" not in told(name)


def test_what_all_options_share_is_said_once() -> None:
    options = decisions()["2024-003"].options
    said = {
        options[0].aspects[place].aspect.value: [one.letters for one in alike(options, place)]
        for place in range(6)
    }
    assert (["All"], ["A, B and C", "D", "E", "F"]) == (said["setting"], said["form"])


@pytest.mark.parametrize("name", sorted(decisions()))
def test_no_option_is_left_out_where_like_ones_are_said_once(name: str) -> None:
    options = decisions()[name].options
    for place in range(6):
        letters = Counter(
            letter
            for one in alike(options, place)
            for letter in (
                [o.letter for o in options]
                if one.letters == "All"
                else re.findall(r"\b[A-Z]\b", one.letters)
            )
        )
        assert Counter(option.letter for option in options) == letters


def test_one_who_judged_everything_is_named_once() -> None:
    judge = only_judge(decisions()["2024-003"].options)
    assert (judge, 1) == ("the curator of machines", told("2024-003").count("was judged by"))


def test_some_of_many_parts_become_what_they_become() -> None:
    assert "12 of the track shoes become worn by the road." in told("2024-005")


def test_a_second_look_that_was_taken_says_when_and_whether_another_comes() -> None:
    assert "1 October 2025, or after 8 h running. Looked at on 11 October 2025" in told("2024-005")
    assert "no further look is planned" in told("2024-005")
    assert "no further look is planned" not in told("2024-003")


def test_the_day_shown_and_the_day_filed_are_two_things() -> None:
    assert "is shown as on 15 September 2026." in told("2024-003")
    assert "last revised" not in told("2024-003")


def test_old_parts_say_that_they_lie_as_they_came_off() -> None:
    where = told("2024-005").partition("Kept in store, not on show")[0]
    assert where.rstrip().endswith("as they came off, label MQ-0211.")


def test_a_result_that_holds_says_why_it_is_not_firm_though_it_always_leads() -> None:
    assert "Whatever counts more, it leads; only other scores could change that." in told(
        "2024-003"
    )
