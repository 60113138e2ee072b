"""How long one page of the preview takes in a large museum, first and after a file is saved."""

from __future__ import annotations

import time
from collections.abc import Iterator
from datetime import date
from pathlib import Path

from witnessmark.cli.preview_answers import Answers

DAY = date(2026, 9, 15)


def preview_times(museum: Path) -> Iterator[tuple[str, float]]:
    """Seconds for the page of one decision: from nothing, once more, and after it was saved.

    It is the last one, since all others are earlier and may be like it.
    """
    record = max(museum.glob("*/20??-???-*.yml"))
    answers = Answers(museum, as_of=DAY, is_public=False)
    address = f"d/{record.name[:8]}/"
    yield "preview of one page, the first", _timed(answers, address)
    yield "preview of one page, again", _timed(answers, address)
    saved = record.read_text(encoding="utf-8")
    record.write_text(saved.replace("title: ", "title: Now ", 1), encoding="utf-8")
    yield "preview of one page, after it is saved", _timed(answers, address)
    record.write_text(saved, encoding="utf-8")


def _timed(answers: Answers, address: str) -> float:
    start = time.perf_counter()
    answer = answers.to(address)
    took = time.perf_counter() - start
    if answer.code != 200:
        raise SystemExit(f"the preview of {address} answered {answer.code}")
    return took
