"""The ISO 286 tables against printed tables of limits, and the edges where one step meets the next.

Sources, beside each check: a bearing maker's technical reference, table 6, "Tolerances for inside
dimensions (holes)", read in a public copy; Narayana, Machine Drawing, tables 15.1 to 15.3; a
catalogue table after JIS B 0401, the Japanese adoption of ISO 286.
"""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import pairwise

import pytest

from witnessmark.worksheets import SheetRefuses, find_sheet, run
from witnessmark.worksheets.iso_286 import _table, hole_deviations, letters, shaft_deviations

SHEET = find_sheet("limits-and-fits")
CLEAR = {"size": "50 mm", "hole": "H7", "shaft": "f7"}

# The maker's table 6, in micrometres, upper then lower, at a size inside each step.
HOLES = {
    25: "J6 8 -5|J7 12 -9|J8 20 -13|K6 2 -11|K7 6 -15|K8 10 -23|M6 -4 -17|M7 0 -21|M8 4 -29|"
    "N6 -11 -24|N7 -7 -28|N8 -3 -36|R7 -20 -41|JS6 6.5 -6.5|JS7 10.5 -10.5",
    45: "J6 10 -6|J7 14 -11|J8 24 -15|K6 3 -13|K7 7 -18|K8 12 -27|M6 -4 -20|M7 0 -25|M8 5 -34|"
    "N6 -12 -28|N7 -8 -33|N8 -3 -42|R7 -25 -50|JS7 12.5 -12.5",
    60: "J6 13 -6|J7 18 -12|J8 28 -18|K6 4 -15|K7 9 -21|K8 14 -32|M6 -5 -24|M7 0 -30|M8 5 -41|"
    "N6 -14 -33|N7 -9 -39|N8 -4 -50|R7 -30 -60",
    110: "J6 16 -6|J7 22 -13|J8 34 -20|K6 4 -18|K7 10 -25|K8 16 -38|M6 -6 -28|M7 0 -35|M8 6 -48|"
    "N6 -16 -38|N7 -10 -45|N8 -4 -58|R7 -41 -76",
    150: "J6 18 -7|J7 26 -14|J8 41 -22|K6 4 -21|K7 12 -28|K8 20 -43|M6 -8 -33|M7 0 -40|M8 8 -55|"
    "N6 -20 -45|N7 -12 -52|N8 -4 -67|R7 -50 -90",
    210: "J6 22 -7|J7 30 -16|J8 47 -25|K6 5 -24|K7 13 -33|K8 22 -50|M6 -8 -37|M7 0 -46|M8 9 -63|"
    "N6 -22 -51|N7 -14 -60|N8 -5 -77|R7 -63 -109",
    2: "J6 2 -4|J7 4 -6|J8 6 -8|K6 0 -6|K7 0 -10|K8 0 -14|M6 -2 -8|M7 -2 -12|N6 -4 -10|N7 -4 -14|"
    "N8 -4 -18|R7 -10 -20",
}
# Holes A to D of a public table of ISO limits (9 and 11 are grades): lower deviation, then upper.
OPEN_HOLES = {
    2: "A9 270 295|A11 270 330|B8 140 154|C9 60 85|D9 20 45|E7 14 24",
    25: "A9 300 352|A11 300 430|B8 160 193|B11 160 290|C8 110 143|C11 110 240|D10 65 149|E8 40 73",
    45: "A9 320 382|B11 180 340|C11 130 290|D9 80 142|E7 50 75",
}
# Narayana, page 216, and the catalogue after JIS B 0401: upper then lower.
SHAFTS = {
    40: "f7 -25 -50|d9 -80 -142|h6 0 -16|g6 -9 -25",
    100: "e8 -72 -126|f6 -36 -58",
    12: "d9 -50 -93",
    400: "r6 150 114",
    240: "s6 169 140",
}


def rows(table: dict[int, str]) -> list[tuple[int, str, Fraction, Fraction]]:
    return [
        (size, *_parted(entry)) for size, entries in table.items() for entry in entries.split("|")
    ]


def _parted(entry: str) -> tuple[str, Fraction, Fraction]:
    written, one, other = entry.split()
    return written, Fraction(one), Fraction(other)


