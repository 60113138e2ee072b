"""What the public may see of a weighing: its figures, and the sentences made from them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from witnessmark.weighing.ternary import TernaryMap
from witnessmark.weighing.words import Standing, VerdictWord

Weights = tuple[Fraction, Fraction, Fraction]
"""Authenticity, safety and reversibility; the three add up to 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicWeighed:
    """How one option came out; None stands for a figure there is no meaning for.

    `nearest` are the weights nearest to the museum's at which it would win, `moved` the share of
    the whole that must at least move for it.
    """

    option: str
    letter: str
    shade: int
    is_chosen: bool
    standing: Standing
    value: Fraction | None
    chance: Fraction | None
    share_all: Fraction | None
    share_policy: Fraction | None
    nearest: Weights | None
    moved: Fraction | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicWeighing:
    """How sure a result is, in a word, in figures and in sentences that name options by letter.

    `lead` is what to read first; `flips` each single score that would change the result, and
    `stability` how far each weight can move; `doubt` the chances and what they assume, `steps`
    whether the worth of the levels matters; `others` how the options behind stand, `aside` what
    each exclusion costs. `map` is None where no weights make another option win, and `unmapped`
    says so, unless nothing was weighed against anything. `beaten` are those of the `others` that
    the table of the figures does not tell; `decides` names the one score between the leader and a
    rival that is as good on the other two.
    """

    word: VerdictWord
    lead: tuple[str, ...]
    flips: tuple[str, ...]
    stability: tuple[str, ...]
    doubt: tuple[str, ...]
    steps: tuple[str, ...]
    others: tuple[str, ...]
    aside: tuple[str, ...]
    has_ranges: bool
    rows: tuple[PublicWeighed, ...]
    beaten: tuple[str, ...] = ()
    decides: str | None = None
    map: TernaryMap | None
    unmapped: str | None

    def row(self, option: str) -> PublicWeighed:
        """How one option came out."""
        return next(row for row in self.rows if row.option == option)
