"""What work took against what was thought, and what earlier work says to later decisions."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from statistics import median
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from building import DECISION, changed, decision_in, done, museum
from witnessmark.model.library import Library
from witnessmark.model.words import DoneBy
from witnessmark.rules.check import check
from witnessmark.rules.rulebook_check import load_shipped
from witnessmark.rules.work_done import Against, Job, Taken, Tie, jobs, lessons, sides

NO_STEPS = "[]"
EFFORT = {"hours": [10, 20], "cost": [100, 200], "done_by": "in-house"}


def record(name: str, *, work: dict[str, Any], **other: Any) -> dict[str, str]:
    changes = {f"work.{field}": value for field, value in work.items()}
    text = changed(done(name, steps=NO_STEPS), {**changes, **other})
    return {f"winch/{name}-job.yml": text}


def only(library: Library) -> Job:
    (job,) = jobs(library)
    return job


@pytest.mark.parametrize(
    ("hours", "expected"),
    [(9, Against.LESS), (10, Against.WITHIN), (20, Against.WITHIN), (21, Against.MORE)],
)
def test_hours_are_held_against_the_chosen_options_estimate(hours: int, expected: Against) -> None:
    also = record("2023-001", work={"hours": hours}, **{"options.1.effort": EFFORT})
    taken = only(museum(also=also)).hours_taken
    assert taken is not None
    assert (expected, Fraction(hours, 15)) == (taken.against, taken.ratio)


def test_without_an_estimate_what_it_took_is_told_and_not_compared() -> None:
    job = only(museum(also=record("2023-001", work={"hours": 7})))
    assert (Fraction(7), None) == (job.hours, job.hours_taken)


@pytest.mark.parametrize(("where", "expected"), [(None, "in-house"), ("sent-out", "sent-out")])
def test_where_it_was_done_is_as_written_or_else_as_planned(
    where: str | None, expected: str
) -> None:
    work = {"done_by": where} if where else {}
    job = only(museum(also=record("2023-001", work=work, **{"options.1.effort": EFFORT})))
    assert job.done_by is DoneBy.named(expected)


@pytest.mark.parametrize("state", ["draft", "for-review", "agreed", "under-way", "withdrawn"])
def test_only_work_that_is_done_counts(state: str) -> None:
    assert () == jobs(museum(also=record("2023-001", work={}, state=state)))


def test_a_day_is_a_day_of_work() -> None:
    work = {"started": "2023-06-01", "ended": "2023-06-01"}
    assert 1 == only(museum(also=record("2023-001", work=work))).days


def test_the_places_are_counted_each_for_itself() -> None:
    also: dict[str, str] = {}
    for number, (where, hours) in enumerate(
        [("in-house", 15), ("in-house", 30), ("sent-out", 9)], 1
    ):
        work = {"hours": hours, "done_by": where, "departures": ["One bolt more"]}
        also |= record(f"2023-00{number}", work=work, **{"options.1.effort": EFFORT})
    house, outside = sides(jobs(museum(also=also)))
    assert (2, 2, 2, 1, Fraction(3, 2), 0, None) == (
        house.jobs, house.departed, house.hours_known, house.hours_over, house.hours_ratio,
        house.cost_known, house.cost_ratio,
    )  # fmt: skip
    assert (1, 0, Fraction(3, 5)) == (outside.jobs, outside.hours_over, outside.hours_ratio)


@given(st.lists(st.integers(1, 100), min_size=1, max_size=6))
def test_the_ratio_of_a_place_is_the_median_of_its_jobs(hours: list[int]) -> None:
    work = [
        Job(
            decision=str(n), machine="m", title="t", started=date(2024, 1, 1),
            ended=date(2024, 1, 1), done_by=DoneBy.BOTH, hours=Fraction(one), cost=None,
            hours_taken=Taken(Fraction(one), Fraction(4), Fraction(6)), cost_taken=None,
            departures=(), looks=(),
        )
        for n, one in enumerate(hours)
    ]  # fmt: skip
    (side,) = sides(work)
    assert median([Fraction(one, 5) for one in hours]) == side.hours_ratio


@pytest.mark.parametrize(
    ("measured", "expected"),
    [
        ("0.28 mm", Against.WITHIN),
        ("0.027 cm", Against.WITHIN),
        ("0.26 mm", Against.LESS),
        ("0.32 mm", Against.MORE),
        ("28", None),
    ],
)
def test_a_measured_outcome_is_held_against_what_was_expected(
    measured: str, expected: Against | None
) -> None:
    outcome = {
        "date": "2024-01-01", "by": "fitter", "what": "It holds", "measured": measured,
        "expected": ["0.31 mm", "0.27 mm"],
    }  # fmt: skip
    (look,) = only(museum(also=record("2023-001", work={}, outcome=outcome))).looks
    assert expected is look.against


@pytest.mark.parametrize(
    ("outcome", "field"),
    [
        ({"measured": "0,28 mm"}, "outcome.measured"),
        ({"measured": "3 kg", "expected": ["1 mm", "2 mm"]}, "outcome.measured"),
        ({"measured": "1 mm", "expected": ["1 mm", "2 kN"]}, "outcome.expected[1]"),
    ],
)
def test_sizes_that_cannot_be_compared_are_told_where_they_stand(
    outcome: dict[str, Any], field: str
) -> None:
    whole = {"date": "2024-01-01", "by": "fitter", "what": "It holds", **outcome}
    library = museum(also=record("2023-001", work={}, outcome=whole))
    found = check(library, rulebook=load_shipped()).diagnostics
    assert [field] == [one.field for one in found if one.code == "WM071"]


def test_a_decision_hears_of_overruns_departures_and_outcomes_of_what_it_follows() -> None:
    outcome = {
        "date": "2023-12-01", "by": "fitter", "what": "It knocks", "measured": "0.4 mm",
        "expected": ["0.2 mm", "0.3 mm"],
    }  # fmt: skip
    work = {"hours": 30, "departures": ["A crack was found"]}
    also = record("2023-001", work=work, outcome=outcome, **{"options.1.effort": EFFORT})
    library = museum(also=also, changes={DECISION: {"follows": ["2023-001"]}})
    (lesson,) = lessons(library, decision_in(library), machine="winch")
    assert lesson.tie is Tie.FOLLOWED
    assert (
        "A crack was found",
        "The hours came to 30; 10 to 20 was thought.",
        "Measured 0.4 mm; 0.2 mm to 0.3 mm was expected.",
        "It knocks",
    ) == lesson.says


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({}, [Tie.SAME_PART]),
        ({"about": ["frame/left"]}, []),
        ({"departs_from": [{"decision": "2023-001", "because": "Other"}]}, [Tie.DEPARTED]),
        ({"replaces": "2023-001"}, [Tie.REPLACED]),
        ({"opened": "2023-06-30"}, []),  # the work ended on that day and not before it
    ],
)
def test_earlier_work_is_named_once_with_its_nearest_tie(
    changes: dict[str, Any], expected: list[Tie]
) -> None:
    library = museum(also=record("2023-001", work={}), changes={DECISION: changes})
    found = lessons(library, decision_in(library), machine="winch")
    assert expected == [lesson.tie for lesson in found]
