"""The kinds of field a record is made of: days, numbers, levels, ids, labels and text."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError

from witnessmark.model.fields import (
    Address,
    Count,
    Day,
    DecisionId,
    Exact,
    FindingId,
    Flag,
    Id,
    Label,
    Level,
    PolicyId,
    Prose,
    Text,
    Whole,
)
from witnessmark.model.options import Risk
from witnessmark.model.stores import CanBeMade

SAID = True


def read(kind: Any, value: object) -> Any:
    return TypeAdapter(kind).validate_python(value)


def fault(kind: Any, value: object) -> str:
    """The kind of fault a value has."""
    with pytest.raises(ValidationError) as caught:
        read(kind, value)
    (first, *_) = caught.value.errors()
    return first["type"]


# RFC 3339, 5.6 (full-date) and appendix C (leap years); ISO 8601-1:2019, 5.2.2.1 (calendar dates).
@pytest.mark.parametrize(
    "text",
    ["2024-02-29", "2000-02-29", "1931-12-31", "2400-02-29", "2024-01-01", "9999-12-31"],
)
def test_a_day_of_the_calendar_is_read(text: str) -> None:
    assert text == read(Day, text).isoformat()


@pytest.mark.parametrize(
    "text",
    [
        "2023-02-29",
        "2024-02-30",
        "2024-13-01",
        "1900-02-29",
        "2100-02-29",
        "2024-04-31",
        "2024-00-10",
        "2024-01-00",
        "0000-01-01",
    ],
)
def test_a_day_that_is_not_in_the_calendar_is_refused(text: str) -> None:
    assert "day_unreal" == fault(Day, text)


@pytest.mark.parametrize(
    "written",
    [
        "24-01-01",
        "2024-1-1",
        "2024/01/01",
        "20240101",
        "01.02.2024",
        "2024-W09-4",
        "2024-060",
        "2024-02-29T00:00:00Z",
        "2024-02-29\n",
        " 2024-02-29",
        "+2024-02-29",
        "-2024-02-29",
        "\uff12\uff10\uff12\uff14-02-29",
        "",
        20240229,
        2024,
        True,
    ],
)
def test_what_is_not_written_as_a_day_is_refused(written: object) -> None:
    assert "day_form" == fault(Day, written)


@given(st.dates())
def test_every_day_is_read_as_written(day: date) -> None:
    assert day == read(Day, day.isoformat())


@given(st.integers(1, 9999), st.integers(1, 12))
def test_leap_years_are_those_of_the_gregorian_rule(year: int, month: int) -> None:
    # RFC 3339, appendix C: every 4th year, but of the hundreds only every 4th.
    leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
    days = [31, 29 if leap else 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1]
    assert days == read(Day, f"{year:04}-{month:02}-{days:02}").day
    assert "day_unreal" == fault(Day, f"{year:04}-{month:02}-{days + 1:02}")


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        (3, Fraction(3)),
        (0, Fraction(0)),
        (Decimal("0.35"), Fraction(7, 20)),
        (Decimal("-1.5"), Fraction(-3, 2)),
        ("3/4", Fraction(3, 4)),
        ("-1/3", Fraction(-1, 3)),
    ],
)
def test_numbers_are_exact(written: object, expected: Fraction) -> None:
    assert expected == read(Exact, written)


@pytest.mark.parametrize(
    "written", [True, "0.35", "3/0", "3 / 4", "0,35", "1e3", "three", "", "½", 0.5, [], {}]
)
def test_what_is_no_number_is_refused(written: object) -> None:
    assert "number_form" == fault(Exact, written)


@pytest.mark.parametrize("level", [0, 1, 2, 3, 4])
def test_levels_run_from_0_to_4(level: int) -> None:
    assert level == read(Level, level)


@pytest.mark.parametrize("level", [-1, 5, 40])
def test_a_level_off_the_scale_is_refused(level: int) -> None:
    assert "level_range" == fault(Level, level)


@pytest.mark.parametrize("written", [Decimal("2.5"), "3", True, None, 3.0])
def test_a_level_is_a_whole_number(written: object) -> None:
    assert "whole_form" == fault(Level, written)


def test_a_count_is_at_least_one() -> None:
    assert read(Count, 1) == 1
    assert "greater_than_equal" == fault(Count, 0)
    assert "whole_form" == fault(Count, Decimal("1.5"))
    assert "whole_form" == fault(Whole, SAID)


@pytest.mark.parametrize("written", ["true", "yes", 1, 0, None])
def test_true_and_false_are_said_in_so_many_words(written: object) -> None:
    assert "bool_form" == fault(Flag, written)
    assert read(Flag, SAID) is True


@pytest.mark.parametrize("word", [True, False, "unknown"])
def test_whether_a_thing_can_be_made_is_true_false_or_unknown(word: object) -> None:
    assert word == read(CanBeMade, word)


@pytest.mark.parametrize("word", ["yes", 1, 0, None, "true", "Unknown"])
def test_no_other_word_says_whether_a_thing_can_be_made(word: object) -> None:
    assert "known_form" == fault(CanBeMade, word)


@pytest.mark.parametrize("name", ["a", "quay-crane", "2", "bush-2-of-3", "0", "x" * 64])
def test_an_id_is_small_letters_digits_and_single_hyphens(name: str) -> None:
    assert name == read(Id, name)


@pytest.mark.parametrize(
    "name",
    [
        "Quay",
        "quay_crane",
        "-a",
        "a-",
        "a--b",
        "",
        "a b",
        "a/b",
        "é",
        "a\n",
        "a.b",
        "\uff41",
        "x" * 65,
    ],
)
def test_any_other_id_is_refused(name: str) -> None:
    assert fault(Id, name) in {"string_pattern_mismatch", "string_too_long", "too_long"}


@pytest.mark.parametrize("address", ["drum/bush", "a/1", "slewing-gear/upper-bush"])
def test_an_address_is_assembly_and_part(address: str) -> None:
    assert address == read(Address, address)


@pytest.mark.parametrize(
    "address", ["bush", "a/b/c", "/b", "a/", "a/B", "a /b", "a/b\n", "../b", "a//b"]
)
def test_any_other_address_is_refused(address: str) -> None:
    assert "string_pattern_mismatch" == fault(Address, address)


@pytest.mark.parametrize(
    ("kind", "good", "bad"),
    [
        (DecisionId, "2024-003", ["2024-3", "24-003", "2024-0003", "2024-003\n", "\uff12024-003"]),
        (FindingId, "f-001", ["f-1", "F-001", "001", "f-000001", "f-001 "]),
        (PolicyId, "2023-04", ["2023", "2023-4", "2023-04-1", "april"]),
        (Label, "MQ-0112", ["MQ 0112", "-MQ", "MQ_1", "MQ--1", "", "MQ-é"]),
        (Risk, "2C", ["5A", "0A", "2G", "C2", "2c", "2C\n", "12C", ""]),
    ],
)
def test_names_that_stand_for_decades_keep_to_their_form(
    kind: Any, good: str, bad: list[str]
) -> None:
    assert good == read(kind, good)
    assert {"string_pattern_mismatch"} == {fault(kind, name) for name in bad}


def test_a_policy_may_name_its_day() -> None:
    assert "2023-04-15" == read(PolicyId, "2023-04-15")


@pytest.mark.parametrize(
    ("written", "expected"), [(1931, "1931"), (Decimal("1.50"), "1.50"), ("as it is", "as it is")]
)
def test_a_number_stands_in_text_as_it_was_written(written: object, expected: str) -> None:
    assert expected == read(Text, written)
    assert expected == read(Prose, written)


@pytest.mark.parametrize("blank", ["", " ", "\n", "\t  "])
def test_blank_text_is_refused(blank: str) -> None:
    assert "blank_text" == fault(Text, blank)
    assert "blank_text" == fault(Prose, blank)


@pytest.mark.parametrize("kind", [Text, Prose, Id, Label])
def test_true_and_false_are_not_text(kind: Any) -> None:
    assert "bool_as_text" == fault(kind, SAID)


def test_prose_is_trimmed_and_otherwise_left_alone() -> None:
    assert "Two\nlines" == read(Prose, " Two\nlines\n")
