"""A policy's weights are those of the people who were asked, checked at the policy's own lines.

The bench's policy: authenticity .35, safety .40, reversibility .25 for running machines, within .2
to .5, .3 to .6 and .1 to .4. Points by hand: 80, 100 and 60 are 1/3, 5/12 and 1/4.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from building import GONE, POLICY, museum
from witnessmark.rules.check import check
from witnessmark.rules.rulebook_check import load_shipped


def asked(who: str, *points: int | str, **other: Any) -> dict[str, Any]:
    names = ("authenticity", "safety", "reversibility")
    return {
        "question": "Which would you lift first?",
        "answer": "Safety",
        "who": who,
        "when": "2023-03-01",
        "kept_as": ["running"],
        "swings": dict(zip(names, points, strict=False)),
        **other,
    }


CURATOR = asked("curator", 100, 100, 70)  # .370 .370 .259
ENGINEER = asked("engineer", 80, 100, 60)  # .333 .417 .250


def complaints(
    *elicited: Mapping[str, Any], policy: Mapping[str, object] | None = None
) -> list[tuple[str, str]]:
    changes = {POLICY: {"elicited": [dict(one) for one in elicited], **(policy or {})}}
    checked = check(museum(changes=changes), rulebook=load_shipped())
    return [(d.code, d.field) for d in checked.diagnostics if d.file.endswith(POLICY)]


def test_weights_between_what_two_people_gave_hold() -> None:
    assert [] == complaints(CURATOR, ENGINEER)


def test_a_weight_nobody_would_give_is_told_at_its_own_line() -> None:
    # .25 is all anybody gives reversibility now, and .333 authenticity, .417 safety.
    expected = [("WM097", "weights.running.authenticity"), ("WM097", "weights.running.safety")]
    assert expected == complaints(ENGINEER)


def test_a_criterion_left_out_of_the_weights_counts_as_nothing() -> None:
    weights = {
        "weights.running": {"authenticity": Decimal("0.35"), "safety": Decimal("0.65")},
        "ranges": GONE,
    }
    assert ("WM097", "weights.running") in complaints(CURATOR, ENGINEER, policy=weights)


def test_an_answer_for_one_way_of_keeping_says_nothing_of_another() -> None:
    # Weights on display are .50, .20 and .30, which these two would not give.
    assert [] == complaints(CURATOR, ENGINEER)
    both = [{**each, "kept_as": ["running", "on-display"]} for each in (CURATOR, ENGINEER)]
    assert "weights.on-display.authenticity" in {field for _, field in complaints(*both)}


def test_an_answer_for_no_named_way_of_keeping_counts_for_all() -> None:
    everywhere = [{**each, "kept_as": []} for each in (CURATOR, ENGINEER)]
    assert "weights.on-display.safety" in {field for _, field in complaints(*everywhere)}


def test_ranges_that_leave_an_answer_out_say_why() -> None:
    # 100, 40 and 20 are .625, .25 and .125: off the ranges of authenticity and safety.
    bold = asked("trustee", 100, 40, 20)
    fields = [
        ("WM097", "elicited[2].swings.authenticity"),
        ("WM097", "elicited[2].swings.safety"),
    ]
    assert fields == complaints(CURATOR, ENGINEER, bold)
    said = {**bold, "because": "It would leave too little for safety on a running machine."}
    assert [] == complaints(CURATOR, ENGINEER, said)


def test_the_first_swing_has_a_hundred_points() -> None:
    assert [("WM097", "elicited[0].swings")] == complaints(asked("curator", 8, 10, 6))


def test_every_criterion_has_its_points() -> None:
    assert [("WM097", "elicited[0].swings")] == complaints(asked("curator", 80, 100))


def test_nobody_gives_less_than_nothing() -> None:
    expected = [("WM074", "elicited[0].swings.authenticity")]
    assert expected == complaints(asked("curator", -10, 100, 60))


def test_who_gave_points_is_in_the_register() -> None:
    assert [("WM032", "elicited[2].who")] == complaints(
        CURATOR, ENGINEER, asked("curater", 90, 100, 60)
    )


def pairs(*given: int | str) -> dict[str, Any]:
    named = ("authenticity_to_safety", "authenticity_to_reversibility", "safety_to_reversibility")
    return {**CURATOR, "pairs": dict(zip(named, given, strict=True))}


def test_answers_in_pairs_that_hang_together_pass() -> None:
    assert [] == complaints(pairs(3, 5, 3), ENGINEER)


def test_answers_in_pairs_that_go_in_a_circle_are_told() -> None:
    assert [("WM097", "elicited[0].pairs")] == complaints(pairs(3, "1/3", 3), ENGINEER)


def test_nothing_matters_nought_times_as_much() -> None:
    assert [("WM097", "elicited[0].pairs")] == complaints(pairs(0, 1, 1), ENGINEER)
