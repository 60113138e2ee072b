"""How hard a plain bearing works: mean pressure, rubbing speed and their product, PV.

PV stands for the heat made on each unit of the rubbing face. The published limits hold for bushes
that run on a film too thin to part the faces, which is how most old machines at walking pace run.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction
from typing import Annotated, NamedTuple

from witnessmark.worksheets.bearing_metals import Allowed, BearingMetal, bearing_metals
from witnessmark.worksheets.bearing_metals import sources as metal_sources
from witnessmark.worksheets.declare import (
    Caution,
    Example,
    Figures,
    Gives,
    Input,
    Limit,
    NamedRow,
    Number,
    Printed,
    Sheet,
    Side,
    Source,
    Standing,
)

# Sizes of journals that the published lists are used for. Common practice, no source.
_SMALLEST, _LARGEST = "3", "1000"
# A bush much longer than its bore bears on its ends, a very short one has no oil to keep.
# Common practice, no source.
_SHORT, _LONG = Fraction(1, 4), Fraction(2)


class Duty(NamedTuple):
    """Pressure, speed and PV, and where the limits they were held to come from."""

    pressure: Annotated[
        Number, Gives(unit="MPa", meaning="load over the projected area, diameter times length")
    ]
    velocity: Annotated[Number, Gives(unit="m/s", meaning="speed at which the faces rub")]
    pv: Annotated[Number, Gives(unit="MPa m/s", meaning="pressure times speed")]
    limits_from: Annotated[
        str | None, Gives(unit="", meaning="where the limits of the named metal come from")
    ]


def plain_bearing_duty(
    *,
    load: Annotated[Number, Input(unit="N", meaning="load on this one bearing", above="0")],
    diameter: Annotated[
        Number,
        Input(
            unit="mm",
            meaning="bore of the bush, on diameter",
            above="0",
            low=_SMALLEST,
            high=_LARGEST,
        ),
    ],
    length: Annotated[
        Number,
        Input(
            unit="mm",
            meaning="length that bears, without oil grooves and chamfers",
            above="0",
            low=_SMALLEST,
            high=_LARGEST,
        ),
    ],
    speed: Annotated[
        Number, Input(unit="rpm", meaning="turning speed, 0 where it stands", refuse_low="0")
    ],
    material: Annotated[
        BearingMetal | None,
        NamedRow(meaning="bearing metal, for its published limits", rows=bearing_metals()),
    ] = None,
    pressure_limit: Annotated[  # noqa: ARG001 - the limits below read it
        Number | None, Input(unit="MPa", meaning="greatest pressure allowed", above="0")
    ] = None,
    velocity_limit: Annotated[  # noqa: ARG001 - the limits below read it
        Number | None, Input(unit="m/s", meaning="greatest rubbing speed allowed", above="0")
    ] = None,
    pv_limit: Annotated[  # noqa: ARG001 - the limits below read it
        Number | None, Input(unit="MPa m/s", meaning="greatest PV allowed", above="0")
    ] = None,
) -> Duty:
    """Give the mean pressure, rubbing speed and PV of a plain bearing."""
    pressure = load / (diameter * length)
    velocity = math.pi * diameter * speed
    return Duty(
        pressure=pressure,
        velocity=velocity,
        pv=pressure * velocity,
        limits_from=None if material is None else material.source,
    )


def _listed(figures: Figures, name: str) -> Allowed | None:
    metal = figures.value("material")
    if figures.has(f"{name}_limit") or not isinstance(metal, BearingMetal):
        return None
    return {"pressure": metal.pressure, "velocity": metal.velocity, "pv": metal.pv}[name]


def _bound(name: str) -> Callable[[Figures], Number | None]:
    """Give the limit as typed, else as listed: the highest listed once past the lowest."""

    def bound(figures: Figures) -> Number | None:
        if figures.has(f"{name}_limit"):
            return figures.number(f"{name}_limit")
        allowed = _listed(figures, name)
        if allowed is None:
            return None
        return allowed.low if figures.number(name) <= allowed.low else allowed.high

    return bound


def _lies_between(name: str) -> Callable[[Figures], bool]:
    def between(figures: Figures) -> bool:
        allowed = _listed(figures, name)
        return allowed is not None and allowed.low < figures.number(name) <= allowed.high

    return between


def _limit(name: str, *, meaning: str) -> Limit:
    return Limit(
        result=name,
        side=Side.AT_MOST,
        against=_bound(name),
        meaning=f"{meaning}: as typed, else as published for the metal",
        cannot_tell_when=_lies_between(name),
        cannot_tell_because=f"the published {name} limits for this metal disagree, and this "
        "duty lies between the lowest and the highest",
    )


_NAMES = ("pressure", "velocity", "pv")


def _has_no_limit(figures: Figures) -> bool:
    return not any(_bound(name)(figures) for name in _NAMES)


def _lacks_a_limit(figures: Figures) -> bool:
    return not _has_no_limit(figures) and not all(_bound(name)(figures) for name in _NAMES)


def _is_typed_over(figures: Figures) -> bool:
    return figures.has("material") and any(figures.has(f"{name}_limit") for name in _NAMES)


def _is_odd_shape(figures: Figures) -> bool:
    share = figures.number("length") / figures.number("diameter")
    return not _SHORT <= share <= _LONG


_WENTZELL = Source(
    author="Wentzell",
    title="Machine Design",
    year="edition not seen",
    clause="example 19.1",
    standing=Standing.SEEN,
    note="Read as a public worked copy of the example with its output, not in the book.",
)
_DESIGN_SHEET = Source(
    author="a maker of fibre-lined bearings",
    title="bearing design sheet",
    year="year not seen",
    clause="worked example",
    standing=Standing.SEEN,
)

SHEET = Sheet(
    id="plain-bearing-duty",
    title="Pressure, rubbing speed and PV of a plain bearing",
    tells="Whether a bush is asked to bear more, rub faster or run hotter than its metal allows.",
    equation=plain_bearing_duty,
    formula=(
        "pressure = load / (diameter * length)",
        "velocity = pi * diameter * speed",
        "pv = pressure * velocity",
    ),
    sources=metal_sources(),
    limits=(
        _limit("pressure", meaning="the greatest mean pressure allowed"),
        _limit("velocity", meaning="the greatest rubbing speed allowed"),
        _limit("pv", meaning="the greatest PV allowed"),
    ),
    cautions=(
        Caution(
            text=(
                "No limit was given or is published for this metal, so nothing is judged. Type "
                "pressure_limit, velocity_limit or pv_limit with its source in the record."
            ),
            when=_has_no_limit,
        ),
        Caution(
            text="Some of pressure, speed and PV have no limit here; those are not judged.",
            when=_lacks_a_limit,
        ),
        Caution(
            text=(
                "A limit was typed as well as a metal: the typed one is used in place of the "
                "published one. Say in the record where it comes from."
            ),
            when=_is_typed_over,
        ),
        Caution(
            text=(
                "The bush is shorter than a quarter of its diameter or longer than twice it: the "
                "mean pressure says little about its ends (common practice)."
            ),
            when=_is_odd_shape,
        ),
        Caution(
            text=(
                "The published limits are for a thin film, room temperature and continuous "
                "running. A full oil film bears more; dry, dirty or hot running bears less."
            )
        ),
        Caution(
            text=(
                "Give the load on this one bearing: shares are seldom equal. For a shaft that "
                "rocks, give the mean speed over the whole swing, not the speed of the drive."
            )
        ),
        Caution(
            text=(
                "A hot bearing can burn and can start a fire. Dust from bronze and babbitt may "
                "hold lead: bore and scrape under local rules for lead."
            )
        ),
    ),
    examples=(
        Example(
            title="Journal of 3/4 in at 500 rpm, length for a PV of 3000",
            given={
                "load": "20 lbf",
                "diameter": "3/4 in",
                "length": "7/8 in",
                "speed": "500 rpm",
                "pv_limit": "3000 psi ft/min",
            },
            printed={
                "pressure": Printed(value="30.48 psi", ours="30.476 psi", tolerance="0.005 psi"),
                "velocity": Printed(
                    value="98.17 ft/min", ours="98.175 ft/min", tolerance="0.006 ft/min"
                ),
            },
            source=_WENTZELL,
            note="The book asks for the length: 0.873 in, and takes 7/8 in.",
        ),
        Example(
            title="Bush of 3/4 in by 3/4 in under 85 lbf at 200 rpm",
            given={
                "load": "85 lbf",
                "diameter": "0.750 in",
                "length": "0.750 in",
                "speed": "200 rpm",
                "pv_limit": "20000 psi ft/min",
            },
            printed={
                "pressure": Printed(value="151.2 psi", ours="151.11 psi", tolerance="0.15 psi"),
                "velocity": Printed(
                    value="39.3 ft/min", ours="39.270 ft/min", tolerance="0.05 ft/min"
                ),
            },
            source=_DESIGN_SHEET,
            note="The sheet rounds the area to 0.562 in2 before dividing.",
        ),
    ),
)
