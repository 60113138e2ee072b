"""The verb `work`: what the demo's jobs took, as a look through the files by hand answers."""

from __future__ import annotations

from calling import DEMO, call


def test_the_jobs_of_the_demo_are_told_with_what_they_took() -> None:
    found = call("work", "--museum", str(DEMO), "--format", "json").json
    # Read by hand from work and effort in 2023-002 and 2024-003.
    by_id = {job["decision"]: job for job in found["jobs"]}
    assert {"done": "31", "thought": ["16", "24"], "against": "more"} == by_id["2023-002"]["hours"]
    assert {"done": "2940", "thought": ["2600", "3400"], "against": "within"} == (
        by_id["2024-003"]["cost"]
    )
    assert "within" == by_id["2024-003"]["outcomes"][0]["against"]
    assert 75 == by_id["2024-003"]["days"]


def test_the_table_says_what_cannot_be_compared() -> None:
    told = call("work", "--museum", str(DEMO)).out
    assert "2023-002  2023-03-24    19  in-house     31  16 to 24, more" in told
    assert "No hours to compare in 2 of 9: 2022-001, 2026-005." in told
    assert "cannot be compared yet" in told


def test_a_decision_is_told_what_earlier_work_has_to_say() -> None:
    told = call("work", "2024-003", "--museum", str(DEMO)).out
    assert told.startswith("2023-002 (followed) Why we went back to oil")
    assert "The hours came to 31; 16 to 24 was thought." in told
    found = call("work", "2024-003", "--museum", str(DEMO), "--format", "json").json
    assert [("2023-002", "followed")] == [(one["decision"], one["tie"]) for one in found["lessons"]]
