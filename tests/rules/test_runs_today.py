"""Does it run today: the gravest of the reasons counts, and it is never a certificate."""

from __future__ import annotations

from datetime import date

import pytest

from building import DECISION, FINDINGS, MACHINE, museum
from calling import DEMO
from witnessmark.model.library import Library, assemble
from witnessmark.repository.disk import read_museum
from witnessmark.rules.answered import open_findings
from witnessmark.rules.runs_today import Runs, RunsToday, runs_today

ON = date(2026, 6, 1)
STOP: dict[str, object] = {"findings.0.grade": "stop"}
AGREED: dict[str, object] = {
    "state": "agreed",
    "agreed": [
        {"role": "collections", "by": "curator", "date": "2024-03-01", "seal": "s", "words": "w"},
        {"role": "engineering", "by": "engineer", "date": "2024-03-02", "seal": "s", "words": "w"},
    ],
}
DONE = {"started": "2024-04-01", "ended": "2024-05-01", "by": ["Fitter"], "departures": "none"}


def said(library: Library, *, on: date = ON) -> RunsToday:
    return runs_today(library, "winch", on=on)


def changed(decision: dict[str, object], finding: dict[str, object] = STOP) -> Library:
    return museum(changes={DECISION: {**AGREED, **decision}, FINDINGS: finding})


def chosen(kind: str, **more: object) -> dict[str, object]:
    """An agreed decision whose first option, without steps, is of a kind and chosen."""
    return {"options.0.kind": kind, "choice.option": "leave", **more}


def test_a_machine_with_nothing_against_it_runs() -> None:
    found = said(museum(changes={FINDINGS: {"findings.0.grade": "note"}}))
    assert (Runs.RUNS, ()) == (found.runs, found.reasons)


def test_it_is_said_that_this_is_never_a_certificate() -> None:
    assert "never a certificate" in said(museum()).notice


def test_an_open_stop_holds_the_machine_and_is_named() -> None:
    found = said(museum(changes={FINDINGS: STOP}))
    assert (Runs.STANDS, "f-001") == (found.runs, found.reasons[0].finding)


def test_a_stop_holds_only_from_the_day_it_was_found() -> None:
    library = museum(changes={FINDINGS: STOP})
    assert Runs.RUNS is said(library, on=date(2024, 1, 9)).runs
    assert Runs.STANDS is said(library, on=date(2024, 1, 10)).runs


def test_an_agreed_decision_that_asks_for_work_holds_it_until_the_work_ended() -> None:
    assert Runs.STANDS is said(changed({})).runs
    library = changed({"state": "done", "work": DONE})
    assert Runs.STANDS is said(library, on=date(2024, 4, 30)).runs
    assert Runs.RUNS is said(library, on=date(2024, 5, 1)).runs


def test_a_decision_not_yet_agreed_answers_nothing() -> None:
    assert Runs.STANDS is said(changed({**chosen("restrict-use"), "state": "for-review"})).runs


def test_limits_that_were_agreed_let_it_run_within_them() -> None:
    found = said(changed(chosen("restrict-use")))
    assert (Runs.WITH_LIMITS, "2024-001") == (found.runs, found.reasons[0].decision)


def test_limits_hold_from_the_last_agreement_on() -> None:
    library = changed(chosen("restrict-use"))
    assert Runs.STANDS is said(library, on=date(2024, 3, 1)).runs
    assert Runs.WITH_LIMITS is said(library, on=date(2024, 3, 2)).runs


def test_limits_agreed_for_a_time_leave_the_stop_open_once_it_is_over() -> None:
    library = changed(chosen("restrict-use", until="2026-05-31"))
    assert Runs.WITH_LIMITS is said(library, on=date(2026, 5, 31)).runs
    found = said(library, on=date(2026, 6, 1))
    assert (Runs.STANDS, "f-001", "2024-001") == (
        found.runs,
        found.reasons[0].finding,
        found.reasons[0].decision,
    )


def test_a_decision_to_stop_it_holds_it_without_any_finding() -> None:
    library = changed(chosen("stop-running"), {"findings.0.grade": "note"})
    assert Runs.STANDS is said(library).runs


def test_an_accepted_risk_that_is_past_holds_it() -> None:
    risk = {"by": "trustee", "role": "governing", "until": "2026-05-31", "because": "b"}
    library = changed(chosen("leave-as-found", accepted_risk=risk))
    assert Runs.RUNS is said(library, on=date(2026, 5, 31)).runs
    assert Runs.STANDS is said(library, on=date(2026, 6, 1)).runs


def test_putting_a_stop_off_is_no_answer() -> None:
    put_off = {"until": "2027-01-01", "because": "The track has to be split for it"}
    library = museum(changes={FINDINGS: {**STOP, "findings.0.put_off": put_off}})
    assert Runs.STANDS is said(library).runs


@pytest.mark.parametrize(("until", "is_late"), [("2026-06-01", False), ("2026-05-31", True)])
def test_other_work_put_off_is_told_and_holds_nothing(until: str, is_late: bool) -> None:  # noqa: FBT001
    put_off = {"until": until, "because": "The track has to be split for it"}
    library = museum(changes={FINDINGS: {"findings.0.put_off": put_off}})
    found = said(library)
    assert (Runs.RUNS, "f-001") == (found.runs, found.reasons[0].finding)
    assert is_late is ("past" in found.reasons[0].says)


@pytest.mark.parametrize("way", ["on-display", "reserve"])
def test_a_machine_not_kept_running_is_told_so_before_all_else(way: str) -> None:
    kept = [{"from": "2015-01-01", "as": way}]
    found = said(museum(changes={MACHINE: {"kept": kept}, FINDINGS: STOP}))
    assert [Runs.NOT_KEPT_RUNNING, Runs.STANDS] == [reason.weight for reason in found.reasons]
    assert Runs.NOT_KEPT_RUNNING is found.runs


def test_a_replaced_decision_sets_no_limits() -> None:
    note: dict[str, object] = {"findings.0.grade": "note"}
    library = changed({**chosen("restrict-use"), "state": "replaced", "work": DONE}, note)
    assert Runs.RUNS is said(library).runs


def test_no_reason_repeats_the_words_of_a_record() -> None:
    library = museum(changes={FINDINGS: {**STOP, "findings.0.what": "A word of our own"}})
    assert "A word of our own" not in " ".join(reason.says for reason in said(library).reasons)


def test_an_open_finding_stays_open_until_somebody_says_otherwise() -> None:
    library = museum(changes={FINDINGS: STOP})
    assert ["f-001"] == [one.finding.id for one in open_findings(library, "winch", on=ON)]


def test_the_machines_of_the_demo_museum_stand_as_its_files_say() -> None:
    # Read off the files by hand as on 2026-09-15: which stops nothing answers, and which decisions
    # that stand set limits.
    library = assemble(read_museum(DEMO))
    found = {
        name: runs_today(library, name, on=date(2026, 9, 15)).runs for name in library.machines
    }
    assert {
        "crash-tender": Runs.WITH_LIMITS,
        "dragline": Runs.STANDS,
        "fire-pump": Runs.NOT_KEPT_RUNNING,
        "motor-roller": Runs.RUNS,
        "quay-crane": Runs.STANDS,
        "sister-dragline": Runs.NOT_KEPT_RUNNING,
        "snow-plough": Runs.WITH_LIMITS,
    } == found
