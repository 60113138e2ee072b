"""How all tests run: no deadlines, so that a slow machine changes no verdict."""

from __future__ import annotations

import os

from hypothesis import HealthCheck, settings

SOAK = os.environ.get("WITNESSMARK_SOAK") == "1"
settings.register_profile(
    "samples", deadline=None, max_examples=60, suppress_health_check=[HealthCheck.too_slow]
)
settings.register_profile(
    "soak", deadline=None, max_examples=1000, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("soak" if SOAK else "samples")
