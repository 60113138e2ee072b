"""A second judgement is by another person, whom the register knows, in the time of the record."""

from __future__ import annotations

from typing import Any

import pytest

from building import DECISION, museum
from witnessmark.model.diagnostics import Diagnostic
from witnessmark.rules.check import check
from witnessmark.rules.rulebook_check import load_shipped

SECOND = "options.0.judged.use.second"


def found(*seconds: dict[str, Any], **other: Any) -> list[Diagnostic]:
    given = {"by": "engineer", "date": "2024-02-25", "likely": 2, "because": "It knocks"}
    library = museum(changes={DECISION: {**other, SECOND: [{**given, **one} for one in seconds]}})
    checked = check(library, rulebook=load_shipped())
    return [d for d in checked.diagnostics if "second" in d.path or "second" in d.field]


def codes(*seconds: dict[str, Any], **other: Any) -> list[tuple[str, str]]:
    return [(d.code, d.field) for d in found(*seconds, **other)]


def test_another_person_may_judge_a_second_time() -> None:
    assert [] == codes({}, {"by": "fitter"})


def test_the_first_judge_is_no_second_one() -> None:
    assert [("WM096", "options[0].judged.use.second[0].by")] == codes({"by": "curator"})


def test_the_judge_named_beside_the_value_is_the_first() -> None:
    other = {"options.0.judged.use.by": "engineer"}
    assert [("WM096", "options[0].judged.use.second[0].by")] == codes({}, **other)
    assert [] == codes({"by": "curator"}, **other)


def test_nobody_judges_a_second_time_twice() -> None:
    assert [("WM096", "options[0].judged.use.second[1].by")] == codes({}, {"date": "2024-02-26"})


def test_nobody_judges_before_the_record_is_opened() -> None:
    expected = [("WM096", "options[0].judged.use.second[0].date")]
    assert expected == codes({"date": "2024-02-10"})


def test_a_second_judge_is_in_the_register() -> None:
    assert [("WM032", "options[0].judged.use.second[0].by")] == codes({"by": "enginer"})


@pytest.mark.parametrize(
    ("slip", "code"), [({"low": 3}, "WM079"), ({"likely": 5}, "WM077"), ({"because": " "}, "WM073")]
)
def test_a_second_judgement_keeps_the_shape_of_a_first(slip: dict[str, Any], code: str) -> None:
    assert code in {d.code for d in found(slip)}
