"""The worksheets a decision uses are recomputed from what the record gives them."""

from __future__ import annotations

import pytest

from building import DECISION, decision_in, museum
from witnessmark.scoring.sheets import Reckoned, reckon_sheets


def reckoned(**given: object) -> Reckoned:
    changes = {f"worksheets.0.{name}": value for name, value in given.items()}
    (sheet,) = reckon_sheets(decision_in(museum(changes={DECISION: changes})))
    return sheet


def clearance(limit: str) -> dict[str, str]:
    return {"bore": "65.74 ± 0.01 mm", "journal": "65.00 ± 0.01 mm", "limit": limit}


@pytest.mark.parametrize(
    ("limit", "expected"),
    [("0.50 mm", "beyond"), ("0.74 mm", "cannot-tell"), ("0.80 mm", "near"), ("2 mm", "within")],
)
def test_a_sheet_has_the_verdict_its_figures_give(limit: str, expected: str) -> None:
    assert expected == reckoned(given=clearance(limit)).verdict.verdict


def test_a_verdict_keeps_the_id_and_parts_of_the_record() -> None:
    verdict = reckoned().verdict
    assert ("clearance", ("drum/bush",)) == (verdict.id, verdict.bears_on)


def test_a_sheet_nobody_knows_is_a_fault_and_not_an_error() -> None:
    sheet = reckoned(sheet="bearing-clearanse")
    assert sheet.run is None
    assert sheet.verdict.verdict is None
    assert len(sheet.faults) == 1


def test_figures_a_sheet_refuses_are_faults_and_not_errors() -> None:
    sheet = reckoned(given={"bore": "65.74", "journal": "a lot", "limit": "0.5 mm"})
    assert sheet.run is None
    assert {"bore", "journal"} <= {fault.name for fault in sheet.faults}
