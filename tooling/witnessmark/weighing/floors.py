"""Which options fall below a floor, before anything is weighed."""

from __future__ import annotations

from collections.abc import Iterable

from witnessmark.weighing.option import CRITERIA, Option
from witnessmark.weighing.weighting import Floors


def below_a_floor(options: Iterable[Option], *, floors: Floors) -> dict[str, str]:
    """Give the options whose likely score is under a floor, each with the reason in words."""
    reasons: dict[str, str] = {}
    for option in options:
        faults = [
            f"its {criterion} of {score} is below the floor of {floor}"
            for criterion, score, floor in zip(CRITERIA, option.likelies, floors, strict=True)
            if floor is not None and score < floor
        ]
        if faults:
            reasons[option.id] = " and ".join(faults)
    return reasons
