"""Authenticity: six aspects side by side, and the museum's declared weighting of them.

Source: Nara Document on Authenticity, 1994, paragraph 13 for the aspects. Paragraph 11 rejects one
fixed scale, so the six come first and the single number is only this museum's weighting for this
machine.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from math import lcm

from witnessmark.model.machine import Significance
from witnessmark.model.options import Judged, JudgedBy, Option
from witnessmark.model.words import Aspect
from witnessmark.scoring.score import Score, Scored, Withheld, one_decimal, whole

_NOUGHT = Fraction(0)


@dataclass(frozen=True)
class NotApplicable:
    """An aspect that does not apply, with the sentence that says why."""

    because: str


@dataclass(frozen=True)
class AspectScore:
    """One aspect of one option: its score, the reason, who judged and when."""

    aspect: Aspect
    weight: Fraction
    score: Scored | NotApplicable
    how: str
    because: str
    by: str | None = None
    date: date | None = None


@dataclass(frozen=True)
class Authenticity:
    """The six aspects and the one number."""

    aspects: Mapping[Aspect, AspectScore]
    score: Scored


def reckon_authenticity(
    option: Option, *, material: Scored, significance: Significance, judged_by: JudgedBy | None
) -> Authenticity:
    """The weighted mean of the aspects that apply; withheld while any of them is unjudged."""
    rows = {a: _aspect(a, option, material, significance, judged_by) for a in Aspect}
    return Authenticity(rows, _mean(rows))


def _aspect(
    aspect: Aspect,
    option: Option,
    material: Scored,
    significance: Significance,
    judged_by: JudgedBy | None,
) -> AspectScore:
    weight = significance.carried_by.get(aspect, _NOUGHT)
    if aspect is Aspect.MATERIAL:
        return AspectScore(aspect, weight, material, "computed", "Computed from parts and steps.")
    if aspect in option.judged:
        return _judged(aspect, weight, option.judged[aspect], judged_by)
    if aspect in option.unaffected:
        level = significance.present.get(aspect, 4)
        because = option.unaffected[aspect]
        return AspectScore(aspect, weight, Score.exactly(level, because), "unaffected", because)
    if aspect in option.not_applicable:
        because = option.not_applicable[aspect]
        return AspectScore(aspect, weight, NotApplicable(because), "not applicable", because)
    why = f"The aspect {aspect.value} is not judged."
    return AspectScore(aspect, weight, Withheld((why,)), "blank", why)


def _judged(
    aspect: Aspect, weight: Fraction, judged: Judged, judged_by: JudgedBy | None
) -> AspectScore:
    levels = (whole(judged.lowest), whole(judged.likely), whole(judged.highest))
    by = judged.by or (judged_by.by if judged_by else None)
    day = judged.date or (judged_by.date if judged_by else None)
    score = Score(*levels, (judged.because,))
    return AspectScore(aspect, weight, score, "judged", judged.because, by, day)


def _mean(rows: Mapping[Aspect, AspectScore]) -> Scored:
    blank = tuple(
        w for row in rows.values() if isinstance(row.score, Withheld) for w in row.score.why
    )
    if blank:
        return Withheld(blank)
    parts = [
        (row, row.score) for row in rows.values() if isinstance(row.score, Score) and row.weight
    ]
    over = lcm(*(row.weight.denominator for row, _ in parts))
    shares = [row.weight.numerator * (over // row.weight.denominator) for row, _ in parts]
    if sum(shares) == 0:
        return Withheld(("No aspect that carries the machine's significance applies here.",))
    likely = _weighted(shares, [score.likely for _, score in parts])
    low = high = likely
    if any(score.low is not score.high for _, score in parts):
        low = _weighted(shares, [score.low for _, score in parts])
        high = _weighted(shares, [score.high for _, score in parts])
    shown = " + ".join(
        f"{row.weight} x {row.aspect.value} {one_decimal(s.likely)}" for row, s in parts
    )
    total = Fraction(sum(shares), over)
    return Score(low, likely, high, (f"({shown}) / {total} = {one_decimal(likely)}.",))


def _weighted(shares: Sequence[int], levels: Sequence[Fraction]) -> Fraction:
    """The mean of some levels, each counted so many times.

    In whole numbers over one denominator: Fractions added one by one took four times as long.
    """
    over = lcm(*(level.denominator for level in levels))
    parts = zip(shares, levels, strict=True)
    total = sum(n * level.numerator * (over // level.denominator) for n, level in parts)
    return Fraction(total, over * sum(shares))
