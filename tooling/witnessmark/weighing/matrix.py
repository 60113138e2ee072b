"""Bare numbers to weigh, read from JSON: options, weights, ranges, floors, what is set aside."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from witnessmark.errors import WitnessmarkError
from witnessmark.weighing.exact_json import Numeral, exact_number, quoted, read_json
from witnessmark.weighing.floors import below_a_floor
from witnessmark.weighing.option import CRITERIA, Option, Range, Weights
from witnessmark.weighing.weigh import Weighing, weigh
from witnessmark.weighing.weighting import Bounds, Floors, Ranges, Weighting

MOST_OPTIONS: Final = 20
"""So many options a file may hold: the steps for ranks grow with the fourth power of it."""

_KEYS: Final = ("options", "weights", "ranges", "floors", "set_aside")
_LEVELS: Final = ("low", "likely", "high")


@dataclass(frozen=True, slots=True)
class Matrix:
    """What a file asks to have weighed; options below a floor are among those set aside."""

    options: tuple[Option, ...]
    weighting: Weighting
    set_aside: Mapping[str, str]


def weigh_matrix(text: str) -> Weighing:
    """Give the weighing a JSON text asks for.

    Raises:
        WitnessmarkError: the text says something that cannot be weighed.

    """
    matrix = read_matrix(text)
    return weigh(matrix.options, weighting=matrix.weighting, set_aside=matrix.set_aside)


def read_matrix(text: str) -> Matrix:
    """Give the options and the policy a JSON text holds, every number exact.

    Raises:
        WitnessmarkError: something is missing, unknown, of the wrong kind or off its scale.

    """
    written = _mapping(read_json(text), place="The file")
    _refuse_unknown(written, _KEYS, place="The file")
    options = _options(written.get("options"))
    weighting = Weighting(
        weights=_weights(written.get("weights")),
        ranges=_ranges(written.get("ranges")),
        floors=_floors(written.get("floors")),
    )
    reasons = _set_aside(written.get("set_aside"), options)
    for name, reason in below_a_floor(options, floors=weighting.floors).items():
        reasons[name] = f"{reasons[name]}; {reason}" if name in reasons else reason
    return Matrix(options, weighting, reasons)


def _options(written: object) -> tuple[Option, ...]:
    by_name = _mapping(written, place="options")
    if not 1 <= len(by_name) <= MOST_OPTIONS:
        raise WitnessmarkError(
            f"options: there are {len(by_name)}.",
            remedy=f"Give at least 1 and at most {MOST_OPTIONS}.",
        )
    return tuple(_option(name, scores) for name, scores in by_name.items())


def _option(name: str, written: object) -> Option:
    if not name.strip() or not name.isprintable():
        raise WitnessmarkError(
            f"options: {quoted(name)} cannot be used as a name.",
            remedy="Name the option in letters, digits and hyphens.",
        )
    place = f"options, {quoted(name)}"
    first, second, third = _triple(written, place=place)
    return Option(
        name,
        (
            _range(first, place=f"{place}, {CRITERIA[0]}"),
            _range(second, place=f"{place}, {CRITERIA[1]}"),
            _range(third, place=f"{place}, {CRITERIA[2]}"),
        ),
    )


def _range(written: object, *, place: str) -> Range:
    """Give one score: a number, or likely with low and high where they differ from it."""
    levels = written if isinstance(written, dict) else {"likely": written}
    _refuse_unknown(levels, _LEVELS, place=place)
    if "likely" not in levels:
        raise WitnessmarkError(f"{place}: likely is missing.", remedy="Give the likely score.")
    read = {level: exact_number(score, place=place) for level, score in levels.items()}
    likely = read["likely"]
    try:
        return Range(read.get("low", likely), likely, read.get("high", likely))
    except WitnessmarkError as fault:
        raise WitnessmarkError(f"{place}: {fault.message}", remedy=fault.remedy) from None


def _weights(written: object) -> Weights | None:
    if written is None:
        return None
    first, second, third = _triple(written, place="weights")
    return (
        exact_number(first, place=f"weights, {CRITERIA[0]}"),
        exact_number(second, place=f"weights, {CRITERIA[1]}"),
        exact_number(third, place=f"weights, {CRITERIA[2]}"),
    )


def _ranges(written: object) -> Ranges | None:
    if written is None:
        return None
    first, second, third = _triple(written, place="ranges")
    return (
        _bounds(first, place=f"ranges, {CRITERIA[0]}"),
        _bounds(second, place=f"ranges, {CRITERIA[1]}"),
        _bounds(third, place=f"ranges, {CRITERIA[2]}"),
    )


def _bounds(written: object, *, place: str) -> Bounds:
    match written:
        case [least, greatest]:
            return exact_number(least, place=place), exact_number(greatest, place=place)
    raise WitnessmarkError(
        f"{place}: {quoted(written)} is not a range.",
        remedy="Write the least and the greatest weight, for example [0.2, 0.5].",
    )


def _floors(written: object) -> Floors:
    by_criterion = _mapping({} if written is None else written, place="floors")
    _refuse_unknown(by_criterion, CRITERIA, place="floors")
    first, second, third = (_floor(by_criterion, criterion) for criterion in CRITERIA)
    return first, second, third


def _floor(by_criterion: dict[str, object], criterion: str) -> Fraction | None:
    if criterion not in by_criterion:
        return None
    return exact_number(by_criterion[criterion], place=f"floors, {criterion}")


def _set_aside(written: object, options: tuple[Option, ...]) -> dict[str, str]:
    by_name = _mapping({} if written is None else written, place="set_aside")
    _refuse_unknown(by_name, tuple(option.id for option in options), place="set_aside")
    return {name: _reason(reason, name=name) for name, reason in by_name.items()}


def _reason(written: object, *, name: str) -> str:
    if isinstance(written, str) and not isinstance(written, Numeral) and written.strip():
        return written
    raise WitnessmarkError(
        f"set_aside, {quoted(name)}: {quoted(written)} is not a reason.",
        remedy="Say in words why the option is set aside.",
    )


def _triple(written: object, *, place: str) -> tuple[object, object, object]:
    """Give the three values of a list, or of a group with one key for each of CRITERIA."""
    match written:
        case [first, second, third]:
            return first, second, third
        case dict():
            _refuse_unknown(written, CRITERIA, place=place)
            missing = [criterion for criterion in CRITERIA if criterion not in written]
            if not missing:
                first, second, third = (written[criterion] for criterion in CRITERIA)
                return first, second, third
            raise WitnessmarkError(
                f"{place}: {' and '.join(missing)} missing.", remedy="Give all three criteria."
            )
    raise WitnessmarkError(
        f"{place}: {quoted(written)} does not say one thing for each criterion.",
        remedy=f"Give {', '.join(CRITERIA)}, by name or as a list of three in that order.",
    )


def _mapping(written: object, *, place: str) -> dict[str, object]:
    if isinstance(written, dict):
        return written
    raise WitnessmarkError(
        f"{place}: {quoted(written)} stands where a group of keys belongs.",
        remedy='Write it in braces, for example {"a": [4, 1, 1], "b": [0, 3, 3]}.',
    )


def _refuse_unknown(written: Mapping[str, object], known: tuple[str, ...], *, place: str) -> None:
    for key in written:
        if key not in known:
            raise WitnessmarkError(
                f"{place}: {quoted(key)} is not known here.",
                remedy=f"Use {', '.join(known)}.",
            )
