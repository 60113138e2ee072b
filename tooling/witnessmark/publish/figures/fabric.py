"""How many original pieces each option leaves alone, alters, keeps off the machine, or loses."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from witnessmark.publish.figures.bars import Bar, Bars, keys_of, pieces_of
from witnessmark.publish.figures.figure import LEFT, Figure, Table
from witnessmark.publish.public_decision import Pieces, PublicOption

_KEYS = (
    ("solid", "stays as it is"),
    ("lines", "stays, altered"),
    ("diagonal", "taken out and kept"),
    ("cross", "lost"),
)
_ROW = 44


def fabric_figure(options: Sequence[PublicOption], *, name: str) -> Figure | None:
    """The bars of all options; None where nothing original is in question."""
    counted = [(o, o.pieces) for o in options if o.pieces is not None]
    whole = max((pieces.in_all for _, pieces in counted), default=0)
    if not whole:
        return None
    top = 16 * len(_KEYS) + 8
    bars = tuple(
        _bar(option.letter, pieces, top + place * _ROW, whole)
        for place, (option, pieces) in enumerate(counted)
    )
    return Figure(
        id=name,
        template="figures/bars.svg",
        title="Original material under each option",
        finding=_finding(counted, whole),
        height=top + _ROW * len(bars),
        drawing=Bars(keys=keys_of(_KEYS), bars=bars, left=LEFT),
        table=Table(
            head=("Option", *(words for _, words in _KEYS)),
            rows=tuple((o.letter, *map(str, _amounts(p).values())) for o, p in counted),
        ),
    )


def _amounts(pieces: Pieces) -> dict[str, int]:
    """How many pieces each pattern stands for, in the order of the key."""
    counts = (pieces.as_they_are, pieces.altered, pieces.kept, pieces.lost)
    return {pattern: count for (pattern, _), count in zip(_KEYS, counts, strict=True)}


def _bar(letter: str, pieces: Pieces, y: int, whole: int) -> Bar:
    return Bar(
        letter=letter,
        y=y,
        pieces=pieces_of(
            {pattern: Fraction(n) for pattern, n in _amounts(pieces).items()},
            whole=Fraction(whole),
            left=LEFT,
        ),
        text=(
            f"{pieces.as_they_are} as they are, {pieces.altered} altered, "
            f"{pieces.kept} kept, {pieces.lost} lost"
        ),
    )


def _finding(counted: Sequence[tuple[PublicOption, Pieces]], whole: int) -> str:
    chosen = next(((o, p) for o, p in counted if o.is_chosen), None)
    pieces = "piece" if whole == 1 else "pieces"
    if chosen is None:
        return f"{whole} original {pieces} are in question."
    option, left = chosen
    return (
        f"Of {whole} original {pieces} in the parts we looked at, our choice "
        f"({option.letter}) leaves {left.as_they_are} as they are, alters {left.altered}, "
        f"takes out and keeps {left.kept}, and loses {left.lost}."
    )
