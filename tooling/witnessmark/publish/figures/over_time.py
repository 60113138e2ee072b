"""A machine's metal over the years: what sits in it by origin, what is kept off it or lost."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from witnessmark.publish.figures.bars import Bar, Bars, keys_of, pieces_of
from witnessmark.publish.figures.figure import Figure, Table
from witnessmark.publish.public import Account, Tally

_KINDS = (
    ("as_built", "solid", "as built"),
    ("in_service", "dots", "from its working life"),
    ("unknown", "lines", "origin unknown"),
    ("museum_made", "empty", "made by the museum"),
    ("kept", "diagonal", "original, kept off the machine"),
    ("elsewhere", "upright", "original, now in another machine"),
    ("lost", "cross", "original, lost"),
)
_ROW = 50


def over_time_figure(account: Sequence[Account], *, name: str, machine: str) -> Figure:
    """One bar for each day on which something changed, drawn by count of pieces."""
    used = [kind for kind in _KINDS if any(getattr(a.pieces, kind[0]) for a in account)]
    whole = max((a.pieces.whole for a in account), default=Fraction(0))
    keys = keys_of([(pattern, words) for _, pattern, words in used])
    top = 16 * len(keys) + 20
    bars = tuple(_bar(row, top + place * _ROW, whole) for place, row in enumerate(account))
    return Figure(
        id=name,
        template="figures/bars.svg",
        title=f"The material of {machine[:1].lower()}{machine[1:]} over time",
        finding=_finding(account[-1].pieces) if account else "Nothing is listed yet.",
        height=top + _ROW * len(bars) - 14,
        drawing=Bars(keys=keys, bars=bars, left=0),
        table=Table(
            head=("Day", *(words for _, _, words in used)),
            rows=tuple(
                (row.day.isoformat(), *(str(getattr(row.pieces, kind)) for kind, _, _ in used))
                for row in account
            ),
        ),
    )


def _bar(row: Account, y: int, whole: Fraction) -> Bar:
    amounts = {pattern: getattr(row.pieces, kind) for kind, pattern, _ in _KINDS}
    pieces = pieces_of(amounts, whole=whole, left=0)
    tally = row.pieces
    text = (
        f"{row.day.isoformat()}: {tally.originals} original in place, {tally.kept} kept, "
        f"{tally.lost} lost"
    )
    return Bar(letter="", y=y, pieces=pieces, text=text)


def _finding(tally: Tally) -> str:
    return (
        f"Of {tally.in_place} pieces in the machine now, {tally.originals} are original. "
        f"Original pieces kept off it: {tally.kept}. Original pieces lost: {tally.lost}."
    )
