"""What the engine must carry for sheets of every kind, shown on sheets made up for the purpose.

The sheets here calculate nothing real; each takes one kind of input that the planned sheets need.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction
from typing import Annotated, NamedTuple

import pytest

from witnessmark.model.thread import Thread
from witnessmark.worksheets import SheetRefuses, Verdict, run
from witnessmark.worksheets.declare import (
    Band,
    CannotCompute,
    Choice,
    Designation,
    Each,
    Figures,
    Flag,
    Gives,
    Input,
    Limit,
    NamedRow,
    Number,
    Sheet,
    Side,
    ThreadName,
)
from witnessmark.worksheets.verdict import governing, judge


def sheet_of(equation: Callable[..., object], *limits: Limit) -> Sheet:
    return Sheet(
        id="made-up",
        title="Made up for a test",
        tells="nothing real",
        equation=equation,
        formula=(),
        sources=(),
        examples=(),
        limits=limits,
    )


class OneNumber(NamedTuple):
    answer: Annotated[Number, Gives(unit="m/s", meaning="an answer")]


class OneWord(NamedTuple):
    answer: Annotated[str, Gives(unit="", meaning="an answer in a word")]


class OneMass(NamedTuple):
    answer: Annotated[
        Number,
        Gives(
            unit="kg",
            meaning="an answer in the unit of the system",
            unit_by=("system", {"us": "lb", "metric": "kg"}),
        ),
    ]


LENGTH = Input(unit="mm", meaning="a length")
MATERIALS = {"bronze": Fraction(3), "iron": Fraction(2)}


def rim_speed(
    *, diameter: Annotated[Number, LENGTH], speed: Annotated[Number, Input(unit="rpm", meaning="n")]
) -> OneNumber:
    return OneNumber(math.pi * diameter * speed)


def test_turning_speeds_reach_the_equation_in_turns_a_second() -> None:
    reached = run(sheet_of(rim_speed), {"diameter": "19.05 mm", "speed": "500 rpm"})
    # Wentzell, Machine Design, example 19.1: 3/4 in at 500 rpm prints 98.17 ft/min = 0.49870 m/s.
    expected = 0.49870
    assert expected == pytest.approx(reached.results["answer"].value, abs=3e-5)


def worded(
    *,
    fit: Annotated[str, Designation(meaning="a class", pattern="[A-Z]{1,2}[0-9]{1,2}", like="H7")],
    kind: Annotated[str, Choice(meaning="a kind", words={"ball": "balls", "roller": "rollers"})],
    thread: Annotated[Thread, ThreadName(meaning="a thread")],
    material: Annotated[Fraction, NamedRow(meaning="a material", rows=MATERIALS)],
    sacrificial: Annotated[bool, Flag(meaning="a flag")] = False,
) -> OneWord:
    return OneWord(f"{fit} {kind} {thread.series.name} {material} {sacrificial}")


WORDS = {"fit": "H7", "kind": "ball", "thread": "5/8 BSW", "material": "iron"}


def test_words_rows_threads_and_flags_reach_the_equation() -> None:
    result = run(sheet_of(worded), WORDS | {"sacrificial": "true"}).results["answer"]
    expected = ("H7 ball BSW 2 True", "", None)
    assert expected == (result.value, result.unit, result.plus_minus)


@pytest.mark.parametrize(
    ("name", "text", "remedy"),
    [
        ("fit", "7H", "Write H7"),
        ("kind", "needle", "Write ball or roller"),
        ("thread", "5/8", "5/8 BSW"),
        ("material", "brass", "Write bronze or iron"),
        ("sacrificial", "yes", "Write true or false"),
    ],
)
def test_a_word_outside_its_closed_list_is_refused_with_the_choices(
    name: str, text: str, remedy: str
) -> None:
    with pytest.raises(SheetRefuses, match=remedy) as caught:
        run(sheet_of(worded), WORDS | {name: text})
    assert [name] == [fault.name for fault in caught.value.faults]


def daily_exposure(
    *,
    exposure: Annotated[
        tuple[tuple[Number, Number], ...],
        Each(
            meaning="a magnitude and how long",
            parts=(
                Input(unit="m/s2", meaning="magnitude", above="0"),
                Input(unit="h", meaning="time", above="0"),
            ),
        ),
    ],
) -> OneNumber:
    # ISO 5349-1:2001, 5.3: A(8) = sqrt(sum of a^2 T / 8 h); from memory. The unit is borrowed.
    return OneNumber(math.sqrt(sum(a**2 * t for a, t in exposure) / (8 * 3600)))


def test_a_repeated_input_is_read_each_time_it_is_given() -> None:
    given = {"exposure": ["4 m/s2 for 2.5 h", "3 m/s2 for 60 min", "20 m/s2 for 15 min"]}
    expected = math.sqrt((16 * 2.5 + 9 * 1 + 400 * 0.25) / 8)
    assert expected == pytest.approx(run(sheet_of(daily_exposure), given).results["answer"].value)


def test_a_band_inside_a_repeated_input_is_followed() -> None:
    one = run(sheet_of(daily_exposure), {"exposure": "4 ± 0.4 m/s2 for 8 h"}).results["answer"]
    # A(8) = a when the day is 8 h, so the band is that of a: 2 * 0.4 / sqrt(3).
    expected = 0.8 / math.sqrt(3)
    assert expected == pytest.approx(one.plus_minus)


@pytest.mark.parametrize("text", ["4 m/s2", "4 m/s2 2.5 h", "4 m/s2 for 2 h for 1 h", "for 2 h"])
def test_a_repeated_input_that_cannot_be_read_says_how_it_is_written(text: str) -> None:
    with pytest.raises(SheetRefuses, match="a number in m/s2 for a number in h"):
        run(sheet_of(daily_exposure), {"exposure": [text]})


def test_a_single_input_given_twice_is_refused() -> None:
    with pytest.raises(SheetRefuses, match="given 2 times"):
        run(sheet_of(rim_speed), {"diameter": ["1 mm", "2 mm"], "speed": "1 rpm"})


def test_a_required_input_left_empty_is_reported_once() -> None:
    with pytest.raises(SheetRefuses) as caught:
        run(sheet_of(rim_speed), {"diameter": "", "speed": "1 rpm"})
    expected = ["diameter"]
    assert expected == [fault.name for fault in caught.value.faults]


def by_system(
    *,
    system: Annotated[str, Choice(meaning="units", words={"us": "lb", "metric": "kg"})],
    load: Annotated[Number, Input(unit="kg", meaning="a load")],
) -> OneMass:
    return OneMass(load)


@pytest.mark.parametrize(("system", "unit", "value"), [("us", "lb", 50), ("metric", "kg", 22.6796)])
def test_a_result_may_take_its_unit_from_a_word_given(system: str, unit: str, value: float) -> None:
    result = run(sheet_of(by_system), {"system": system, "load": "50 lb"}).results["answer"]
    assert unit == result.unit
    assert value == pytest.approx(result.value, abs=5e-5)


def by_class(
    *,
    stress: Annotated[Number, Input(unit="MPa", meaning="proof stress", named={"8.8": "600 MPa"})],
) -> OneNumber:
    return OneNumber(stress / 10**6)


@pytest.mark.parametrize(("text", "value"), [("8.8", 600), ("640 MPa", 640)])
def test_a_named_class_stands_for_its_quantity(text: str, value: int) -> None:
    assert value == run(sheet_of(by_class), {"stress": text}).results["answer"].value


def counted(*, legs: Annotated[Number, Input(unit="1", meaning="legs", whole=True)]) -> OneNumber:
    return OneNumber(legs)


@pytest.mark.parametrize("text", ["2.5", "2 ± 1", "1/2"])
def test_what_is_counted_is_refused_in_parts_and_with_a_band(text: str) -> None:
    with pytest.raises(SheetRefuses, match="write a whole number"):
        run(sheet_of(counted), {"legs": text})


def test_what_is_counted_is_read_as_a_whole_number() -> None:
    expected = 2
    assert expected == run(sheet_of(counted), {"legs": "2"}).results["answer"].value


def standard(
    *, x: Annotated[Number, Input(unit="m/s", meaning="x", band=Band.STANDARD)]
) -> OneNumber:
    return OneNumber(x)


def expanded(
    *, x: Annotated[Number, Input(unit="m/s", meaning="x", band=Band.EXPANDED)]
) -> OneNumber:
    return OneNumber(x)


@pytest.mark.parametrize(("equation", "band"), [(standard, 0.2), (expanded, 0.1)])
def test_an_input_may_say_its_band_is_not_uniform(
    equation: Callable[..., object], band: float
) -> None:
    result = run(sheet_of(equation), {"x": "5 ± 0.1 m/s"}).results["answer"]
    assert band == pytest.approx(result.plus_minus)


def quotient(
    *,
    x: Annotated[Number, Input(unit="m/s", meaning="x")],
    y: Annotated[Number, Input(unit="1", meaning="y")],
) -> OneNumber:
    return OneNumber(x / y)


def root(*, x: Annotated[Number, Input(unit="1", meaning="x")]) -> OneNumber:
    return OneNumber(math.sqrt(x))


def power(*, x: Annotated[Number, Input(unit="1", meaning="x")]) -> OneNumber:
    return OneNumber(float(x) ** 0.5)


def tower(*, x: Annotated[Number, Input(unit="1", meaning="x")]) -> OneNumber:
    return OneNumber(x**40)


def nowhere(*, x: Annotated[Number, Input(unit="1", meaning="x")]) -> OneNumber:
    return OneNumber(math.inf - math.inf * float(x))


@pytest.mark.parametrize(
    ("equation", "given"),
    [
        (quotient, {"x": "1 m/s", "y": "0"}),
        (root, {"x": "-1"}),
        (power, {"x": "-1"}),
        (tower, {"x": "1e29"}),
        (nowhere, {"x": "1"}),
    ],
)
def test_no_run_ever_gives_what_is_not_a_finite_number(
    equation: Callable[..., object], given: dict[str, str]
) -> None:
    with pytest.raises(SheetRefuses, match="no finite number"):
        run(sheet_of(equation), given)


def test_a_band_whose_end_must_be_refused_refuses_the_run() -> None:
    with pytest.raises(SheetRefuses, match="The stated ± reaches values"):
        run(sheet_of(root), {"x": "1 ± 2"})


def unresolved(*, x: Annotated[Number, Input(unit="1", meaning="x")]) -> OneNumber:
    if x < 1:
        raise CannotCompute("x", message="The rate is not resolved.", fix="Measure later.")
    return OneNumber(x)


def test_an_equation_may_refuse_with_its_own_reason() -> None:
    with pytest.raises(SheetRefuses) as caught:
        run(sheet_of(unresolved), {"x": "0.5"})
    expected = [("x", "The rate is not resolved.", "Measure later.")]
    assert expected == [(f.name, f.message, f.fix) for f in caught.value.faults]


def bounded(
    *,
    x: Annotated[Number, Input(unit="m/s", meaning="x")],
    least: Annotated[Number | None, Input(unit="m/s", meaning="least")] = None,
    material: Annotated[Fraction | None, NamedRow(meaning="row", rows=MATERIALS)] = None,
) -> OneNumber:
    return OneNumber(x)


def from_material(figures: Figures) -> Number | None:
    row = figures.value("material")
    return row if isinstance(row, Fraction) else None


LEAST = Limit(result="answer", side=Side.AT_LEAST, against="least", meaning="least x")
MOST = Limit(result="answer", side=Side.AT_MOST, against=from_material, meaning="most x")


@pytest.mark.parametrize(
    ("given", "verdict"),
    [
        ({"x": "1.5 m/s"}, None),
        ({"x": "1.5 m/s", "least": "1 m/s"}, Verdict.WITHIN),
        ({"x": "1.05 m/s", "least": "1 m/s"}, Verdict.NEAR),
        ({"x": "1 m/s", "least": "1 m/s"}, Verdict.NEAR),
        ({"x": "0.9 m/s", "least": "1 m/s"}, Verdict.BEYOND),
        ({"x": "1 ± 0.1 m/s", "least": "1 m/s"}, Verdict.CANNOT_TELL),
        ({"x": "1.5 m/s", "material": "iron"}, Verdict.WITHIN),
        ({"x": "2.5 m/s", "material": "iron"}, Verdict.BEYOND),
        ({"x": "2.5 ± 0.1 m/s", "material": "iron", "least": "2.5 m/s"}, Verdict.BEYOND),
        ({"x": "1.95 ± 0.1 m/s", "material": "iron", "least": "1 m/s"}, Verdict.CANNOT_TELL),
        ({"x": "1.95 m/s", "material": "iron", "least": "1 m/s"}, Verdict.NEAR),
    ],
)
def test_the_worst_of_the_limits_that_apply_governs(
    given: dict[str, str], verdict: Verdict | None
) -> None:
    assert verdict is run(sheet_of(bounded, LEAST, MOST), given).verdict


def test_a_float_at_its_limit_is_not_beyond_it_by_the_noise_of_arithmetic() -> None:
    judged = judge(0.3 - (0.1 + 0.2), limit=0.3, plus_minus=None)
    assert Verdict.NEAR is judged


def test_no_limits_give_no_verdict() -> None:
    assert governing([]) is None


def test_limits_at_zero_and_under_it_are_judged_too() -> None:
    judged = [
        judge(Fraction(1), limit=Fraction(-5), plus_minus=None),
        judge(Fraction(0), limit=Fraction(0), plus_minus=None),
        judge(Fraction(-1), limit=Fraction(0), plus_minus=None),
        judge(Fraction(1, 4), limit=Fraction(-5), plus_minus=None),
    ]
    expected = [Verdict.WITHIN, Verdict.NEAR, Verdict.BEYOND, Verdict.NEAR]
    assert expected == judged


def test_assumptions_are_told_only_where_bands_were_given() -> None:
    sheet = sheet_of(rim_speed)
    without = run(sheet, {"diameter": "1 mm", "speed": "1 rpm"}).assumptions
    with_band = run(sheet, {"diameter": "1 ± 0.1 mm", "speed": "1 rpm"}).assumptions
    assert not without
    assert "JCGM 100:2008" in " ".join(with_band)


CLASSES = {"8.8": "a class"}


def read_apart(
    *,
    x: Annotated[Number, Input(unit="m/s", meaning="x")],
    instrument: Annotated[
        Number | None, Input(unit="m/s", meaning="half-width of x", band_of="x")
    ] = None,
    limit: Annotated[
        Number | None, Input(unit="m/s", meaning="a limit", exact="Write the limit alone.")
    ] = None,
) -> OneNumber:
    return OneNumber(x)


def test_a_band_given_in_a_field_of_its_own_is_the_band_of_its_input() -> None:
    sheet = sheet_of(read_apart)
    apart = run(sheet, {"x": "3 m/s", "instrument": "0.1 m/s"})
    assert apart.results == run(sheet, {"x": "3 ± 0.1 m/s"}).results


def test_a_band_of_nothing_is_no_band() -> None:
    assert run(sheet_of(read_apart), {"x": "3 m/s", "instrument": "0 m/s"}) == run(
        sheet_of(read_apart), {"x": "3 m/s"}
    )


@pytest.mark.parametrize(
    ("name", "given", "message"),
    [
        ("instrument", {"x": "3 ± 0.1 m/s", "instrument": "0.1 m/s"}, "stated twice"),
        ("limit", {"x": "3 m/s", "limit": "4 ± 1 m/s"}, "Write the limit alone"),
    ],
)
def test_a_band_in_the_wrong_place_is_refused(
    name: str, given: dict[str, str], message: str
) -> None:
    with pytest.raises(SheetRefuses, match=message) as caught:
        run(sheet_of(read_apart), given)
    assert [name] == [fault.name for fault in caught.value.faults]


class WithOwnBand(NamedTuple):
    answer: Annotated[Number, Gives(unit="mm", meaning="an answer", band_from="own")]
    own: Annotated[Number | None, Gives(unit="mm", meaning="its expanded uncertainty")]


def knows_its_band(
    *,
    x: Annotated[Number, Input(unit="mm", meaning="x")],
    own: Annotated[Number | None, Input(unit="mm", meaning="its band")] = None,
) -> WithOwnBand:
    return WithOwnBand(x, own)


OWN = Limit(result="answer", side=Side.AT_MOST, against=lambda _: Fraction(5, 1000), meaning="5 mm")


def test_a_band_that_the_equation_works_out_is_the_band_of_its_result_and_verdict() -> None:
    reached = run(sheet_of(knows_its_band, OWN), {"x": "4 mm", "own": "2 mm"})
    expected = (2.0, Verdict.CANNOT_TELL)
    assert expected == (reached.results["answer"].plus_minus, reached.verdict)
    assert not [text for text in reached.cautions if "No ± was given" in text]


def test_without_its_own_band_a_result_is_judged_as_any_other() -> None:
    reached = run(sheet_of(knows_its_band, OWN), {"x": "4 mm"})
    assert Verdict.WITHIN is reached.verdict
    assert [text for text in reached.cautions if "No ± was given" in text]


def stressed(
    *, stress: Annotated[object, Input(unit="MPa", meaning="a stress", rows=CLASSES)]
) -> OneWord:
    return OneWord(stress if isinstance(stress, str) else "a number")


@pytest.mark.parametrize(
    ("text", "expected"), [("8.8", "a class"), (" 8.8 ", "a class"), ("8.8 MPa", "a number")]
)
def test_a_name_that_stands_for_a_row_reaches_the_equation_as_the_row(
    text: str, expected: str
) -> None:
    assert expected == run(sheet_of(stressed), {"stress": text}).results["answer"].value


def test_a_name_no_row_has_is_read_as_a_quantity() -> None:
    with pytest.raises(SheetRefuses, match="is a plain number"):
        run(sheet_of(stressed), {"stress": "8.7"})
