"""Accidents at the keyboard, made up by the hundred for every sheet: what comes back is an answer.

A run gives finite figures with units, or refuses in plain words; nothing else. `make test` tries 25
of each kind for a sheet, WITNESSMARK_SOAK=1 tries 200.
"""

from __future__ import annotations

import math
import os
from collections.abc import Mapping, Sequence
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from witnessmark.model.quantity import QuantityFault, convert, parse_quantity
from witnessmark.model.units import UNITS
from witnessmark.worksheets import SheetRefuses, built_names, find_sheet, run
from witnessmark.worksheets.declare import Choice, Designation, Each, Input, Kind, NamedRow, Sheet
from witnessmark.worksheets.run import Result, Run
from witnessmark.worksheets.signature import inputs_of, results_of

SHEETS = [find_sheet(name) for name in built_names()]
BY_NAME = pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
TRIED = settings(
    max_examples=200 if os.environ.get("WITNESSMARK_SOAK") == "1" else 25,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
)
Given = Mapping[str, str | Sequence[str]]

SLIPS = st.sampled_from(
    [
        "",
        " ",
        "±",
        "5 ± ",
        "± 5 mm",
        "nan",
        "NaN mm",
        "inf",
        "-inf kN",
        "1e400",
        "1e999 mm",
        "0x10 mm",
        "1,5 mm",
        "1 250 mm",
        "1_000",
        "1/0 in",
        "1/3 in",
        "٣ mm",
        "\N{FULLWIDTH DIGIT THREE} mm",
        "½ in",
        "5 mm ± 9 kN",
        "5 mm ± 200 %",
        "1 ton",
        "2 cwt",
        "400 mil",
        "3 gallon",
        "2 bar gauge",
        "twelve",
        "5/8 BSW",
        "M0x1",
        "M99999x0.001",
        "M10x99",
        "H7",
        "p6",
        "h0",
        "H99",
        "true",
        "True",
        "yes",
        "None",
        "class: 8.8",
        "for",
        " for ",
        "5 m/s2 for",
        "5 m/s2 for 3 h for 3 h",
        "5 m/s2 for -3 h",
        "92 dB for 25 h",
        "90 dB",
        "\x1b[2J",
        "a\nb",
        "9" * 40,
    ]
)
SIZES = st.builds(  # three figures of any size from a thousandth to a hundred thousand
    lambda figures, power: str(Decimal(figures).scaleb(power)),
    st.integers(100, 999),
    st.integers(-5, 2),
)
NUMBERS = st.one_of(
    SIZES,
    SIZES,
    SIZES,
    st.integers(1, 12).map(str),
    st.decimals(min_value=-1000, max_value=100_000, places=3).map(str),
    st.sampled_from(
        ["0", "-0", "1e-29", "1e29", "-1e29", "0.000001", "1e-9", "1e9", "273.15", "100"]
    ),
)
SELDOM = st.sampled_from([False] * 15 + [True])
SYMBOLS = sorted(UNITS)
BANDS = st.one_of(
    *[st.just("")] * 4,
    SIZES.map(lambda number: f" ± {number}"),
    NUMBERS.map(lambda number: f" ± {number}"),
    st.just(" ± 10 %"),
    st.just(" ± 0"),
)


def with_unit(unit: str) -> st.SearchStrategy[str]:
    """A number and a band in the right unit, mostly; else in any unit at all."""
    symbol = st.sampled_from([unit] * 29 + ["any"]).flatmap(
        lambda word: st.sampled_from(SYMBOLS) if word == "any" else st.just(word)
    )
    return st.builds(
        lambda number, band, symbol: f"{number}{band}{'' if symbol == '1' else ' ' + symbol}",
        NUMBERS,
        BANDS,
        symbol,
    )


def plausible(kind: Kind) -> st.SearchStrategy[str | list[str]]:
    """Something of the right shape for an input, with any size."""
    match kind:
        case Input(unit=unit, rows=rows):
            return st.one_of(with_unit(unit), *([st.sampled_from(sorted(rows))] if rows else []))
        case Choice(words=words):
            return st.sampled_from(sorted(words))
        case NamedRow(rows=rows):
            return st.sampled_from(sorted(rows))
        case Designation(like=like):
            letter = st.sampled_from([*"abcdefghjkmnprstuvxyz", "js", "za"])
            case = st.sampled_from([str.upper if like.isupper() else str.lower] * 9 + [str.title])
            grade = st.one_of(st.integers(5, 12), st.integers(0, 19))
            return st.builds(lambda word, turn, of: f"{turn(word)}{of}", letter, case, grade)
        case Each(parts=parts, joined_by=word):
            row = st.tuples(*(with_unit(part.unit) for part in parts)).map(f" {word} ".join)
            return st.lists(row, max_size=4)
        case _:  # a flag or a thread
            return st.sampled_from(["true", "false", "M16x1.5", "5/8 BSW", "1/2 BSF", "M3"])


