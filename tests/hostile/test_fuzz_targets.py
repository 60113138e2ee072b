"""Every target of the fuzzer runs, over its seeds and some changes of them."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from conftest import SOAK
from fuzz_targets import TARGETS
from mutating import KIND, bytes_changed, in_time

EXAMPLES = 1000 if SOAK else 25


@pytest.mark.parametrize("name", TARGETS)
def test_nothing_comes_out_of(name: str) -> None:
    target, seeds = TARGETS[name]
    for seed in seeds:
        target(seed)

    @settings(KIND, max_examples=EXAMPLES)
    @given(st.sampled_from(seeds).flatmap(bytes_changed))
    def every(raw: bytes) -> None:
        with in_time():
            target(raw)

    every()
