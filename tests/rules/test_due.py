"""What is due: each kind once, on its day, and gone when somebody has come back to it."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from building import (
    DECISION,
    DECISION_ID,
    FINDINGS,
    MACHINE,
    PEOPLE,
    POLICY,
    STORES,
    Changes,
    decision_in,
    museum,
)
from calling import DEMO
from witnessmark.model.library import Library, assemble
from witnessmark.repository.disk import read_museum
from witnessmark.rules.due import OVERDUE, due, overdue
from witnessmark.rules.due_kinds import DueKind

ON = date(2026, 6, 1)
AGREED: dict[str, object] = {
    "state": "agreed",
    "agreed": [
        {"role": "collections", "by": "curator", "date": "2024-03-01", "seal": "s", "words": "w"},
        {"role": "engineering", "by": "engineer", "date": "2024-03-02", "seal": "s", "words": "w"},
    ],
}
LIVE: dict[str, object] = {"findings.0.grade": "note"}
"""A note asks for nothing, so that nothing but the change is due."""


def kinds(library: Library, *, on: date = ON, days: int = 0) -> list[tuple[str, date]]:
    return [(one.kind.value, one.day) for one in due(library, on=on, days=days)]


def agreed(**changes: object) -> Library:
    """The base museum, its decision agreed and changed, its finding only a note."""
    return museum(changes={DECISION: {**AGREED, **changes}, FINDINGS: LIVE})


def around(changes: Changes) -> Library:
    """The base museum changed around its decision, its finding only a note."""
    return museum(changes={FINDINGS: LIVE, **changes})


def test_nothing_is_due_in_a_museum_that_promised_nothing_yet() -> None:
    assert [] == kinds(around({}))


def test_a_second_look_is_due_on_its_day() -> None:
    library = agreed(look_again={"date": "2026-06-01"})
    assert [("look-again", date(2026, 6, 1))] == kinds(library)
    assert [] == kinds(library, on=date(2026, 5, 31))


def test_a_second_look_shows_so_many_days_ahead() -> None:
    library = agreed(look_again={"date": "2026-06-11"})
    assert [] == kinds(library, days=9)
    assert [("look-again", date(2026, 6, 11))] == kinds(library, days=10)


def test_a_second_look_is_over_when_somebody_looked_that_day() -> None:
    looked = {"date": "2026-03-01", "by": "curator", "what": "It holds"}
    assert [] == kinds(agreed(look_again={"date": "2026-03-01"}, outcome=looked))


def test_a_look_before_its_time_leaves_it_due() -> None:
    looked = {"date": "2026-02-28", "by": "curator", "what": "It holds"}
    library = agreed(look_again={"date": "2026-03-01"}, outcome=looked)
    assert [("look-again", date(2026, 3, 1))] == kinds(library)


@pytest.mark.parametrize("state", ["draft", "for-review", "withdrawn", "replaced"])
def test_a_decision_that_does_not_stand_promises_nothing(state: str) -> None:
    assert [] == kinds(agreed(look_again={"date": "2026-01-01"}, state=state))


def test_the_end_of_a_temporary_decision_is_due() -> None:
    assert [("runs-out", date(2026, 5, 1))] == kinds(agreed(until="2026-05-01"))


def test_the_end_of_a_waiver_and_of_an_accepted_risk_are_due() -> None:
    waiver = {"rule": "r", "because": "b", "approver": "trustee", "until": "2026-05-02"}
    risk = {"by": "trustee", "role": "governing", "until": "2026-05-01", "because": "b"}
    expected = [("accepted-risk", date(2026, 5, 1)), ("waiver", date(2026, 5, 2))]
    assert expected == kinds(agreed(waivers=[waiver], accepted_risk=risk))


def test_emergency_work_is_due_until_it_is_agreed_afterwards() -> None:
    work = {"started": "2024-02-12"}
    waiting = agreed(emergency={"because": "It hung"}, work=work)
    agreed_after = agreed(emergency={"because": "It hung", "ratified": "2024-03-02"}, work=work)
    assert [("ratify", date(2024, 2, 12))] == kinds(waiting)
    assert [] == kinds(agreed_after)


def test_a_stop_that_nothing_answers_is_due_since_it_was_found() -> None:
    library = museum(changes={FINDINGS: {"findings.0.grade": "stop"}})
    assert ("stop", date(2024, 1, 10)) in kinds(library)


def test_a_stop_that_a_later_finding_answers_is_not_due() -> None:
    later = {
        "id": "f-002", "date": "2024-01-11", "by": "fitter", "basis": "seen", "grade": "note",
        "what": "It was the gauge", "answers": ["f-001"],
    }  # fmt: skip
    changes = {FINDINGS: {"findings.0.grade": "stop", "findings.1": later}}
    assert [] == kinds(museum(changes=changes))


def test_an_answer_that_was_put_off_is_due_on_its_day() -> None:
    put_off = {"until": "2026-05-20", "because": "The track has to be split for it"}
    library = around({FINDINGS: {**LIVE, "findings.0.put_off": put_off}})
    assert [("put-off", date(2026, 5, 20))] == kinds(library)


@pytest.mark.parametrize("grade", ["watch", "act"])
def test_a_figure_that_is_watched_is_measured_anew_after_three_years(grade: str) -> None:
    library = museum(changes={FINDINGS: {"findings.0.grade": grade}})
    assert [] == kinds(library, on=date(2027, 1, 9))
    assert [("measure", date(2027, 1, 10))] == kinds(library, on=date(2027, 1, 10))


def test_a_later_figure_of_the_same_part_is_the_one_that_grows_old() -> None:
    later = {
        "id": "f-002", "date": "2025-02-28", "by": "fitter", "part": "drum/bush", "what": "Worn",
        "basis": "measured", "grade": "watch", "measurement": "0.80 mm",
    }  # fmt: skip
    changes = {FINDINGS: {"findings.0.grade": "watch", "findings.1": later}}
    library = museum(changes=changes)
    assert [("measure", date(2028, 2, 28))] == kinds(library, on=date(2029, 1, 1))


def test_figures_of_a_machine_that_stands_do_not_grow_old() -> None:
    library = museum(
        changes={
            FINDINGS: {"findings.0.grade": "watch"},
            MACHINE: {"kept": [{"from": "2015-01-01", "as": "on-display"}]},
        }
    )
    assert [] == kinds(library, on=date(2029, 1, 1))


def test_a_leap_day_grows_old_on_the_28th() -> None:
    changes = {FINDINGS: {"findings.0.grade": "watch", "findings.0.date": "2024-02-29"}}
    assert [("measure", date(2027, 2, 28))] == kinds(museum(changes=changes), on=date(2027, 3, 1))


def test_the_review_of_the_policy_in_force_is_due() -> None:
    assert [("policy", date(2026, 5, 1))] == kinds(around({POLICY: {"review": "2026-05-01"}}))


def test_the_way_of_keeping_is_looked_at_again() -> None:
    kept = [{"from": "2015-01-01", "as": "running", "look_again": "2026-04-01"}]
    assert [("kept", date(2026, 4, 1))] == kinds(around({MACHINE: {"kept": kept}}))


def test_a_lot_nobody_decided_on_is_due_since_it_was_counted() -> None:
    assert [("undecided", date(2020, 1, 1))] == kinds(
        around({STORES: {"lots.0.purpose": "undecided"}})
    )


def test_somebody_whose_term_ended_is_due_while_an_open_record_names_them() -> None:
    ended = {"people.4.roles.0.to": "2025-12-31"}  # the fitter, who proposed the record
    assert [("term", date(2025, 12, 31))] == kinds(around({PEOPLE: ended}))
    gone = around({PEOPLE: ended, DECISION: {"state": "withdrawn"}})
    assert [] == kinds(gone)


def test_a_role_that_agreement_needs_and_nobody_holds_is_due() -> None:
    library = around({PEOPLE: {"people.3.roles.0.to": "2025-12-31"}})  # the only trustee
    assert [("no-holder", date(2025, 12, 31))] == kinds(library)


def test_engineering_may_be_empty_while_safety_is_held() -> None:
    assert [] == kinds(around({PEOPLE: {"people.1.roles.0.to": "2025-12-31"}}))


def test_what_is_due_is_told_as_a_warning_at_its_own_line() -> None:
    library = agreed(look_again={"date": "2026-06-01"})
    found = list(overdue(library, on=ON))
    text = library.by_id[DECISION_ID].shaped.document.text.splitlines()
    assert [(OVERDUE, "warning", DECISION_ID)] == [
        (one.code, one.level.value, one.record) for one in found
    ]
    assert "2026-06-01" in text[found[0].line - 1]


def test_every_kind_is_sorted_and_named_apart() -> None:
    demo = assemble(read_museum(DEMO))
    found = due(demo, on=date(2026, 9, 15), days=4000)
    days = [one.day for one in found]
    assert sorted(days) == days
    assert len(found) == len({(one.kind, one.name) for one in found})


def test_the_demo_museum_owes_what_a_look_through_its_files_finds() -> None:
    # Read off the files by hand: every `look_again`, `until`, `put_off`, `review`, stop and
    # undecided lot up to the end of 2026. Old figures are left out: they follow from a count.
    demo = assemble(read_museum(DEMO))
    found = due(demo, on=date(2026, 9, 15), days=107)
    owed = {(one.kind.value, one.name) for one in found if one.kind is not DueKind.MEASURE}
    assert {
        ("undecided", "tender-gland-seals"),
        ("stop", "fire-pump/f-001"),
        ("stop", "fire-pump/f-010"),
        ("stop", "fire-pump/f-011"),
        ("stop", "dragline/f-007"),
        ("stop", "quay-crane/f-010"),
        ("look-again", "2023-004"),
        ("look-again", "2024-001"),
        ("look-again", "2025-007"),
        ("runs-out", "2024-001"),
    } == owed


def test_a_due_thing_is_dated_by_the_record_it_comes_from() -> None:
    library = agreed(look_again={"date": "2026-06-01"})
    last = max(signature.date for signature in decision_in(library).agreed)
    assert [last] == [one.written for one in due(library, on=ON)]
    assert timedelta(0) < ON - last
