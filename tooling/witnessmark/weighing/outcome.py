"""What a weighing found: how each option came out, and what would change the result."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from witnessmark.weighing.flips import Flip
from witnessmark.weighing.nearest import Nearest
from witnessmark.weighing.option import Weights
from witnessmark.weighing.ordinal import OrderTest
from witnessmark.weighing.partition import Partition
from witnessmark.weighing.stability import Interval
from witnessmark.weighing.verdict import Verdict
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighing:
    """Everything a weighing found; options are sorted by id.

    Without weights, what needs them is None or empty. `all_weights` and `policy` are the divided
    regions themselves, for drawing.
    """

    options: tuple[Weighed, ...]
    winner: tuple[str, ...] | None
    verdict: Verdict | None
    stability: tuple[Interval, Interval, Interval] | None
    flips: tuple[Flip, ...] | None
    if_lifted: tuple[Lifted, ...]
    order_tests: tuple[OrderTest, ...]
    all_weights: Partition
    policy: Partition | None
    cautions: tuple[str, ...]

    def of(self, option: str) -> Weighed:
        """Give how one option came out."""
        return next(weighed for weighed in self.options if weighed.id == option)