def anything(kind: Kind) -> st.SearchStrategy[str | list[str]]:
    return st.one_of(
        *[plausible(kind)] * 9,
        SLIPS,
        st.text(max_size=12),
        st.lists(SLIPS, max_size=3),
    )


@st.composite
def nonsense(draw: st.DrawFn, sheet: Sheet) -> Given:
    """The inputs of an example, some made otherwise, left out, or added under a wrong name."""
    example = draw(st.sampled_from(sheet.examples))
    given: dict[str, str | Sequence[str]] = dict(example.given)
    taken = {entry.name: entry.kind for entry in inputs_of(sheet.equation)}
    for name in draw(st.lists(st.sampled_from(sorted(taken)), min_size=1, max_size=2)):
        given[name] = draw(anything(taken[name]))
    if draw(SELDOM):
        given.pop(draw(st.sampled_from(sorted(given))))
    if draw(SELDOM):
        given[draw(st.text(max_size=6))] = draw(SLIPS)
    return given


@st.composite
def big_and_small(draw: st.DrawFn, sheet: Sheet) -> Given:
    """Every input of the right shape, all of any size at once."""
    return {
        entry.name: draw(plausible(entry.kind))
        for entry in inputs_of(sheet.equation)
        if not entry.optional or draw(SELDOM)
    }


def is_sound(result: Result) -> bool:
    """True for a word without a unit, or a finite number with one."""
    if isinstance(result.value, str):
        return bool(result.value) and result.unit == "" and result.plus_minus is None
    bands = [] if result.plus_minus is None else [result.plus_minus]
    finite = all(math.isfinite(number) for number in (result.value, *bands))
    return finite and result.unit in UNITS and all(band >= 0 for band in bands)


def outside_its_range(kind: Input, *, written: str) -> bool:
    """True where the text states a quantity outside the range that a sheet says it holds for."""
    try:
        value = convert(parse_quantity(written), kind.unit)
    except QuantityFault:
        return False
    low, high = kind.low, kind.high
    under = low is not None and value < Fraction(Decimal(low))
    return under or (high is not None and value > Fraction(Decimal(high)))


def said_nothing_of(reached: Run, sheet: Sheet, given: Given) -> list[str]:
    """The inputs outside their range of which no caution speaks."""
    return [
        entry.name
        for entry in inputs_of(sheet.equation)
        if isinstance(entry.kind, Input)
        and isinstance(written := given.get(entry.name), str)
        and outside_its_range(entry.kind, written=written)
        and not any(entry.name in caution for caution in reached.cautions)
    ]


def check_refusal(refusal: SheetRefuses) -> None:
    assert refusal.faults
    for fault in refusal.faults:
        said = f"{fault.message} {fault.fix}"
        assert fault.message.strip()
        assert fault.fix.strip()
        assert "invalid" not in said.lower()
        assert "Traceback" not in said


def check_answer(sheet: Sheet, given: Given) -> None:
    try:
        reached = run(sheet, given)
    except SheetRefuses as refusal:
        check_refusal(refusal)
        return
    assert reached.results
    assert reached.results.keys() <= results_of(sheet.equation).keys()
    assert [] == [name for name, result in reached.results.items() if not is_sound(result)]
    assert all(math.isfinite(limit.value + limit.limit) for limit in reached.limits)
    assert [] == said_nothing_of(reached, sheet, given)


@BY_NAME
@TRIED
@given(data=st.data())
def test_an_accident_gets_figures_with_units_or_a_plain_refusal(
    sheet: Sheet, data: st.DataObject
) -> None:
    check_answer(sheet, data.draw(nonsense(sheet)))


@BY_NAME
@TRIED
@given(data=st.data())
def test_sizes_that_no_workshop_has_get_figures_with_units_or_a_plain_refusal(
    sheet: Sheet, data: st.DataObject
) -> None:
    check_answer(sheet, data.draw(big_and_small(sheet)))


@BY_NAME
def test_nothing_at_all_is_refused_with_every_input_that_is_missing(sheet: Sheet) -> None:
    must = [entry.name for entry in inputs_of(sheet.equation) if not entry.optional]
    with pytest.raises(SheetRefuses) as caught:
        run(sheet, {})
    assert must == [fault.name for fault in caught.value.faults]


@BY_NAME
def test_a_name_that_is_no_input_is_refused_with_the_names_there_are(sheet: Sheet) -> None:
    with pytest.raises(SheetRefuses) as caught:
        run(sheet, {**sheet.examples[0].given, "zzzzzz": "1 mm"})
    (fault,) = caught.value.faults
    names = [entry.name for entry in inputs_of(sheet.equation)]
    assert "zzzzzz" == fault.name
    assert [] == [name for name in names if name not in fault.fix]
