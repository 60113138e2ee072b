"""Two records cannot use up one piece: overdraw and double use are errors naming both records."""

from __future__ import annotations

from typing import Any

import pytest

from building import BASE, DECISION, DONOR, STORES, changed, done, museum
from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.library import Library
from witnessmark.rules.check import check
from witnessmark.rules.rulebook_check import load_shipped

LAST_ONE = {STORES: {"lots.0.count": 1}}
OLD = {"do": "fit-old-stock", "part": "drum/bush", "like": "same", "from": "bushes", "count": 1}
DONATED = {"do": "fit-from-donor", "part": "drum/bush", "like": "same", "from": "sister/drum/bush"}
SIGNED = {"role": "collections", "by": "curator", "seal": "wm1:a", "words": "wm1w:a"}


def record(name: str, step: dict[str, Any], **other: Any) -> dict[str, str]:
    text = changed(BASE[DECISION], {"id": name, "options.1.steps.1": step, **other})
    return {f"winch/{name}-job.yml": text}


def agreed(name: str, day: str, step: dict[str, Any] = OLD) -> dict[str, str]:
    return record(name, step, state="agreed", agreed=[{**SIGNED, "date": day}])


def overdrawn(library: Library) -> list[Diagnostic]:
    checked = check(library, rulebook=load_shipped())
    return [one for one in checked.diagnostics if one.code == "WM087"]


def test_one_piece_for_one_record_is_fine() -> None:
    assert [] == overdrawn(museum(changes=LAST_ONE, also=agreed("2024-002", "2024-03-01")))


def test_two_records_that_reserve_the_last_piece_are_an_error_naming_both() -> None:
    also = {**agreed("2024-002", "2024-03-01"), **agreed("2024-003", "2024-03-02")}
    (found,) = overdrawn(museum(changes=LAST_ONE, also=also))
    assert ("error", "2024-003") == (found.level.value, found.record)
    expected = "2024-003 draws 1 from bushes, but 0 are left for it: 2024-002 has reserved 1."
    assert expected == found.message


def test_the_earlier_agreement_keeps_the_piece_whatever_the_ids_say() -> None:
    also = {**agreed("2024-002", "2024-03-09"), **agreed("2024-003", "2024-03-02")}
    (found,) = overdrawn(museum(changes=LAST_ONE, also=also))
    assert "2024-002" == found.record


def test_a_record_still_written_is_told_that_others_took_the_piece() -> None:
    also = {**agreed("2024-002", "2024-03-01"), **record("2024-003", OLD, opened="2024-01-01")}
    (found,) = overdrawn(museum(changes=LAST_ONE, also=also))
    assert ("2024-003", "options[1].steps[1].from") == (found.record, found.field)


def test_work_that_took_more_than_was_left_is_told_where_it_was_done() -> None:
    steps = "- {do: fit-old-stock, part: drum/bush, like: same, from: bushes, count: 2}"
    also = {
        "winch/2023-001-a.yml": done("2023-001", steps=steps, ended="2023-06-30"),
        "winch/2023-002-b.yml": done("2023-002", steps=steps, ended="2023-07-30"),
    }
    (found,) = overdrawn(museum(also=also))
    assert ("2023-002", "work.as_done[0].from") == (found.record, found.field)
    assert "2023-001 took 2 on 2023-06-30" in found.message


def test_what_was_taken_before_the_count_is_in_the_count() -> None:
    steps = "- {do: fit-old-stock, part: drum/bush, like: same, from: bushes, count: 3}"
    also = {"winch/2019-001-a.yml": done("2019-001", steps=steps, ended="2019-06-30")}
    assert [] == overdrawn(museum(also={**also, **record("2024-003", OLD)}))


@pytest.mark.parametrize(("count", "expected"), [(2, 0), (1, 1)])
def test_a_donors_part_goes_to_one_record_only(count: int, expected: int) -> None:
    step = {**DONATED, "count": 1}
    also = {**agreed("2024-002", "2024-03-01", step), **agreed("2024-003", "2024-03-02", step)}
    found = overdrawn(museum(changes={DONOR: {"assemblies.0.parts.0.count": count}}, also=also))
    assert expected == len(found)
    assert all("2024-002 has reserved 1" in one.message for one in found)


def test_a_donor_that_gave_all_it_had_gives_nothing_more() -> None:
    steps = "- {do: fit-from-donor, part: drum/bush, like: same, from: sister/drum/bush}"
    also = {"winch/2023-001-a.yml": done("2023-001", steps=steps)}
    (found,) = overdrawn(museum(also={**also, **record("2024-003", DONATED)}))
    assert "2023-001 took all on 2023-06-30" in found.message


def test_an_unknown_lot_is_told_once_by_its_own_check() -> None:
    assert [] == overdrawn(museum(also=record("2024-003", {**OLD, "from": "bushels"})))
