"""Whether two metals in contact will eat one another where they are kept, and which one goes.

A screen by the anodic index, not a rate: water, area and time decide how much is lost. Bronze
bushes in steel fail it everywhere but in controlled air, and have run for a century under oil.
"""

from __future__ import annotations

from typing import Annotated, NamedTuple

from witnessmark.worksheets import anodic_index
from witnessmark.worksheets.anodic_index import Metal, metals
from witnessmark.worksheets.declare import (
    Caution,
    Choice,
    Example,
    Figures,
    Flag,
    Gives,
    Limit,
    NamedRow,
    Number,
    Printed,
    Sheet,
    Side,
    Source,
    Standing,
)


class Pair(NamedTuple):
    """How far apart the two metals stand, how far they may, and which of them wastes."""

    difference: Annotated[Number, Gives(unit="V", meaning="difference of their anodic indices")]
    allowed: Annotated[Number, Gives(unit="V", meaning="difference allowed in such a place")]
    wastes: Annotated[str, Gives(unit="", meaning="the metal that wastes first, or neither")]


def galvanic_pair(
    *,
    metal: Annotated[Metal, NamedRow(meaning="one of the two metals", rows=metals())],
    other: Annotated[Metal, NamedRow(meaning="the metal it touches", rows=metals())],
    place: Annotated[
        str,
        Choice(
            meaning="where they are kept",
            words={
                "outdoor": "outdoors, damp or salt",
                "store": "an ordinary store, dry but not controlled",
                "controlled": "controlled temperature and humidity",
            },
        ),
    ],
    sacrificial: Annotated[  # noqa: ARG001 - the limit below reads it
        bool, Flag(meaning="true where one is meant to waste for the other")
    ] = False,
) -> Pair:
    """Give the galvanic difference of two metals, the difference allowed, and which wastes."""
    apart = metal.index - other.index
    return Pair(
        difference=apart if apart >= 0 else -apart,
        allowed=anodic_index.allowed_difference(place),
        wastes="neither" if not apart else (metal if apart > 0 else other).name,
    )


def _bound(figures: Figures) -> Number | None:
    """Give the difference allowed, or none where one metal is meant to waste for the other."""
    return None if _is_sacrificial(figures) else figures.number("allowed")


def _is_sacrificial(figures: Figures) -> bool:
    return figures.value("sacrificial") is True


def _named(figures: Figures, *beginnings: str) -> bool:
    pair = (figures.value("metal"), figures.value("other"))
    return any(isinstance(one, Metal) and one.name.startswith(beginnings) for one in pair)


def _has_monel(figures: Figures) -> bool:
    return _named(figures, "monel")


def _has_poison_metal(figures: Figures) -> bool:
    return _named(figures, "cadmium", "lead", "tin-lead")


def _has_copper_alloy(figures: Figures) -> bool:
    return _named(figures, "low-br", "brass", "bronze", "high-br")


_RULE_PAGE = Source(
    author="a public page on the anodic index",
    title="galvanic compatibility of metals",
    year="year not seen",
    clause="example: gold and silver, accepted outdoors",
    standing=Standing.SEEN,
)

SHEET = Sheet(
    id="galvanic-pair",
    title="Two metals in contact",
    tells="Whether one of two touching metals will waste where they are kept, and which.",
    equation=galvanic_pair,
    formula=("difference = the greater index less the lesser",),
    sources=anodic_index.sources(),
    limits=(
        Limit(
            result="difference",
            side=Side.AT_MOST,
            against=_bound,
            meaning="the difference allowed in such a place, unless one is meant to waste",
        ),
    ),
    cautions=(
        Caution(
            text=(
                "One metal is meant to waste for the other, so no limit applies: make sure that "
                "'wastes' names the one you mean to lose, and look at it while some is left."
            ),
            when=_is_sacrificial,
        ),
        Caution(
            text=(
                "The list names monel twice, at 0.15 and at 0.30 V: say in the record which was "
                "used, and why."
            ),
            when=_has_monel,
        ),
        Caution(
            text=(
                "A bronze or brass is 0.35, 0.40 or 0.45 V in the list by how much other metal it "
                "holds: where the alloy is not known, run all three."
            ),
            when=_has_copper_alloy,
        ),
        Caution(
            text=(
                "Cadmium and lead are poisons: no sanding, wire brush, flame or stripping bath but "
                "by a competent person under local rules for them. Common practice, no source."
            ),
            when=_has_poison_metal,
        ),
        Caution(
            text=(
                "Area rules: a small part that wastes beside a large noble one goes fast, such as "
                "a steel screw in a bronze plate; the other way round may last for ever."
            )
        ),
        Caution(
            text=(
                "A screen, not a rate: it needs water that joins both metals. Oil, wax, paint on "
                "the nobler metal or a sleeve between them stops it; all can be undone."
            )
        ),
    ),
    examples=(
        Example(
            title="Gold and silver outdoors",
            given={"metal": "gold", "other": "silver", "place": "outdoor"},
            printed={
                "difference": Printed(value="0.15 V", ours="0.15 V", tolerance="0.001 V"),
                "allowed": Printed(value="0.15 V", ours="0.15 V", tolerance="0.001 V"),
            },
            source=_RULE_PAGE,
        ),
    ),
    none_found="One pair was found worked in print, gold and silver, on two pages; no second.",
)
