"""Deposits of the frozen museum, made once for all tests that look at them."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from depositing import FROZEN, Made, made
from keeping import Kept, keep


@pytest.fixture(scope="session")
def frozen(tmp_path_factory: pytest.TempPathFactory) -> Kept:
    """The frozen museum under git, with one change after the first commit."""
    where = tmp_path_factory.mktemp("frozen")
    kept = keep(Path(shutil.copytree(FROZEN / "museum", where / "museum")))
    kept.change("stores.yml", "witnessmark: 1", "# counted twice\nwitnessmark: 1")
    kept.commit("a remark", who="Zelda Privatename", day="2026-06-01T10:00:00+00:00")
    return kept


@pytest.fixture(scope="session")
def public(frozen: Kept, tmp_path_factory: pytest.TempPathFactory) -> Made:
    """The public deposit of the frozen museum."""
    return made(frozen, tmp_path_factory.mktemp("deposits") / "public")


@pytest.fixture(scope="session")
def sealed(frozen: Kept, tmp_path_factory: pytest.TempPathFactory) -> Made:
    """The sealed deposit of the frozen museum."""
    return made(frozen, tmp_path_factory.mktemp("deposits") / "sealed", "--sealed")
