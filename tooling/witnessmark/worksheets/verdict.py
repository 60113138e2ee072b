"""How a result stands to its limit, in one of four words, and why."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from witnessmark.worksheets.declare import Number, Side

# Within a tenth of the limit on the safe side. Common practice, no source.
NEAR_SHARE = Fraction(1, 10)
# A float margin smaller than this share of the limit is arithmetic noise, so the result is at the
# limit. Exact margins (fractions) are compared as they stand.
_NOISE = 1e-12


class Verdict(Enum):
    """The four answers a limit can give; the text says what each means."""

    WITHIN = "the result keeps to the limit, with more than a tenth of it to spare"
    NEAR = "the result keeps to the limit, with a tenth of it or less to spare"
    CANNOT_TELL = "the limit lies inside the k = 2 band of the result, or meeting it proves nothing"
    BEYOND = "the result does not keep to the limit"

    @property
    def word(self) -> str:
        """Give the word that records and reports use."""
        return self.name.lower().replace("_", "-")


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitMet:
    """One limit as it was met: `value`, `limit` and `margin` in `unit`, margin over 0 if safe."""

    result: str
    side: Side
    value: float
    limit: float
    margin: float
    plus_minus: float | None
    unit: str
    verdict: Verdict
    because: str


def judge(margin: Number, *, limit: Number, plus_minus: float | None) -> Verdict:
    """Give the verdict for a margin (over 0 is safe) and its expanded uncertainty, k = 2."""
    if isinstance(margin, float) and abs(margin) <= _NOISE * abs(float(limit)):
        margin = 0.0
    if plus_minus and -plus_minus <= margin <= plus_minus:
        return Verdict.CANNOT_TELL
    if margin < 0:
        return Verdict.BEYOND
    spare = NEAR_SHARE * (limit if limit > 0 else -limit)
    return Verdict.NEAR if margin <= spare else Verdict.WITHIN


def governing(verdicts: Iterable[Verdict]) -> Verdict | None:
    """Give the verdict that governs a sheet with several limits, or None where it met none.

    A limit known to be passed governs one we cannot tell; what we cannot tell governs the rest.
    """
    order = list(Verdict)
    return max(verdicts, key=order.index, default=None)
