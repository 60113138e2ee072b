"""What two sides of a review have alike is worked out once, and the review says the same."""

from __future__ import annotations

import random
import re
from dataclasses import replace

import pytest

from calling import DEMO
from reviewing import both, side
from witnessmark.exchange.review import review_of
from witnessmark.model.library import Folder
from witnessmark.repository.disk import read_museum


def with_other_figures(museum: Folder, seed: int) -> Folder:
    """The museum with some digits of two of its files changed, by dice that fall alike."""
    dice = random.Random(seed)  # noqa: S311  edits, not secrets
    files = dict(museum.files)
    for name in dice.sample(sorted(files), 2):
        text = files[name].decode()
        for found in dice.sample(list(re.finditer(r"[0-9]", text)), 3):
            text = text[: found.start()] + dice.choice("0123456789") + text[found.end() :]
        files[name] = text.encode()
    return replace(museum, files=files)


@pytest.mark.parametrize("seed", range(6))
def test_what_is_alike_is_worked_out_once_and_the_review_says_the_same(seed: int) -> None:
    museum = read_museum(DEMO)
    base, head = with_other_figures(museum, seed), with_other_figures(museum, seed + 100)
    apart = review_of(side(base, label="base"), side(head, label="head"))
    assert apart == review_of(*both(base, head))
    assert not apart.is_empty


def test_records_on_the_same_footing_are_one_case_on_both_sides() -> None:
    museum = read_museum(DEMO)
    files = dict(museum.files)
    record = next(name for name in sorted(files) if name.startswith("fire-pump/2023-004"))
    files[record] += b"# looked at again\n"
    base, head = both(museum, replace(museum, files=files))
    apart = {name for name, case in head.cases.items() if base.cases[name] is not case}
    assert {
        name.partition("/")[2][:8] for name in files if name.startswith("fire-pump/20")
    } == apart
