"""Ratings read from a table: what is understood, and what every fault is answered with."""

from __future__ import annotations

from contextlib import suppress
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.errors import WitnessmarkError
from witnessmark.weighing.agreement import Rating, agreement_figures, agreement_of, read_ratings

F = Fraction


def test_a_table_is_read_into_ratings() -> None:
    table = "unit,rater,score,decision\nb,one,3,d-2\na,one,2.5,d-1\n"
    expected = (Rating("a", "one", F(5, 2), "d-1"), Rating("b", "one", F(3), "d-2"))
    assert expected == read_ratings(table).every


def test_a_blank_score_is_one_that_was_not_given() -> None:
    expected = (Rating("a", "one", F(1)),)
    assert expected == read_ratings("unit,rater,score\na,one,1\na,two,\n").every


def test_columns_may_stand_in_any_order_and_case() -> None:
    expected = (Rating("a", "one", F(1)),)
    assert expected == read_ratings("Score,Unit,Rater\n1,a,one\n").every


@pytest.mark.parametrize(
    "table",
    [
        "\ufeffunit,rater,score\r\na,one,1\r\n",
        "\n\nunit,rater,score\n\n , ,\na,one,1\n",
        'unit,rater,score\n"a",  one ,"1"',
    ],
)
def test_what_a_spreadsheet_adds_is_passed_over(table: str) -> None:
    expected = (Rating("a", "one", F(1)),)
    assert expected == read_ratings(table).every


def test_without_a_decision_column_nothing_is_clustered() -> None:
    assert not read_ratings("unit,rater,score\na,one,1\n").is_clustered


def test_scores_beyond_four_are_read_as_they_stand() -> None:
    # Krippendorff 2011 scores from 1 to 5.
    rows = "".join(f"u{n},one,{n}\nu{n},two,{n}\n" for n in range(1, 6))
    figures = agreement_figures(agreement_of(read_ratings(f"unit,rater,score\n{rows}")))
    expected = {"none": "1", "linear": "1", "quadratic": "1"}
    assert expected == figures["kappa"]


HEAD = "unit,rater,score\n"
FAULTS = [
    pytest.param("", "The table is empty", "Begin it with", id="empty"),
    pytest.param(HEAD, "holds no ratings", "one row for each score", id="no-rows"),
    pytest.param("unit,score\na,1\n", "line 1: no column is called rater", "Name", id="column"),
    pytest.param("unit;rater;score\na;b;1", "line 1: the columns are not parted", "commas", id=";"),
    pytest.param("unit,rater,score,note\n", 'line 1: the column "note"', "Keep only", id="unknown"),
    pytest.param("unit,rater,score,unit\n", "line 1: the column unit stands twice", "Keep", id="2"),
    pytest.param(HEAD + "a,one,1\na,two\n", "line 3: there are 2 cells under 3", "blank", id="few"),
    pytest.param(HEAD + ",one,1\n", "line 2: the unit is blank", "Write the unit", id="no-unit"),
    pytest.param(HEAD + "a, ,1\n", "line 2: the rater is blank", "Write the rater", id="no-rater"),
    pytest.param(HEAD + "\na,one,NA\n", 'line 3: "NA" is not a number', "blank", id="not-number"),
    pytest.param(HEAD + "a,one,nan\n", 'line 2: "nan" is not a number', "blank", id="nan"),
    pytest.param(HEAD + 'a,one,"2,5"\n', 'line 2: "2,5" is not a number', "2.5", id="comma"),
    pytest.param(
        HEAD + "a,one,1\nb,one,1\na,one,\n",
        'line 4: "one" already scored "a" on line 2',
        "Keep the score",
        id="twice",
    ),
    pytest.param(
        "unit,rater,score,decision\na,one,1,d-1\na,two,1,d-2\n",
        'line 3: "a" belongs to "d-2" here and to "d-1" on line 2',
        "Name one decision",
        id="two-decisions",
    ),
    pytest.param(HEAD + 'a,"one,1\n', "line 2: the row cannot be read", "quotation", id="quote"),
]


@pytest.mark.parametrize(("table", "message", "remedy"), FAULTS)
def test_every_fault_is_named_with_its_line_and_remedy(
    table: str, message: str, remedy: str
) -> None:
    with pytest.raises(WitnessmarkError) as caught:
        read_ratings(table)
    assert message in caught.value.message
    assert remedy in caught.value.remedy


def test_messages_name_the_table_as_they_are_told_to() -> None:
    with pytest.raises(WitnessmarkError, match=r"^second-scores\.csv, line 2: "):
        read_ratings("unit,rater,score\n,one,1\n", name="second-scores.csv")


@given(st.text(alphabet=st.sampled_from('unit,rater,score\n\r"; 0123456789-./eé\x00'), max_size=80))
def test_any_text_is_read_or_refused(text: str) -> None:
    for table in (text, HEAD + text):
        with suppress(WitnessmarkError):
            assert len(read_ratings(table).every) < len(table.splitlines())
