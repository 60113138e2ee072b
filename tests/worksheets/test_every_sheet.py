"""What holds for every sheet that can be run: its own examples, ranges and declarations."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

import pytest

from witnessmark.model.quantity import convert, parse_quantity
from witnessmark.model.units import UNITS
from witnessmark.worksheets import (
    STANDING_CAUTION,
    SheetRefuses,
    built_names,
    describe_sheet,
    find_sheet,
    run,
)
from witnessmark.worksheets.declare import Example, Input, Printed, Sheet
from witnessmark.worksheets.signature import inputs_of, results_of

SHEETS = [find_sheet(name) for name in built_names()]
EXAMPLES = [
    pytest.param(sheet, example, id=f"{sheet.id}: {example.title}")
    for sheet in SHEETS
    for example in sheet.examples
]
FIGURES = [
    pytest.param(sheet, example, name, printed, id=f"{sheet.id}: {example.title}: {name}")
    for sheet in SHEETS
    for example in sheet.examples
    for name, printed in example.printed.items()
]


def outside(bound: str, *, by: int) -> str:
    return str(Decimal(bound) + by * max(abs(Decimal(bound)), Decimal(1)) / 1000)


def values_outside_the_range(kind: Input) -> list[str]:
    low = [] if kind.low is None else [outside(kind.low, by=-1)]
    return low if kind.high is None else [*low, outside(kind.high, by=1)]


def values_to_refuse(kind: Input) -> list[str]:
    refused = [] if kind.above is None else [kind.above, outside(kind.above, by=-1)]
    refused += [] if kind.refuse_low is None else [outside(kind.refuse_low, by=-1)]
    return refused if kind.refuse_high is None else [*refused, outside(kind.refuse_high, by=1)]


def cases(values: Callable[[Input], list[str]]) -> list[object]:
    return [
        pytest.param(sheet, taken.name, value, taken.kind.unit, id=f"{taken.name} {value}")
        for sheet in SHEETS
        for taken in inputs_of(sheet.equation)
        if isinstance(taken.kind, Input)
        for value in values(taken.kind)
    ]


def half_a_last_digit(written: str) -> Fraction:
    exponent = parse_quantity(written).value.as_tuple().exponent
    return Fraction(Decimal(5).scaleb(int(exponent) - 1))


def reached(sheet: Sheet, example: Example, *, name: str, unit: str) -> float:
    result = run(sheet, example.given).results[name]
    return float(UNITS[unit].from_base(UNITS[result.unit].to_base(Fraction(result.value))))


@pytest.mark.parametrize(("sheet", "example", "name", "printed"), FIGURES)
def test_every_example_gives_the_figure_we_say_it_gives(
    sheet: Sheet, example: Example, name: str, printed: Printed
) -> None:
    ours = parse_quantity(printed.ours)
    result = reached(sheet, example, name=name, unit=ours.unit.symbol)
    assert float(ours.value) == pytest.approx(
        result, rel=1e-12, abs=float(half_a_last_digit(printed.ours))
    )


@pytest.mark.parametrize(("sheet", "example", "name", "printed"), FIGURES)
def test_every_printed_figure_is_met_within_its_tolerance_or_shown_to_be_wrong(
    sheet: Sheet, example: Example, name: str, printed: Printed
) -> None:
    theirs = parse_quantity(printed.value)
    result = reached(sheet, example, name=name, unit=theirs.unit.symbol)
    apart = abs(result - float(theirs.value))
    tolerance = float(convert(parse_quantity(printed.tolerance), theirs.unit))
    agrees = apart <= tolerance * (1 + 1e-9)
    assert printed.is_wrong is not agrees


@pytest.mark.parametrize(("sheet", "example"), EXAMPLES)
def test_an_example_whose_print_is_wrong_says_why(sheet: Sheet, example: Example) -> None:
    wrong = any(printed.is_wrong for printed in example.printed.values())
    assert example.note or not wrong


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_every_sheet_has_an_example_and_a_source_and_a_docstring(sheet: Sheet) -> None:
    assert sheet.examples
    assert sheet.sources
    assert sheet.equation.__doc__


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_every_unit_named_by_a_sheet_is_in_the_table(sheet: Sheet) -> None:
    taken = {entry.kind.unit for entry in inputs_of(sheet.equation) if hasattr(entry.kind, "unit")}
    given = {gives.unit for gives in results_of(sheet.equation).values()}
    assert (taken | given) - {""} <= UNITS.keys()


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_every_limit_names_a_result_and_an_input_of_its_sheet(sheet: Sheet) -> None:
    names = {entry.name for entry in inputs_of(sheet.equation)}
    assert {limit.result for limit in sheet.limits} <= results_of(sheet.equation).keys()
    assert {limit.against for limit in sheet.limits if isinstance(limit.against, str)} <= names


@pytest.mark.parametrize(("sheet", "example"), EXAMPLES)
def test_every_run_ends_with_the_standing_caution(sheet: Sheet, example: Example) -> None:
    assert run(sheet, example.given).cautions[-1] == STANDING_CAUTION


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_a_sheet_describes_its_examples_as_it_runs_them(sheet: Sheet) -> None:
    told = describe_sheet(sheet)["examples"]
    assert isinstance(told, list)
    assert len(sheet.examples) == len(told)


def with_input(
    sheet: Sheet, *, name: str, value: str, unit: str
) -> dict[str, str | tuple[str, ...]]:
    written = value if unit == "1" else f"{value} {unit}"
    return {**sheet.examples[0].given, name: written}


@pytest.mark.parametrize(("sheet", "name", "value", "unit"), cases(values_outside_the_range))
def test_a_value_beyond_a_finite_range_is_cautioned(
    sheet: Sheet, name: str, value: str, unit: str
) -> None:
    cautions = run(sheet, with_input(sheet, name=name, value=value, unit=unit)).cautions
    assert [text for text in cautions if name in text and "range of this sheet" in text]


@pytest.mark.parametrize(("sheet", "name", "value", "unit"), cases(values_to_refuse))
def test_a_value_a_sheet_must_refuse_is_refused_by_name(
    sheet: Sheet, name: str, value: str, unit: str
) -> None:
    with pytest.raises(SheetRefuses) as caught:
        run(sheet, with_input(sheet, name=name, value=value, unit=unit))
    assert [name] == [fault.name for fault in caught.value.faults]
