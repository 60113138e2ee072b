"""What was given to a sheet, read from text into numbers, words, rows and threads."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from witnessmark.model.quantity import Quantity, QuantityFault, convert, parse_quantity
from witnessmark.model.thread import parse_thread
from witnessmark.model.units import UNITS
from witnessmark.worksheets.declare import (
    Band,
    Choice,
    Designation,
    Each,
    Flag,
    Input,
    Kind,
    NamedRow,
    Sheet,
    ThreadName,
)
from witnessmark.worksheets.faults import Fault, SheetRefuses
from witnessmark.worksheets.signature import Taken, inputs_of

Given = Mapping[str, str | Sequence[str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """A quantity as read: base units, the stated half-width if any, and any range caution."""

    value: Fraction
    half_width: Fraction | None
    band: Band
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Repeated:
    """A repeated input as read: one row of measured quantities for each time it was given."""

    rows: tuple[tuple[Measured, ...], ...]


def read_given(sheet: Sheet, *, given: Given) -> dict[str, object]:
    """Give every input that was given, read; raise SheetRefuses with all that cannot be."""
    taken = inputs_of(sheet.equation)
    faults = [*_unknown_names(taken, given=given), *_missing_names(taken, given=given)]
    read: dict[str, object] = {}
    for entry in taken:
        if entry.name in given and (given[entry.name] or entry.optional):
            try:
                read[entry.name] = _read_one(entry, _as_list(given[entry.name]))
            except QuantityFault as fault:
                faults.append(Fault(name=entry.name, message=fault.message, fix=fault.fix))
    faults.extend(_bands_stated_twice(taken, read=read))
    if faults:
        raise SheetRefuses(sheet.id, faults=tuple(faults))
    return read | dict(_with_bands(taken, read=read))


def _bands_apart(
    taken: Iterable[Taken], *, read: Mapping[str, object]
) -> Iterator[tuple[str, str, Measured, Measured]]:
    """Give the name of each band given apart, and of its input, with both as read."""
    for entry in taken:
        if isinstance(entry.kind, Input) and entry.kind.band_of:
            band, banded = read.get(entry.name), read.get(entry.kind.band_of)
            if isinstance(band, Measured) and isinstance(banded, Measured):
                yield entry.name, entry.kind.band_of, band, banded


def _bands_stated_twice(taken: Iterable[Taken], *, read: Mapping[str, object]) -> Iterator[Fault]:
    for name, of, _, banded in _bands_apart(taken, read=read):
        if banded.half_width is not None:
            yield Fault(
                name=name,
                message=f"The band of '{of}' is stated twice.",
                fix=f"Write it after the ± or as '{name}', not both.",
            )


def _with_bands(
    taken: Iterable[Taken], *, read: Mapping[str, object]
) -> Iterator[tuple[str, Measured]]:
    for _, of, band, banded in _bands_apart(taken, read=read):
        yield of, replace(banded, half_width=band.value or None)


def _as_list(texts: str | Sequence[str]) -> list[str]:
    return [texts] if isinstance(texts, str) else list(texts)


def _unknown_names(taken: Iterable[Taken], *, given: Given) -> Iterator[Fault]:
    names = [entry.name for entry in taken]
    for name in given:
        if name in names:
            continue
        near = difflib.get_close_matches(name, names, n=1, cutoff=0.6)
        fix = f"Did you mean {near[0]}?" if near else f"It takes {', '.join(names)}."
        yield Fault(name=name, message=f"This sheet takes no input called '{name}'.", fix=fix)


def _missing_names(taken: Iterable[Taken], *, given: Given) -> Iterator[Fault]:
    for entry in taken:
        if not entry.optional and not given.get(entry.name):
            yield Fault(
                name=entry.name,
                message=f"'{entry.name}' is not given: {entry.kind.meaning}.",
                fix=f"Write {write_like(entry.kind)}.",
            )


def write_like(kind: Kind) -> str:
    """Give a short pattern of how an input is written."""
    match kind:
        case Input(whole=True):
            return "a whole number"
        case Input(unit=unit, rows=rows) if rows:
            return f"a number and a unit, such as {unit}, or a name such as {next(iter(rows))}"
        case Input(unit=unit):
            return "a number" if unit == "1" else f"a number and a unit, such as {unit}"
        case Choice(words=words):
            return " or ".join(words)
        case Flag():
            return "true or false"
        case Designation(like=like):
            return like
        case NamedRow(rows=rows):
            return " or ".join(rows)
        case ThreadName():
            return "M16x1.5 or 5/8 BSW"
        case Each(parts=parts, joined_by=word):
            return f" {word} ".join(f"a number in {part.unit}" for part in parts)


def _read_one(entry: Taken, texts: list[str]) -> object:
    kind = entry.kind
    if isinstance(kind, Each):
        return Repeated(rows=tuple(_read_row(kind, name=entry.name, text=text) for text in texts))
    if len(texts) != 1:
        raise QuantityFault(f"'{entry.name}' is given {len(texts)} times.", fix="Give it once.")
    match kind:
        case Input(rows=rows) if texts[0].strip() in rows:
            return rows[texts[0].strip()]
        case Input():
            return _read_quantity(kind, name=entry.name, text=texts[0])
        case ThreadName():
            return parse_thread(texts[0])
        case _:
            return _read_word(kind, texts[0].strip())


def _read_word(kind: Choice | Flag | Designation | NamedRow, text: str) -> object:
    match kind:
        case Choice(words=words) if text in words:
            return text
        case Flag() if text in ("true", "false"):
            return text == "true"
        case Designation(pattern=pattern) if re.fullmatch(pattern, text, re.ASCII):
            return text
        case NamedRow(rows=rows) if text in rows:
            return rows[text]
    raise QuantityFault(f"'{text}' is not one this sheet knows.", fix=f"Write {write_like(kind)}.")


def _read_row(kind: Each, *, name: str, text: str) -> tuple[Measured, ...]:
    pieces = text.split(f" {kind.joined_by} ")
    if len(pieces) != len(kind.parts):
        raise QuantityFault(f"'{text}' cannot be read.", fix=f"Write {write_like(kind)}.")
    return tuple(
        _read_quantity(part, name=name, text=piece)
        for part, piece in zip(kind.parts, pieces, strict=True)
    )


def _read_quantity(kind: Input, *, name: str, text: str) -> Measured:
    quantity = parse_quantity(kind.named.get(text.strip(), text))
    value = convert(quantity, kind.unit)
    _refuse_parts_of_one(kind, name=name, value=value, quantity=quantity)
    _refuse_band(kind, quantity=quantity)
    _refuse_out_of_bounds(kind, name=name, value=value, written=text)
    return Measured(
        value=quantity.in_base,
        half_width=quantity.band_in_base or None,
        band=kind.band,
        cautions=tuple(_range_cautions(kind, name=name, value=value, written=text)),
    )


def _refuse_parts_of_one(kind: Input, *, name: str, value: Fraction, quantity: Quantity) -> None:
    if kind.whole and (value.denominator != 1 or quantity.plus_minus):
        raise QuantityFault(
            f"'{quantity.written}' cannot be the {name}: {kind.meaning}.",
            fix="It is counted: write a whole number, without a ±.",
        )


def _refuse_band(kind: Input, *, quantity: Quantity) -> None:
    if kind.exact and quantity.plus_minus:
        raise QuantityFault(
            f"'{quantity.written}' states a ± where this sheet takes none.", fix=kind.exact
        )


def _refuse_out_of_bounds(kind: Input, *, name: str, value: Fraction, written: str) -> None:
    if kind.above is not None and value <= Fraction(kind.above):
        allowed = f"over {kind.above}"
    elif kind.refuse_low is not None and value < Fraction(kind.refuse_low):
        allowed = f"{kind.refuse_low} or more"
    elif kind.refuse_high is not None and value > Fraction(kind.refuse_high):
        allowed = f"{kind.refuse_high} or less"
    else:
        return
    raise QuantityFault(
        f"'{written}' cannot be the {name}: {kind.meaning}.",
        fix=f"It must be {allowed}{_unit_words(kind)}.",
    )


def _range_cautions(kind: Input, *, name: str, value: Fraction, written: str) -> Iterator[str]:
    if kind.low is not None and value < Fraction(kind.low):
        yield f"{name} {written} is under the range of this sheet, {kind.low}{_unit_words(kind)}."
    if kind.high is not None and value > Fraction(kind.high):
        yield f"{name} {written} is over the range of this sheet, {kind.high}{_unit_words(kind)}."


def _unit_words(kind: Input) -> str:
    return "" if UNITS[kind.unit].symbol == "1" else f" {kind.unit}"
