"""Past a limit a sheet says so, and past a range it cautions or refuses: all sheets at once.

Ranges of single inputs are tried in test_every_sheet; here stand repeated inputs, the limits that
results must keep to, and the places where an equation itself no longer holds.
"""

from __future__ import annotations

from decimal import Decimal

import pytest

from witnessmark.worksheets import SheetRefuses, built_names, find_sheet, run
from witnessmark.worksheets.declare import Each, Input, Limit, Sheet, Side
from witnessmark.worksheets.run import Run
from witnessmark.worksheets.signature import inputs_of
from witnessmark.worksheets.verdict import Verdict

SHEETS = [find_sheet(name) for name in built_names()]
LIMITS = [
    pytest.param(sheet, limit, id=f"{sheet.id} {limit.result} {limit.against}")
    for sheet in SHEETS
    for limit in sheet.limits
    if isinstance(limit.against, str)
]
PARTS = [
    pytest.param(sheet, taken.name, taken.kind, number, id=f"{sheet.id} {part.meaning}")
    for sheet in SHEETS
    for taken in inputs_of(sheet.equation)
    if isinstance(taken.kind, Each)
    for number, part in enumerate(taken.kind.parts)
]
# What the limit of a result hangs on where an input does not give it: one input of an example made
# other, so that the result is past it.
PAST_A_REACHED_LIMIT = [
    ("gas-charge", {"allowed": "70 bar"}),
    ("gas-compression", {"allowed": "100 bar"}),
    ("galvanic-pair", {"other": "zinc"}),
    ("hand-arm-vibration", {"exposure": "12 m/s2 for 3 h"}),
    ("hand-arm-vibration", {"exposure": "5 m/s2 for 3 h", "keep_to": "action"}),
    ("noise-dose", {"exposure": "95 dB for 8 h"}),
    ("noise-dose", {"peak": "145 dB"}),
    ("oxygen-depletion", {"room": "60 m3"}),
    ("plain-bearing-duty", {"pressure_limit": "0.01 MPa"}),
    ("plain-bearing-duty", {"velocity_limit": "0.01 m/s"}),
    ("plain-bearing-duty", {"pv_limit": "0.001 MPa m/s"}),
    ("tow-pull", {"friction": "0.05"}),
    ("wear-life", {"limit": "60.20 mm"}),
]
# What an example leaves out and a limit of its sheet needs to be met at all.
ALSO = {"static_safety": {"static_rating": "5000 N"}}
# Where the equation, not one input alone, no longer holds. Sources: each sheet's own.
NO_RESULT = [
    ("rolling-bearing-life", {"radial": "3000 lbf"}, "half the dynamic rating"),
    ("wear-life", {"second": "60.125 mm"}, ""),
    ("oxygen-depletion", {"room": "5 m3"}, ""),
    ("sling-legs", {"angle": "20 deg"}, ""),
    ("limits-and-fits", {"size": "501 mm"}, ""),
    ("manual-lift", {"asymmetry": "170 deg"}, "lets nothing be lifted"),
]


def example_of(sheet: Sheet, *, with_inputs: dict[str, str]) -> dict[str, str | tuple[str, ...]]:
    return {**sheet.examples[0].given, **with_inputs}


def beyond(reached: Run, *, result: str) -> bool:
    return any(met.result == result and met.verdict is Verdict.BEYOND for met in reached.limits)


@pytest.mark.parametrize(("sheet", "limit"), LIMITS)
def test_a_result_past_the_limit_it_is_given_is_beyond(sheet: Sheet, limit: Limit) -> None:
    assert isinstance(limit.against, str)
    kind = next(t.kind for t in inputs_of(sheet.equation) if t.name == limit.against)
    assert isinstance(kind, Input)
    far = Decimal("1e-4") if limit.side is Side.AT_MOST else Decimal("1e9")
    if kind.refuse_high is not None:
        far = Decimal(kind.refuse_high)
    written = f"{far:f}" if kind.unit == "1" else f"{far:f} {kind.unit}"
    inputs = {limit.against: written, **ALSO.get(limit.result, {})}
    reached = run(sheet, example_of(sheet, with_inputs=inputs))
    assert beyond(reached, result=limit.result)


@pytest.mark.parametrize(("name", "inputs"), PAST_A_REACHED_LIMIT)
def test_a_result_past_the_limit_that_is_reckoned_is_beyond(
    name: str, inputs: dict[str, str]
) -> None:
    sheet = find_sheet(name)
    assert Verdict.BEYOND is run(sheet, example_of(sheet, with_inputs=inputs)).verdict


def test_every_limit_of_every_sheet_is_tried_here() -> None:
    tried = {name for name, _ in PAST_A_REACHED_LIMIT}
    reckoned = {s.id for s in SHEETS if any(callable(limit.against) for limit in s.limits)}
    assert reckoned == tried


@pytest.mark.parametrize(("name", "inputs", "caution"), NO_RESULT)
def test_where_an_equation_no_longer_holds_there_is_a_caution_or_no_result(
    name: str, inputs: dict[str, str], caution: str
) -> None:
    sheet = find_sheet(name)
    given = example_of(sheet, with_inputs=inputs)
    if caution:
        assert [text for text in run(sheet, given).cautions if caution in text]
        return
    with pytest.raises(SheetRefuses):
        run(sheet, given)


def row_with(sheet: Sheet, *, name: str, kind: Each, number: int, value: str) -> str:
    """One row of a repeated input with one part of another size."""
    first = sheet.examples[0].given[name][0].split(f" {kind.joined_by} ")
    first[number] = f"{value} {kind.parts[number].unit}"
    return f" {kind.joined_by} ".join(first)


@pytest.mark.parametrize(("sheet", "name", "kind", "number"), PARTS)
def test_a_part_of_a_repeated_input_past_its_range_is_cautioned_or_refused(
    sheet: Sheet, name: str, kind: Each, number: int
) -> None:
    part = kind.parts[number]
    ends = [(part.above, 0), (part.refuse_low, -1), (part.refuse_high, 1)]
    refused = [str(Decimal(end) + by) for end, by in ends if end is not None]
    assert refused
    for value in refused:
        row = row_with(sheet, name=name, kind=kind, number=number, value=value)
        with pytest.raises(SheetRefuses):
            run(sheet, {**sheet.examples[0].given, name: row})
    if part.high is not None:
        over = str(Decimal(part.high) + 1)
        row = row_with(sheet, name=name, kind=kind, number=number, value=over)
        cautions = run(sheet, {**sheet.examples[0].given, name: row}).cautions
        assert [text for text in cautions if "over the range of this sheet" in text]