@pytest.mark.parametrize(("size", "hole", "upper", "lower"), rows(HOLES))
def test_holes_agree_with_a_printed_table(
    size: int, hole: str, upper: Fraction, lower: Fraction
) -> None:
    assert (upper, lower) == hole_deviations(hole, size=Fraction(size))


@pytest.mark.parametrize(("size", "hole", "lower", "upper"), rows(OPEN_HOLES))
def test_open_holes_agree_with_a_printed_table(
    size: int, hole: str, lower: Fraction, upper: Fraction
) -> None:
    assert (upper, lower) == hole_deviations(hole, size=Fraction(size))


@pytest.mark.parametrize(("size", "shaft", "upper", "lower"), rows(SHAFTS))
def test_shafts_agree_with_a_printed_table(
    size: int, shaft: str, upper: Fraction, lower: Fraction
) -> None:
    assert (upper, lower) == shaft_deviations(shaft, size=Fraction(size))


# Narayana, page 221: holes R, S and P above grade 7 for 180 to 500 mm are the shafts turned over.
@pytest.mark.parametrize(
    ("size", "r", "s", "p"),
    [
        (200, 77, 122, 50),
        (225, 80, 130, 50),
        (250, 84, 140, 50),
        (280, 94, 158, 56),
        (315, 98, 170, 56),
        (355, 108, 190, 62),
        (400, 114, 208, 62),
        (450, 126, 232, 68),
        (500, 132, 252, 68),
    ],
)
def test_tight_holes_above_grade_seven_are_the_shafts_turned_over(
    size: int, r: int, s: int, p: int
) -> None:
    uppers = [hole_deviations(hole, size=Fraction(size))[0] for hole in ("R8", "S8", "P8")]
    assert [-r, -s, -p] == uppers


# Steps run over a, up to and including b. Narayana prints s as 53 for over 50 up to 65 mm and as 59
# for over 65 up to 80 mm.
@pytest.mark.parametrize(
    ("size", "shaft", "lower"),
    [
        ("30", "r6", 28),
        ("30.001", "r6", 34),
        ("50", "p6", 26),
        ("50.001", "p6", 32),
        ("65", "s6", 53),
        ("66", "s6", 59),
        ("3", "n6", 4),
        ("3.001", "n6", 8),
        ("500", "s6", 252),
    ],
)
def test_a_size_on_an_edge_belongs_to_the_step_it_ends(size: str, shaft: str, lower: int) -> None:
    assert lower == shaft_deviations(shaft, size=Fraction(size))[1]


@pytest.mark.parametrize("edge", [3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400])
def test_the_tolerance_grows_just_over_each_edge_and_not_on_it(edge: int) -> None:
    at, over = (
        hole_deviations("H7", size=Fraction(edge) + more)[0] for more in (0, Fraction(1, 9))
    )
    assert at < over


def test_m6_over_250_is_the_special_case_of_the_standard() -> None:
    # ISO 286-2:2010, from memory: ES = -9 over 250 up to 315 mm; the delta rule would give -11.
    assert [-9, -9, -10, -8] == [
        hole_deviations("M6", size=Fraction(size))[0] for size in (251, 315, 316, 250)
    ]


def test_k_has_its_own_deviation_in_grades_four_to_seven_alone() -> None:
    lowers = [shaft_deviations(f"k{grade}", size=Fraction(50))[1] for grade in range(4, 10)]
    assert [2, 2, 2, 2, 0, 0] == lowers


def test_every_row_of_the_table_grows_with_the_size_and_stays_under_two_millimetres() -> None:
    table = _table()
    signed = {**table.shafts_over, **table.tolerances, **table.holes_j}
    under = {**table.shafts_under, **table.shafts_j}
    for row in [*signed.values(), *([-(f or 0) for f in row] for row in under.values())]:
        known = [figure for figure in row if figure is not None]
        assert all(small <= large for small, large in pairwise(known))
        assert max(known) < 2000


def test_the_delta_is_the_step_from_one_grade_to_the_next() -> None:
    # ISO 286-1:1988, 3.3.2: delta = ITn - IT(n-1); over 3 mm. IT4 needs IT3, which is not shipped.
    table = _table()
    for grade in range(5, 9):
        steps = zip(table.tolerances[f"IT{grade}"], table.tolerances[f"IT{grade - 1}"], strict=True)
        assert [a - b for a, b in steps][1:] == list(table.delta[f"IT{grade}"])[1:]


