"""How all tests run: no deadlines, so that a slow machine changes no verdict."""

from __future__ import annotations

import os
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, settings

SOAK = os.environ.get("WITNESSMARK_SOAK") == "1"
settings.register_profile(
    "samples", deadline=None, max_examples=60, suppress_health_check=[HealthCheck.too_slow]
)
settings.register_profile(
    "soak", deadline=None, max_examples=1000, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("soak" if SOAK else "samples")


@pytest.fixture(autouse=True, scope="session")
def _own_cache_folder(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """What the program remembers in tests, it forgets with them."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))
        yield
