"""What a weighing found: how each option came out, and what would change the result."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from witnessmark.weighing.nearest import Nearest
from witnessmark.weighing.option import Weights
from witnessmark.weighing.words import Standing


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """How one option came out; None stands for a figure there is no meaning for."""

    id: str
    standing: Standing
    set_aside: str | None = None
    value: Fraction | None = None
    dominated_by: tuple[str, ...] = ()
    tied_with: tuple[str, ...] = ()
    share_all: Fraction | None = None
    share_policy: Fraction | None = None
    central_weights: Weights | None = None
    chance_best: Fraction | None = None
    regret: Fraction | None = None
    ranks: tuple[Fraction, ...] | None = None
    nearest: Nearest | None = None


@dataclass(frozen=True, slots=True)
class Lifted:
    """Which options would win, were the exclusion of this one alone lifted."""

    option: str
    winners: tuple[str, ...]
