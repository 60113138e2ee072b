"""How hard a tracked machine presses on the ground: on the mean, and under its wheels.

The mean figure hides the peaks under the wheels. Rowland's figure tells of them, but its critics
found it far from measurement: it ranks machines and routes, and judges none.
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

_TRACKS = 2
# Rowland's coefficient for rigid links, as two public sources quote it.
_ROWLAND = 1.26


class Press(NamedTuple):
    """The two ground pressures."""

    nominal: Annotated[Number, Gives(unit="kPa", meaning="weight over the area of both tracks")]
    mean_maximum: Annotated[
        Number | None,
        Gives(unit="kPa", meaning="mean of the peaks under the wheels, Rowland; qualitative"),
    ]


def ground_pressure(
    *,
    weight: Annotated[
        Number,
        Input(unit="kN", meaning="weight as it will stand: fluids, crew and load", above="0"),
    ],
    track_width: Annotated[Number, Input(unit="mm", meaning="width of one track", above="0")],
    contact_length: Annotated[
        Number, Input(unit="mm", meaning="length of one track that lies on the ground", above="0")
    ],
    wheels_per_side: Annotated[
        Number | None,
        Input(
            unit="1",
            meaning="wheel stations that press on one track",
            refuse_low="1",
            refuse_high="30",
            whole=True,
        ),
    ] = None,
    wheel_diameter: Annotated[
        Number | None, Input(unit="mm", meaning="outside diameter of those wheels", above="0")
    ] = None,
    pitch: Annotated[
        Number | None, Input(unit="mm", meaning="pin to pin length of a track link", above="0")
    ] = None,
    link_area_ratio: Annotated[
        Number,
        Input(
            unit="1",
            meaning="area of a link that presses, over its pitch times its width",
            above="0",
            refuse_high="1",
        ),
    ] = Fraction(1),
    allowed: Annotated[
        Number | None,
        Input(unit="kPa", meaning="what the ground or floor is allowed to take", above="0"),
    ] = None,
) -> Press:
    """Give W / (2 b L), and Rowland's 1.26 W / (2 n a b sqrt(p d))."""
    del allowed  # met by the limit of the sheet, not by the equation
    peaks = None
    running_gear = (wheels_per_side, wheel_diameter, pitch)
    if None not in running_gear:
        peaks = _rowland(weight, width=track_width * link_area_ratio, gear=running_gear)
    elif any(part is not None for part in running_gear):
        raise CannotCompute(
            "wheels_per_side",
            message="Rowland's figure needs the wheels of a side, their diameter and the pitch.",
            fix="Give all three, or none.",
        )
    return Press(nominal=weight / (_TRACKS * track_width * contact_length), mean_maximum=peaks)


def _rowland(weight: Number, *, width: Number, gear: tuple[Number | None, ...]) -> float:
    n, d, p = (float(part) for part in gear if part is not None)
    return _ROWLAND * float(weight) / (_TRACKS * n * float(width) * math.sqrt(p * d))


def _has_no_peaks(figures: Figures) -> bool:
    return not figures.has("mean_maximum")


_MEAN = Source(
    author="unnamed",
    title="Public school physics answers on tracked tractors",
    year="not stated",
    clause="45 kN on 1.5 m2; 52 kN on 1.24 m2",
    standing=Standing.SEEN,
)
_PEAKS = Source(
    author="Wong",
    title="On the role of mean maximum pressure as an indicator of cross-country mobility for "
    "tracked vehicles, J. Terramechanics 31(3), 197-213",
    year="1994",
    clause="abstract: Rowland's formula differs much from measurement, qualitative only",
    standing=Standing.SEEN,
    note="The formula itself from a public program that cites Rowland (1972).",
)
_SPLIT = "Only the area of both tracks is printed; its split into width and length is ours."

SHEET = Sheet(
    id="ground-pressure",
    title="Ground pressure of a tracked machine",
    tells="Whether ground or floor can take a machine, and which of two routes takes it better.",
    equation=ground_pressure,
    formula=(
        "nominal = weight / (2 x track_width x contact_length)",
        (
            "mean_maximum = 1.26 x weight / (2 x wheels_per_side x link_area_ratio x track_width x "
            "sqrt(pitch x wheel_diameter))"
        ),
    ),
    sources=(_MEAN, _PEAKS),
    limits=(
        Limit(
            result="nominal",
            side=Side.AT_MOST,
            against="allowed",
            meaning="what the ground or floor is allowed to take, from whoever vouches for it",
        ),
    ),
    cautions=(
        Caution(
            text="Only the mean is told. Under the wheels the pressure is commonly two to three "
            "times that: keeping to a limit on the mean says little on soft ground.",
            when=_has_no_peaks,
        ),
        Caution(
            text="Rowland's figure ranks machines and routes; it differs much from measurement and "
            "is not to be held against a limit.",
            when=lambda figures: figures.has("mean_maximum"),
        ),
        Caution(
            text="A floor is another matter: a slab, a cellar roof or a bridge is judged by an "
            "engineer, for each wheel or pad and for the machine turning, not by a mean."
        ),
        Caution(
            text="The width is that of one track, the weight that of both. A slope, a jib or a "
            "blade puts most of it on one end. Slack tracks shorten the length."
        ),
        Caution(
            text="Planning values in print, soft clay 25 to 75, firm clay 75 to 145, dense sand or "
            "gravel 145 to 290, crushed stone 190 to 380 kPa, are no survey of your ground."
        ),
    ),
    examples=(
        Example(
            title="A tractor of 45 kN",
            given={
                "weight": "45 kN",
                "track_width": "500 mm",
                "contact_length": "1500 mm",
                "wheels_per_side": "5",
                "wheel_diameter": "250 mm",
                "pitch": "170 mm",
                "allowed": "75 kPa",
            },
            printed={"nominal": Printed(value="30 kPa", ours="30 kPa", tolerance="0.5 kPa")},
            source=_MEAN,
            note=f"{_SPLIT} Wheels and limit are ours; no worked mean maximum was found in print.",
        ),
        Example(
            title="A tractor of 52 kN",
            given={"weight": "52 kN", "track_width": "400 mm", "contact_length": "1550 mm"},
            printed={
                "nominal": Printed(value="41935.5 Pa", ours="41935.5 Pa", tolerance="0.05 Pa")
            },
            source=_MEAN,
            note=_SPLIT,
        ),
    ),
)
