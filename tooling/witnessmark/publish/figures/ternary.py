"""The map of all weights: which option leads where, our own weights, and what we allow.

The map's places come as they were cut, exactly, with whole hundredths of a unit; nothing is worked
out here but what is said beside it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from witnessmark.publish.figures.figure import Figure
from witnessmark.publish.figures.weighing_table import weighing_table
from witnessmark.publish.public_weighing import PublicWeighing
from witnessmark.publish.shown_names import listed
from witnessmark.weighing.ternary import UNIT, Spot, TernaryMap, in_units
from witnessmark.weighing.verdict import in_a_hundred

PATTERNS = ("solid", "diagonal", "dots", "cross", "upright", "level", "rings", "counter")
"""One for each option in turn; past the last they start again, and the letters tell."""
_INKS = 4  # options beyond the fourth share one neutral ink and are told by pattern and letter
_MARGIN, _ABOVE, _BELOW, _KEY = 16, 64, 74, 62
_READING = (
    "Each point of the triangle is one way to weigh the three scores: the nearer it lies to a "
    "corner, the more that score counts, and the letter there says which option then leads."
)
"""Room around the map, in its units: at its edges, for the words above and below, for a key."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnArea:
    """One area: its corners as a drawing writes them, and its pattern, ink and label."""

    letters: str
    pattern: str
    ink: int
    points: str
    label: Spot
    plate: tuple[str, str, str, str]
    leader: tuple[Spot, Spot] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ternary:
    """Everything on the map; `policy` has three corners or more, or two for a line, or one."""

    box: str
    wide: str
    areas: tuple[DrawnArea, ...]
    corners: str
    policy: tuple[Spot, ...]
    mark: Spot | None
    keys: tuple[tuple[str, str, str], ...]


def ternary_figure(weighing: PublicWeighing, *, name: str) -> Figure | None:
    """The map with its table; None where no weights make another option win."""
    if weighing.map is None:
        return None
    found = weighing.map
    keys = tuple(_keys(found))
    box = (
        found.frame.left // UNIT - _MARGIN,
        found.frame.top // UNIT - _ABOVE,
        -(-(found.frame.right - found.frame.left) // UNIT) + 2 * _MARGIN,
        -(-(found.frame.bottom - found.frame.top) // UNIT) + _ABOVE + _BELOW + _KEY * len(keys),
    )
    return Figure(
        id=name,
        template="figures/ternary.svg",
        title="Which option leads at which weights",
        finding=_finding(weighing, found),
        height=box[3],
        drawing=Ternary(
            box=" ".join(map(str, box)),
            wide=str(box[2]),
            areas=tuple(_areas(weighing, found)),
            corners=_points(found.corners),
            policy=found.policy,
            mark=found.mark,
            keys=keys,
        ),
        table=weighing_table(weighing),
        reading=_READING,
    )


def _areas(weighing: PublicWeighing, found: TernaryMap) -> Iterator[DrawnArea]:
    for area in found.areas:
        shade = weighing.row(area.members[0]).shade
        box = area.label.box
        yield DrawnArea(
            letters=area.label.text,
            pattern=PATTERNS[shade % len(PATTERNS)],
            ink=min(shade, _INKS),
            points=_points(area.outline),
            label=area.label.centre,
            plate=(
                in_units(box.left),
                in_units(box.top),
                in_units(box.right - box.left),
                in_units(box.bottom - box.top),
            ),
            leader=area.label.leader,
        )


def _points(spots: Sequence[Spot]) -> str:
    return " ".join(map(str, spots))


def _keys(found: TernaryMap) -> Iterator[tuple[str, str, str]]:
    """The key below the map: what a sign stands for, and how far down it is."""
    top = found.frame.bottom // UNIT + _BELOW
    signs = []
    if found.mark is not None:
        signs.append(("mark", "our own weights"))
    if found.policy:
        signs.append(("policy", "the weights we allow"))
    for place, (sign, words) in enumerate(signs):
        yield sign, words, str(top + _KEY * place + _KEY // 2)


def _finding(weighing: PublicWeighing, found: TernaryMap) -> str:
    firsts = [weighing.row(area.members[0]) for area in found.areas]
    names = [_named(area.label.text) for area in found.areas]
    everywhere = _shares([(n, row.share_all) for n, row in zip(names, firsts, strict=True)])
    said = f"Of all the weights there are, {everywhere}."
    if not weighing.has_ranges:
        return f"{said} Our policy sets no limits to the weights."
    allowed = [(n, r.share_policy) for n, r in zip(names, firsts, strict=True) if r.share_policy]
    if not allowed:
        return f"{said} Our policy allows no more than one weighting."
    return f"{said} Of the weights we allow, {_shares(allowed)}."


def _named(letters: str) -> str:
    return f"options {letters}" if "," in letters else f"option {letters}"


def _shares(found: Sequence[tuple[str, Fraction | None]]) -> str:
    rows = sorted(found, key=lambda row: -(row[1] or 0))
    (first, share), *rest = [(name, in_a_hundred(share or Fraction(0))) for name, share in rows]
    return listed([f"{share} favour {first}", *(f"{other} {name}" for name, other in rest)])
