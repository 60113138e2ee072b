"""A copy of the demo museum that a test may change."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from calling import DEMO, Record


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    """A copy of the demo museum that a test may change."""
    return Path(shutil.copytree(DEMO, tmp_path / "decisions"))


@pytest.fixture
def bushes(demo: Path) -> Record:
    """The crane's slewing bushes, the record that the tour is about."""
    return Record(demo / "quay-crane" / "2024-003-slewing-bushes.yml")
