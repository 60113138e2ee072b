"""A folder with the demo's tables, and a copy of the demo museum that a test may change."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from calling import DEMO, Record
from exported import demo_folder


@pytest.fixture(scope="session")
def tables(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo's tables in a folder, as export writes them."""
    return demo_folder(tmp_path_factory.mktemp("tables"))


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    """A copy of the demo museum that a test may change."""
    return Path(shutil.copytree(DEMO, tmp_path / "decisions"))


@pytest.fixture
def bushes(demo: Path) -> Record:
    """The crane's slewing bushes."""
    return Record(demo / "quay-crane" / "2024-003-slewing-bushes.yml")
