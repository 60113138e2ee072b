"""A day's noise at the ear, from every spell of it: 3 dB more halve the time that is allowed."""

from __future__ import annotations

import math
from typing import Annotated, NamedTuple, TypeAlias

from witnessmark.worksheets.declare import (
    CannotCompute,
    Caution,
    Each,
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

_DAY, _WORKING_DAY = 24 * 3600, 8 * 3600
# Directive 2003/10/EC, article 3; Control of Noise at Work Regulations 2005 (Great Britain),
# regulation 4: daily level, then peak in dB(C), of the lower and upper action and the limit value.
_LOWER, _UPPER, _LIMIT = (80, 135), (85, 137), (87, 140)
# Points as HSE counts them: 100 for eight hours at the upper action value (ready reckoner, seen).
_POINTS = 100
_POINTS_AT_LIMIT = _POINTS * 10 ** ((_LIMIT[0] - _UPPER[0]) / 10)
# Levels come out of a logarithm: a level this close to a value is at it.
_NOISE = 1e-9

Exposure: TypeAlias = tuple[tuple[Number, Number], ...]


class Noise(NamedTuple):
    """The day's noise, in the two ways it is reckoned, and where it stands."""

    daily_level: Annotated[
        Number, Gives(unit="dB", meaning="daily exposure level over eight hours, dB(A)")
    ]
    points: Annotated[Number, Gives(unit="1", meaning="exposure points; 100 at 85 dB")]
    band: Annotated[
        str,
        Gives(
            unit="",
            meaning="below lower action (80), above lower action, above upper action (85) or "
            "above limit (87 dB)",
        ),
    ]
    peak_level: Annotated[
        Number | None, Gives(unit="dB", meaning="the greatest peak, where one was given, dB(C)")
    ]


def noise_dose(
    *,
    exposure: Annotated[
        Exposure,
        Each(
            meaning="steady level at the ear, A-weighted, and for how long",
            parts=(
                Input(
                    unit="dB",
                    meaning="A-weighted level at the ear, averaged over the spell",
                    refuse_low="0",
                    high="130",
                    refuse_high="190",
                ),
                Input(unit="h", meaning="time in the day", above="0", refuse_high="24"),
            ),
        ),
    ],
    peak: Annotated[
        Number | None,
        Input(
            unit="dB",
            meaning="greatest C-weighted peak of the day",
            refuse_low="0",
            high="180",
            refuse_high="200",
        ),
    ] = None,
) -> Noise:
    """Give the daily level: 10 log10(sum of t 10^(L / 10) / 8 h)."""
    if sum(t for _, t in exposure) > _DAY:
        raise CannotCompute(
            "exposure",
            message="The times add up to more than a day.",
            fix="Check for minutes written as hours; give one day at a time.",
        )
    energy = sum(float(t) / _WORKING_DAY * 10 ** (float(level) / 10) for level, t in exposure)
    daily = 10 * math.log10(energy)
    return Noise(
        daily_level=daily,
        points=_POINTS * 10 ** ((daily - _UPPER[0]) / 10),
        band=_band_of(daily, peak=peak),
        peak_level=peak,
    )


def _band_of(daily: float, *, peak: Number | None) -> str:
    """Give the word: an action value is met when reached, the limit value when passed."""
    highest = -math.inf if peak is None else float(peak)
    if daily > _LIMIT[0] + _NOISE or highest > _LIMIT[1]:
        return "above limit"
    for (level, crest), word in ((_UPPER, "above upper action"), (_LOWER, "above lower action")):
        if daily >= level - _NOISE or highest >= crest:
            return word
    return "below lower action"


def _calls_for_protection(figures: Figures) -> bool:
    return figures.value("band") in ("above upper action", "above limit")


def _calls_for_information(figures: Figures) -> bool:
    return figures.value("band") == "above lower action"


_REGULATIONS = Source(
    author="Great Britain",
    title="Control of Noise at Work Regulations 2005 (after Directive 2003/10/EC)",
    year="2005",
    clause="regulation 4: 80, 85 and 87 dB(A); 135, 137 and 140 dB(C)",
    standing=Standing.FROM_MEMORY,
)
_RECKONER = Source(
    author="Health and Safety Executive",
    title="Noise exposure ready reckoner, daily and weekly, public copy",
    year="not stated; Great Britain",
    clause="90 dB for a day",
    standing=Standing.SEEN,
)
_SOUND_ADVICE = Source(
    author="Health and Safety Executive",
    title="Sound Advice: Control of noise at work in music and entertainment",
    year="2008; Great Britain",
    clause="equal exposures",
    standing=Standing.SEEN,
)
_EQUAL = "Printed as equal to 80 dB for 8 h; the print halves the time at each 3 dB."

SHEET = Sheet(
    id="noise-dose",
    title="Noise at the ear in a day",
    tells="Whether a day among these machines passes an action value or the limit value.",
    equation=noise_dose,
    formula=(
        "daily_level = 10 log10(sum of t x 10^(L / 10) / 8 h)",
        "points = 100 x 10^((daily_level - 85 dB) / 10)",
    ),
    sources=(_REGULATIONS, _RECKONER, _SOUND_ADVICE),
    limits=(
        Limit(
            result="points",
            side=Side.AT_MOST,
            against=lambda _: _POINTS_AT_LIMIT,
            meaning="158.5 points, the exposure limit value of 87 dB(A) at the ear: Directive "
            "2003/10/EC and Control of Noise at Work Regulations 2005 (Great Britain)",
        ),
        Limit(
            result="peak_level",
            side=Side.AT_MOST,
            against=lambda _: _LIMIT[1],
            meaning="the peak limit value of 140 dB(C), by the same law",
        ),
    ),
    cautions=(
        Caution(
            text="The upper action value is reached: from here the law of Great Britain and the "
            "European Union asks for quieter work, marked places and worn hearing protection.",
            when=_calls_for_protection,
        ),
        Caution(
            text="The lower action value is reached: from here the law of Great Britain and the "
            "European Union asks for information, training and protection on request.",
            when=_calls_for_information,
        ),
        Caution(
            text="The action values count without hearing protection, the limit value with it. "
            "The level given is taken as it stands at the ear: say which it is."
        ),
        Caution(
            text="A level is commonly 1.5 to 3 dB off, and 3 dB double the dose. State it with a ±."
        ),
        Caution(
            text="Other countries count otherwise: the United States' OSHA allows 90 dB and takes "
            "5 dB for a halving (29 CFR 1910.95), where NIOSH takes 85 and 3."
        ),
        Caution(
            text="Blows and blasts need the peak, measured C-weighted: a daily level hides them. "
            "Visitors, children and animals are not workers: keep them further off."
        ),
    ),
    examples=(
        Example(
            title="A day at 90 dB",
            given={"exposure": ("90 dB for 8 h",)},
            printed={"points": Printed(value="315", ours="316.2", tolerance="5")},
            source=_RECKONER,
            note="The table prints round figures.",
        ),
        Example(
            title="An hour at 94 dB",
            given={"exposure": ("94 dB for 1 h",)},
            printed={"daily_level": Printed(value="85 dB", ours="84.97 dB", tolerance="0.2 dB")},
            source=_SOUND_ADVICE,
            note="Printed as equal to 88 dB for 4 h and to 105 dB for 5 minutes.",
        ),
        Example(
            title="Five minutes at 105 dB",
            given={"exposure": ("105 dB for 5 min",)},
            printed={"daily_level": Printed(value="85 dB", ours="85.18 dB", tolerance="0.2 dB")},
            source=_SOUND_ADVICE,
            note="Printed as equal to 88 dB for 4 h and to 94 dB for an hour.",
        ),
        Example(
            title="Half an hour at 92 dB",
            given={"exposure": ("92 dB for 30 min",)},
            printed={"daily_level": Printed(value="80 dB", ours="79.96 dB", tolerance="0.2 dB")},
            source=_SOUND_ADVICE,
            note=_EQUAL,
        ),
    ),
)
