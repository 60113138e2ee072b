"""The risk matrix, cell by cell.

Source: MIL-STD-882E (2012), Table III. The cells stand here as three public transcriptions of the
standard give them, which agree on every cell; the standard's own file was not opened.
"""

from __future__ import annotations

import itertools
from collections import Counter

import pytest

from witnessmark.scoring.matrix882 import (
    LEVEL_OF_RISK,
    PROBABILITY,
    SEVERITY,
    RiskLevel,
    cell_words,
    risk_level,
)

CELLS = {
    "1A": "High",
    "1B": "High",
    "1C": "High",
    "1D": "Serious",
    "1E": "Medium",
    "2A": "High",
    "2B": "High",
    "2C": "Serious",
    "2D": "Medium",
    "2E": "Medium",
    "3A": "Serious",
    "3B": "Serious",
    "3C": "Medium",
    "3D": "Medium",
    "3E": "Medium",
    "4A": "Medium",
    "4B": "Medium",
    "4C": "Low",
    "4D": "Low",
    "4E": "Low",
}


@pytest.mark.parametrize("cell", CELLS)
def test_each_of_the_20_cells_is_as_transcribed(cell: str) -> None:
    assert CELLS[cell] == risk_level(cell).value


def test_all_20_cells_are_named() -> None:
    expected = {f"{s}{p}" for s, p in itertools.product("1234", "ABCDE")}
    assert expected == set(CELLS)


def test_there_are_5_high_4_serious_8_medium_and_3_low_cells() -> None:
    found = Counter(risk_level(cell).value for cell in CELLS)
    assert {"High": 5, "Serious": 4, "Medium": 8, "Low": 3} == found


@pytest.mark.parametrize("severity", "1234")
def test_a_hazard_that_cannot_occur_is_eliminated(severity: str) -> None:
    assert RiskLevel.ELIMINATED is risk_level(f"{severity}F")


@pytest.mark.parametrize("severity", "1234")
def test_a_less_probable_harm_is_never_a_greater_risk(severity: str) -> None:
    levels = [LEVEL_OF_RISK[risk_level(f"{severity}{p}")] for p in "ABCDEF"]
    assert sorted(levels) == levels


@pytest.mark.parametrize("probability", "ABCDEF")
def test_a_less_severe_harm_is_never_a_greater_risk(probability: str) -> None:
    levels = [LEVEL_OF_RISK[risk_level(f"{s}{probability}")] for s in "1234"]
    assert sorted(levels) == levels


def test_the_scale_runs_from_high_0_to_eliminated_4() -> None:
    found = {level.value: score for level, score in LEVEL_OF_RISK.items()}
    assert {"High": 0, "Serious": 1, "Medium": 2, "Low": 3, "Eliminated": 4} == found


def test_every_severity_and_probability_has_its_name() -> None:
    expected = ["Catastrophic", "Critical", "Marginal", "Negligible"]
    assert expected == [SEVERITY[n][0] for n in (1, 2, 3, 4)]
    expected = ["Frequent", "Probable", "Occasional", "Remote", "Improbable", "Eliminated"]
    assert expected == [PROBABILITY[letter][0] for letter in "ABCDEF"]


def test_nobody_can_edit_the_matrix() -> None:
    with pytest.raises(TypeError):
        LEVEL_OF_RISK[RiskLevel.HIGH] = 4  # type: ignore[index]


@pytest.mark.parametrize(
    ("cell", "expected"),
    [
        ("2C", "2C (critical, occasional: serious risk)"),
        ("3E", "3E (marginal, improbable: medium risk)"),
        ("1F", "1F (catastrophic, eliminated: no risk left)"),
    ],
)
def test_a_cell_is_printed_in_words(cell: str, expected: str) -> None:
    assert expected == cell_words(cell)
