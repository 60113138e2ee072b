"""How long a rolling bearing may run before its metal tires, and whether it bears standing still.

ISO 281 for life, ISO 76 for standing load. On museum machines dirt, rust and false brinelling end
most bearings first; a fatigue life says only that the load is not what will.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, NamedTuple

from witnessmark.worksheets.bearing_reliability import reliability_factor
from witnessmark.worksheets.bearing_reliability import sources as reliability_sources
from witnessmark.worksheets.declare import (
    CannotCompute,
    Caution,
    Choice,
    Example,
    Figures,
    Gives,
    Input,
    Limit,
    Number,
    Printed,
    Sheet,
    Side,
    Source,
    Standing,
)

_TURNS_RATED = 10**6
# ISO 281:2007 (from memory): cubes for balls, the power 10/3 for rollers.
_POWER = {"ball": Fraction(3), "roller": Fraction(10, 3)}
# ISO 281:2007, scope (from memory): loads over half the dynamic rating are outside it.
_HEAVIEST = Fraction(1, 2)
# ISO 76:2006, deep groove ball bearings: P0 = 0.6 Fr + 0.5 Fa (seen on makers' pages).
_X0, _Y0 = Fraction("0.6"), Fraction("0.5")


class Life(NamedTuple):
    """The load that counts, the life it allows, and the safety standing still."""

    equivalent_load: Annotated[
        Number, Gives(unit="N", meaning="equivalent dynamic load P = x * radial + y * axial")
    ]
    life: Annotated[
        Number,
        Gives(
            unit="million rev", meaning="rating life, which the share given by reliability reach"
        ),
    ]
    life_hours: Annotated[
        Number | None, Gives(unit="h", meaning="the same life in hours of turning")
    ]
    static_safety: Annotated[
        Number | None, Gives(unit="1", meaning="static rating over the equivalent static load, s0")
    ]
    reliability_factor: Annotated[Number, Gives(unit="1", meaning="factor a1 that was used")]


def rolling_bearing_life(
    *,
    dynamic_rating: Annotated[
        Number, Input(unit="N", meaning="dynamic load rating C of this very bearing", above="0")
    ],
    radial: Annotated[Number, Input(unit="N", meaning="radial load", refuse_low="0")],
    kind: Annotated[
        str,
        Choice(
            meaning="what rolls",
            words={"ball": "balls, point contact", "roller": "rollers or needles, line contact"},
        ),
    ],
    axial: Annotated[Number, Input(unit="N", meaning="axial load", refuse_low="0")] = Fraction(0),
    x: Annotated[
        Number | None,
        Input(
            unit="1", meaning="radial factor X from the catalogue, 1 if left out", refuse_low="0"
        ),
    ] = None,
    y: Annotated[
        Number | None,
        Input(unit="1", meaning="axial factor Y from the catalogue", refuse_low="0"),
    ] = None,
    speed: Annotated[
        Number | None, Input(unit="rpm", meaning="turning speed", above="0", low="10")
    ] = None,
    reliability: Annotated[
        Number,
        Input(
            unit="%",
            meaning="share of bearings that reach the life",
            refuse_low="90",
            exact="Write the reliability alone, as in 95 %.",
        ),
    ] = Fraction(9, 10),
    edition: Annotated[
        str,
        Choice(
            meaning="edition of ISO 281 for the reliability factor",
            words={"2007": "the present one", "1990": "as in older books; shorter lives"},
        ),
    ] = "2007",
    static_rating: Annotated[
        Number | None, Input(unit="N", meaning="static load rating C0 of this bearing", above="0")
    ] = None,
    x0: Annotated[
        Number | None,
        Input(unit="1", meaning="static radial factor X0 from the catalogue", refuse_low="0"),
    ] = None,
    y0: Annotated[
        Number | None,
        Input(unit="1", meaning="static axial factor Y0 from the catalogue", refuse_low="0"),
    ] = None,
    wanted_hours: Annotated[  # noqa: ARG001 - the limit below reads it
        Number | None, Input(unit="h", meaning="life wanted", above="0")
    ] = None,
    least_static_safety: Annotated[  # noqa: ARG001 - the limit below reads it
        Number | None, Input(unit="1", meaning="least static safety wanted", above="0")
    ] = None,
) -> Life:
    """Give the equivalent load, rating life and static safety of a rolling bearing."""
    load = _equivalent_load(radial=radial, axial=axial, x=x, y=y)
    factor = reliability_factor(reliability, edition=edition)
    turns = factor * (dynamic_rating / load) ** float(_POWER[kind]) * _TURNS_RATED
    standing = _static_load(kind, radial=radial, axial=axial, x0=x0, y0=y0)
    return Life(
        equivalent_load=load,
        life=turns,
        life_hours=None if speed is None else turns / speed,
        static_safety=static_rating / standing if static_rating and standing else None,
        reliability_factor=factor,
    )


def _equivalent_load(
    *, radial: Number, axial: Number, x: Number | None, y: Number | None
) -> Number:
    if axial and y is None:
        raise CannotCompute(
            "y",
            message="An axial load is given without its factor y.",
            fix="Give x and y for this bearing from its catalogue.",
        )
    load = (1 if x is None else x) * radial + (y or 0) * axial
    if not load:
        raise CannotCompute(
            "radial", message="There is no load to reckon a life from.", fix="Give the load borne."
        )
    return load


def _static_load(
    kind: str, *, radial: Number, axial: Number, x0: Number | None, y0: Number | None
) -> Number | None:
    """Give P0 = max(X0 Fr + Y0 Fa, Fr), or None where the factors are not known here."""
    if kind == "roller" and axial and (x0 is None or y0 is None):
        return None
    by_kind = (_X0, _Y0) if kind == "ball" else (Fraction(1), Fraction(0))
    radial_factor = by_kind[0] if x0 is None else x0
    axial_factor = by_kind[1] if y0 is None else y0
    return max(radial_factor * radial + axial_factor * axial, radial)


def _is_heavy(figures: Figures) -> bool:
    return figures.number("equivalent_load") > _HEAVIEST * Fraction(
        figures.number("dynamic_rating")
    )


def _is_under_radial(figures: Figures) -> bool:
    return figures.number("equivalent_load") < figures.number("radial")


def _lacks_static_factors(figures: Figures) -> bool:
    return figures.has("static_rating") and not figures.has("static_safety")


def _stands_on_deep_groove(figures: Figures) -> bool:
    is_by_default = figures.value("kind") == "ball" and not figures.has("x0")
    return is_by_default and figures.has("static_safety") and figures.has("axial")


def _is_by_other_edition(figures: Figures) -> bool:
    return figures.number("reliability_factor") != 1


def _lacks_what_a_limit_needs(figures: Figures) -> bool:
    for limit, result in (("wanted_hours", "life_hours"), ("least_static_safety", "static_safety")):
        if figures.has(limit) and not figures.has(result):
            return True
    return False


_WENTZELL = Source(
    author="Wentzell",
    title="Machine Design",
    year="edition not seen",
    clause="examples 20.1 and 20.4",
    standing=Standing.SEEN,
    note="Read as a public worked copy with its output, not in the book.",
)
_JINDAL = Source(
    author="Jindal",
    title="Machine Design",
    year="edition not seen",
    clause="examples 18-2, 18-4 and 18-7",
    standing=Standing.SEEN,
    note="Read as a public worked copy with its output, not in the book.",
)
_ISO_76 = Source(
    author="ISO",
    title="ISO 76, Rolling bearings, Static load ratings",
    year="2006",
    clause="deep groove ball bearings: P0 = 0.6 Fr + 0.5 Fa, and Fr if that is larger",
    standing=Standing.SEEN,
    note="Read on makers' pages, not in the standard.",
)

SHEET = Sheet(
    id="rolling-bearing-life",
    title="Life and standing load of a rolling bearing",
    tells="Whether a ball or roller bearing will tire, or dent, under the load it bears.",
    equation=rolling_bearing_life,
    formula=(
        "P = x * radial + y * axial",
        "life = a1 * (C / P)^p million rev, p = 3 for balls and 10/3 for rollers",
        "life_hours = life / speed",
        "P0 = max(x0 * radial + y0 * axial, radial); static_safety = C0 / P0",
    ),
    sources=(*reliability_sources(), _ISO_76),
    limits=(
        Limit(
            result="life_hours",
            side=Side.AT_LEAST,
            against="wanted_hours",
            meaning="the life wanted",
        ),
        Limit(
            result="static_safety",
            side=Side.AT_LEAST,
            against="least_static_safety",
            meaning="the least static safety wanted",
        ),
    ),
    cautions=(
        Caution(
            text=(
                "The load is over half the dynamic rating: ISO 281 does not hold there. Ask the "
                "maker, or check the standing load."
            ),
            when=_is_heavy,
        ),
        Caution(
            text=(
                "The equivalent load is under the radial load. Where the axial share is small a "
                "catalogue gives x = 1 and y = 0: check x and y against the catalogue."
            ),
            when=_is_under_radial,
        ),
        Caution(
            text=(
                "No static safety is given: rollers under axial load need x0 and y0 from their "
                "catalogue."
            ),
            when=_lacks_static_factors,
        ),
        Caution(
            text=(
                "The static load takes the factors of deep groove ball bearings, 0.6 and 0.5: for "
                "any other ball bearing give x0 and y0 from its catalogue."
            ),
            when=_stands_on_deep_groove,
        ),
        Caution(
            text=(
                "The two editions of ISO 281 give lives 3 % apart at 95 in 100 and 19 % apart at "
                "99, and some books use a formula of their own: name the edition beside the figure."
            ),
            when=_is_by_other_edition,
        ),
        Caution(
            text=(
                "A wanted life or static safety is given that cannot be judged: a life in hours "
                "needs the speed, a static safety needs the static rating."
            ),
            when=_lacks_what_a_limit_needs,
        ),
        Caution(
            text=(
                "Static safety wanted, as commonly practised (from memory): 0.5 for slow turning, "
                "1 as a rule, 1.5 to 2 with shock; drawn-cup needles at least 3. It belongs to the "
                "kind of bearing."
            )
        ),
        Caution(
            text=(
                "Ten in a hundred may fail sooner, and rust, dirt, dried grease and dents from "
                "standing end most bearings of seldom-run machines first. A tenth more load is a "
                "quarter less life or worse."
            )
        ),
    ),
    examples=(
        Example(
            title="Ball bearing of C 5050 lbf under 2400 lbf at 1750 rpm",
            given={
                "dynamic_rating": "5050 lbf",
                "radial": "2400 lbf",
                "kind": "ball",
                "speed": "1750 rpm",
            },
            printed={"life_hours": Printed(value="88.73 h", ours="88.73 h", tolerance="0.005 h")},
            source=_WENTZELL,
        ),
        Example(
            title="Radial and axial load with the old factor for a turning outer ring",
            given={
                "dynamic_rating": "3350 lbf",
                "radial": "1000 lbf",
                "axial": "300 lbf",
                "kind": "ball",
                "x": "0.672",
                "y": "1.405",
            },
            printed={
                "equivalent_load": Printed(value="1095 lbf", ours="1093.5 lbf", tolerance="2 lbf"),
                "life": Printed(
                    value="28.63 million rev",
                    ours="28.75 million rev",
                    tolerance="0.15 million rev",
                ),
            },
            source=_WENTZELL,
            note=(
                "x is 1.2 * 0.56: the book multiplies the radial load by 1.2 for a turning outer "
                "ring, which ISO 281 does not. It rounds P to 1095 before raising it to the cube."
            ),
        ),
        Example(
            title="Ball bearing under 1250 N radial and 625 N axial",
            given={
                "dynamic_rating": "5590 N",
                "radial": "1250 N",
                "axial": "625 N",
                "kind": "ball",
                "x": "0.56",
                "y": "1.2",
                "static_rating": "2500 N",
            },
            printed={
                "life": Printed(
                    value="57.3 million rev", ours="57.30 million rev", tolerance="0.05 million rev"
                ),
            },
            source=_JINDAL,
            note="The static rating is ours; the book gives none here.",
        ),
        Example(
            title="Ball bearing of C 41 kN under 20 kN at 720 rpm",
            given={
                "dynamic_rating": "41 kN",
                "radial": "20 kN",
                "kind": "ball",
                "speed": "720 rpm",
                "static_rating": "22.4 kN",
            },
            printed={"life_hours": Printed(value="199.4 h", ours="199.4 h", tolerance="0.05 h")},
            source=_JINDAL,
        ),
        Example(
            title="98 in 100 for 6000 h, by a Weibull formula the standard does not use",
            given={
                "dynamic_rating": "44589 N",
                "radial": "3500 N",
                "kind": "ball",
                "speed": "1400 rpm",
                "reliability": "98 %",
            },
            printed={
                "life_hours": Printed(
                    value="6000 h", ours="9107.5 h", tolerance="50 h", is_wrong=True
                ),
            },
            source=_JINDAL,
            note=(
                "The book finds C = 44 589 N with a Weibull exponent of 1.17. With a1 = 0.37 of "
                "ISO 281:2007 that bearing lasts half as long again, and 38 798 N would do."
            ),
        ),
    ),
)
