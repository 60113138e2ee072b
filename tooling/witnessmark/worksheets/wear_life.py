"""How long a wearing part may still run, from two measurements of it, and how sure that is.

Two readings of one instrument and a straight line through them. Where the wear found is no larger
than what the instrument may have made of nothing, the sheet gives no life at all.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Annotated, NamedTuple

from witnessmark.worksheets.declare import (
    CannotCompute,
    Caution,
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

_COVERAGE = 2  # JCGM 100:2008, 6.3.3: about 95 in 100
_BARE = "Write it without ±; what is not known of a reading is given as 'instrument'."


class WearLife(NamedTuple):
    """The rate of wear, the life left and how far both may be out."""

    rate: Annotated[
        Number,
        Gives(
            unit="mm/h",
            meaning="growth of the size for each hour; under 0 where the part gets smaller",
            band_from="rate_uncertainty",
        ),
    ]
    remaining: Annotated[
        Number,
        Gives(
            unit="h",
            meaning="running left to the limit; under 0 where it is passed",
            band_from="expanded_uncertainty",
        ),
    ]
    standard_uncertainty: Annotated[
        Number, Gives(unit="h", meaning="standard uncertainty of what remains")
    ]
    expanded_uncertainty: Annotated[
        Number, Gives(unit="h", meaning="expanded uncertainty of what remains, k = 2")
    ]
    use_until: Annotated[
        Number, Gives(unit="h", meaning="what remains less its expanded uncertainty")
    ]
    rate_uncertainty: Annotated[
        Number, Gives(unit="mm/h", meaning="expanded uncertainty of the rate, k = 2")
    ]


def wear_life(
    *,
    first: Annotated[
        Number, Input(unit="mm", meaning="size at the first measurement", above="0", exact=_BARE)
    ],
    second: Annotated[
        Number,
        Input(
            unit="mm",
            meaning="size at the second, same place, same instrument",
            above="0",
            exact=_BARE,
        ),
    ],
    limit: Annotated[
        Number,
        Input(unit="mm", meaning="size at which the part must stop", above="0", exact=_BARE),
    ],
    interval: Annotated[
        Number,
        Input(
            unit="h", meaning="hours of running between the two", above="0", exact=_BARE, low="10"
        ),
    ],
    instrument: Annotated[
        Number,
        Input(
            unit="mm",
            meaning="half-width of the uniform band of one reading",
            above="0",
            exact="Write the half-width alone.",
        ),
    ],
    wanted: Annotated[  # noqa: ARG001 - the limit below reads it
        Number | None,
        Input(
            unit="h", meaning="running wanted before it is next measured", above="0", exact=_BARE
        ),
    ] = None,
) -> WearLife:
    """Give the rate of wear, the running left to the limit, and the uncertainty of both."""
    x1, x2, xlim, t = first, second, limit, interval
    u = float(instrument) / math.sqrt(3)
    _refuse_unresolved(x1=x1, x2=x2, u=u)
    _refuse_wrong_way(x1=x1, x2=x2, xlim=xlim)
    worn, left = x2 - x1, xlim - x2
    by_first = left * t / worn**2
    by_second = -t / worn - left * t / worn**2
    remaining = left * t / worn
    uncertainty = u * math.hypot(by_first, by_second)
    return WearLife(
        rate=worn / t,
        remaining=remaining,
        standard_uncertainty=uncertainty,
        expanded_uncertainty=_COVERAGE * uncertainty,
        use_until=remaining - _COVERAGE * uncertainty,
        rate_uncertainty=_COVERAGE * math.sqrt(2) * u / t,
    )


def _refuse_unresolved(*, x1: Number, x2: Number, u: float) -> None:
    if abs(float(x2 - x1)) < _COVERAGE * math.sqrt(2) * u:
        raise CannotCompute(
            "second",
            message=(
                "The wear found is smaller than its own expanded uncertainty, so its rate is not "
                "known and no life can be given."
            ),
            fix="Measure closer, or measure again after more running.",
        )


def _refuse_wrong_way(*, x1: Number, x2: Number, xlim: Number) -> None:
    if (x2 - x1) * (xlim - x1) <= 0:
        raise CannotCompute(
            "second",
            message="The size has moved away from the limit, or the limit was passed at the first.",
            fix="Check the order of the readings, where they were taken, and which size is meant.",
        )


def _wanted(figures: Figures) -> Number:
    """Give the running wanted, or none of it: then the verdict is on the limit being reached."""
    return figures.number("wanted") if figures.has("wanted") else Fraction(0)


def _is_passed(figures: Figures) -> bool:
    return figures.number("remaining") <= 0


def _is_barely_resolved(figures: Figures) -> bool:
    return abs(float(figures.number("rate"))) < 2 * figures.number("rate_uncertainty")


_GUM = Source(
    author="Joint Committee for Guides in Metrology",
    title="JCGM 100, Guide to the expression of uncertainty in measurement",
    year="2008",
    clause="4.3.7, 5.1.2 and 6.2.1",
    standing=Standing.FROM_MEMORY,
)
_TRACTOR = Source(
    author="a public workshop manual page",
    title="crawler tractor track, bush of 50.0 mm",
    year="year not seen",
    clause="wear before the bushes are turned: 5.08 mm under shock",
    standing=Standing.SEEN,
    note="The limit is printed; the readings are ours, so the lives below are recomputed by hand.",
)
_BY_HAND = Source(
    author="the project",
    title="bore of 60 mm, worked by hand from the formula of the GUM",
    year="2026",
    clause="no clause",
    standing=Standing.COMMON_PRACTICE,
    note="Constructed: no published example of a wear life with its uncertainty was found.",
)

SHEET = Sheet(
    id="wear-life",
    title="Running left in a wearing part",
    tells="How long a worn part may still run before its limit, and when to look again.",
    equation=wear_life,
    formula=(
        "rate = (second - first) / interval",
        "remaining = (limit - second) / rate",
        "u(x) = instrument / sqrt(3)",
        "dL/dfirst = (limit - second) * interval / (second - first)^2",
        "dL/dsecond = -interval / (second - first) - dL/dfirst",
        "standard_uncertainty = u(x) * sqrt((dL/dfirst)^2 + (dL/dsecond)^2)",
        "expanded_uncertainty = 2 * standard_uncertainty; use_until = remaining less that",
        "refused where |second - first| < 2 * sqrt(2) * u(x)",
    ),
    sources=(_GUM,),
    limits=(
        Limit(
            result="remaining",
            side=Side.AT_LEAST,
            against=_wanted,
            meaning="the running wanted; none of it where no running is named",
        ),
    ),
    cautions=(
        Caution(
            text="The limit is reached: no running is left. What is under 0 is how far it is past.",
            when=_is_passed,
        ),
        Caution(
            text=(
                "The wear found is less than twice its own uncertainty: the true life may be half "
                "or double. Plan the next measurement well before use_until."
            ),
            when=_is_barely_resolved,
        ),
        Caution(
            text=(
                "A straight line through two readings: a bush worn through its hard skin, or short "
                "of oil, wears faster. Look again before the hours are used up, not after."
            )
        ),
        Caution(
            text=(
                "Measure the same part at the same place with the same instrument: new parts "
                "differ among themselves by more than an instrument errs. Never take a drawing "
                "size for the first reading. An error the two readings share cancels in the rate; "
                "the figures here take them as independent."
            )
        ),
        Caution(
            text=(
                "Hours are hours of running, not of the clock, and the limit belongs to a duty: "
                "say in the record which."
            )
        ),
    ),
    examples=(
        Example(
            title="Bore of 60 mm worn by 0.19 mm in 820 h",
            given={
                "first": "60.12 mm",
                "second": "60.31 mm",
                "limit": "60.60 mm",
                "interval": "820 h",
                "instrument": "0.01 mm",
            },
            printed={
                "remaining": Printed(value="1252 h", ours="1251.58 h", tolerance="0.5 h"),
                "standard_uncertainty": Printed(value="74 h", ours="73.55 h", tolerance="0.5 h"),
                "expanded_uncertainty": Printed(value="147 h", ours="147.09 h", tolerance="0.5 h"),
                "use_until": Printed(value="1105 h", ours="1104.49 h", tolerance="0.7 h"),
            },
            source=_BY_HAND,
            note="The last figure was printed from the two before it, each rounded.",
        ),
        Example(
            title="Track bush of 50 mm worn by 2.15 mm in 900 h",
            given={
                "first": "50.00 mm",
                "second": "47.85 mm",
                "limit": "44.92 mm",
                "interval": "900 h",
                "instrument": "0.05 mm",
            },
            printed={
                "remaining": Printed(value="1226.5 h", ours="1226.51 h", tolerance="0.05 h"),
                "standard_uncertainty": Printed(value="33.0 h", ours="32.96 h", tolerance="0.05 h"),
                "use_until": Printed(value="1160.6 h", ours="1160.59 h", tolerance="0.05 h"),
            },
            source=_TRACTOR,
        ),
    ),
    none_found=(
        "One published example was found, the track bush; no second. "
        "The bore of 60 mm was reckoned by hand."
    ),
)