def test_the_formula_would_miss_about_half_of_the_cells() -> None:
    # i = 0.45 D^(1/3) + 0.001 D, D the geometric mean of the step; IT5 to IT12 are 7, 10, 16, 25,
    # 40, 64, 100 and 160 i (ISO 286-1:1988, annex A, from memory).
    factors = dict(zip(range(5, 13), (7, 10, 16, 25, 40, 64, 100, 160), strict=True))
    table = _table()
    missed = 0
    for grade, factor in factors.items():
        for low, high, shipped in zip(
            (1, *table.steps), table.steps, table.tolerances[f"IT{grade}"], strict=False
        ):
            mean = math.sqrt(low * high)
            missed += abs(factor * (0.45 * mean ** (1 / 3) + 0.001 * mean) - shipped) > 0.5
    assert 48 == missed


@pytest.mark.parametrize(
    ("given", "name", "words"),
    [
        ({"shaft": "H7"}, "shaft", "small ones"),
        ({"hole": "f7"}, "hole", "capital letters"),
        ({"shaft": "za6"}, "shaft", "The tables here have no"),
        ({"shaft": "p3"}, "shaft", "no grade 3"),
        ({"shaft": "p18"}, "shaft", "no grade 18"),
        ({"size": "20 mm", "shaft": "t6"}, "shaft", "gives no 't6' at 20 mm"),
        ({"shaft": "j9"}, "shaft", "gives no 'j9'"),
        ({"hole": "K9"}, "hole", "gives no 'K9'"),
        ({"hole": "7H"}, "hole", "Write H7"),
        ({"size": "50 ± 0.01 mm"}, "size", "write it alone"),
        ({"size": "500.1 mm"}, "size", "500 or less"),
    ],
)
def test_what_the_tables_do_not_hold_is_refused_with_the_reason(
    given: dict[str, str], name: str, words: str
) -> None:
    with pytest.raises(SheetRefuses, match=words) as caught:
        run(SHEET, CLEAR | given)
    assert [name] == [fault.name for fault in caught.value.faults]


@pytest.mark.parametrize(
    ("hole", "shaft", "fit"),
    [
        ("H7", "h6", "clearance"),  # least clearance 0
        ("H7", "k6", "transition"),
        ("H7", "p6", "interference"),
        ("K7", "h6", "transition"),
        ("N9", "h9", "transition"),
        ("P7", "h6", "interference"),  # most clearance -26 + 9 - (-16) = -1
    ],
)
def test_a_fit_is_named_by_its_limits_alone(hole: str, shaft: str, fit: str) -> None:
    given = {"size": "50 mm", "hole": hole, "shaft": shaft}
    assert fit == run(SHEET, given).results["fit"].value


def test_a_clearance_of_nothing_at_most_is_an_interference_fit() -> None:
    # Over 3 up to 6 mm: H7 is +12/0 and p6 +20/+12, so the most clearance is 0.
    reached = run(SHEET, {"size": "5 mm", "hole": "H7", "shaft": "p6"}).results
    assert (0.0, "interference") == (reached["clearance_max"].value, reached["fit"].value)


@pytest.mark.parametrize("letter", letters())
def test_every_letter_of_the_tables_can_be_asked_for(letter: str) -> None:
    hole, shaft = f"{letter.upper()}7", f"{letter}7"
    reached = run(SHEET, {"size": "50 mm", "hole": hole, "shaft": shaft}).results
    widths = [
        float(reached[f"{part}_upper"].value) - float(reached[f"{part}_lower"].value)
        for part in ("hole", "shaft")
    ]
    assert [25.0, 25.0] == pytest.approx(widths)  # IT7 at 50 mm


@pytest.mark.parametrize(
    ("words", "given", "is_said"),
    [
        ("on its basis", {"hole": "F7"}, True),
        ("on its basis", {}, False),
        ("may press", {"shaft": "k6"}, True),
        ("may press", {}, False),
        ("limits of new parts", {}, True),
    ],
)
def test_a_pair_that_needs_a_word_gets_it(
    words: str, given: dict[str, str], *, is_said: bool
) -> None:
    assert is_said is any(words in text for text in run(SHEET, CLEAR | given).cautions)
