"""How each option came out, as a table of the numbers that the map of weights is drawn from."""

from __future__ import annotations

from fractions import Fraction

from witnessmark.publish.figures.figure import Table
from witnessmark.publish.public_weighing import PublicWeighed, PublicWeighing
from witnessmark.scoring.fabric import one_percent
from witnessmark.scoring.score import one_decimal
from witnessmark.weighing.verdict import in_a_hundred
from witnessmark.weighing.words import Standing

HEAD = (
    "Option",
    "Leads, of all weights",
    "Leads, of those we allow",
    "Chance of being best",
    "Worth",
    "Standing",
    "Weight that must shift for a tie",
    "Weights there: authenticity, safety, reversibility",
)

PLAINLY = {
    Standing.BEST: "leads",
    Standing.SUPPORTED: "could lead",
    Standing.TOUCHING: "could only tie",
    Standing.UNSUPPORTED: "could not lead",
    Standing.DOMINATED: "beaten throughout",
    Standing.SET_ASIDE: "set aside",
    Standing.NOT_SCORED: "not scored",
}
"""How an option stands, in words that need no explanation."""


def weighing_table(weighing: PublicWeighing) -> Table:
    """Every option with the figures of the weighing; without ranges their column is left out."""
    gone = () if weighing.has_ranges else (2,)
    rows = (
        (
            f"{row.letter} (chosen)" if row.is_chosen else row.letter,
            _hundred(row.share_all),
            _hundred(row.share_policy),
            _hundred(row.chance),
            "none" if row.value is None else one_decimal(row.value),
            PLAINLY[row.standing],
            *_nearest(row),
        )
        for row in weighing.rows
    )
    kept = [place for place in range(len(HEAD)) if place not in gone]
    return Table(
        head=tuple(HEAD[place] for place in kept),
        rows=tuple(tuple(row[place] for place in kept) for row in rows),
        is_wide=True,
    )


def _hundred(share: Fraction | None) -> str:
    return "none" if share is None else in_a_hundred(share)


def _nearest(row: PublicWeighed) -> tuple[str, str]:
    """How much weight must move for an option to lead, and the nearest weights at which it does."""
    if row.standing is Standing.BEST:
        return "none", "ours"
    if row.nearest is None or row.moved is None:
        return "none", "none"
    return in_a_hundred(row.moved), ", ".join(map(_percent, row.nearest))


def _percent(weight: Fraction) -> str:
    """A weight in whole percent; none and all are said of nothing that is rounded."""
    return one_percent(weight).replace(" ", "")
