"""JSON read strictly: numbers exactly as written, no key twice, no NaN."""

from __future__ import annotations

import json
import re
from fractions import Fraction
from typing import Final, NoReturn

from witnessmark.errors import WitnessmarkError

_WRITTEN: Final = re.compile(
    r"-?[0-9]{1,40}(/[0-9]{1,40}|(\.[0-9]{1,40})?([eE][+-]?[0-9]{1,2})?)", re.ASCII
)
"""A decimal or a fraction. The lengths keep a few typed characters from filling the memory."""


class Numeral(str):
    """A number as it stood in the file, to be told from text in quotes."""

    __slots__ = ()


def read_json(text: str) -> object:
    """Give the JSON value in a text, every number still as the text it was written in.

    Raises:
        WitnessmarkError: it is not JSON, or says something twice.

    """
    try:
        return json.loads(
            text,
            parse_float=Numeral,
            parse_int=Numeral,
            parse_constant=_refuse_constant,
            object_pairs_hook=_mapping,
        )
    except json.JSONDecodeError as fault:
        raise WitnessmarkError(
            f"This is not JSON: line {fault.lineno}, column {fault.colno}: {fault.msg}.",
            remedy="Correct the file there.",
        ) from None
    except RecursionError:
        raise WitnessmarkError(
            "The file has lists within lists too deep to read.",
            remedy="Give options, weights and ranges as the example in the help shows.",
        ) from None


def exact_number(written: object, *, place: str) -> Fraction:
    """Give a decimal or a fraction exactly as written.

    >>> exact_number("0.35", place="weights")
    Fraction(7, 20)

    Raises:
        WitnessmarkError: it is not a number, or one too long to be meant.

    """
    if isinstance(written, str) and _WRITTEN.fullmatch(written):
        try:
            return Fraction(written)
        except ZeroDivisionError:
            pass
    raise WitnessmarkError(
        f"{place}: {quoted(written)} is not a number.",
        remedy='Write a decimal such as 0.35, or a fraction such as "7/20".',
    )


def quoted(written: object) -> str:
    """Give what somebody wrote, short enough and safe to show on any screen."""
    if isinstance(written, dict):
        return "a group of keys"
    if isinstance(written, list):
        return f"a list of {len(written)}"
    if isinstance(written, Numeral):
        return _shortened(written)
    if isinstance(written, str):
        return _shortened(json.dumps(written, ensure_ascii=not written.isprintable()))
    return json.dumps(written)


def _shortened(text: str) -> str:
    most_shown = 60
    return text if len(text) <= most_shown else f"{text[:most_shown]}..."


def _refuse_constant(name: str) -> NoReturn:
    raise WitnessmarkError(f"{name} is not a number.", remedy="Give every figure as a number.")


def _mapping(pairs: list[tuple[str, object]]) -> dict[str, object]:
    mapping: dict[str, object] = {}
    for key, value in pairs:
        if key in mapping:
            raise WitnessmarkError(
                f"The key {quoted(key)} stands twice.", remedy="Keep the one that is meant."
            )
        mapping[key] = value
    return mapping
