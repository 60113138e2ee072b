"""What the examples of the bearing clearance sheet cannot say: verdicts, bands and cautions."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.worksheets import SheetRefuses, Verdict, describe_run, find_sheet, run

SHEET = find_sheet("bearing-clearance")
WORN = {"bore": "65.74 mm", "journal": "65.00 mm", "limit": "0.50 mm"}


def cautioned(words: str, **given: str) -> bool:
    return any(words in text for text in run(SHEET, WORN | given).cautions)


def test_a_worn_bearing_is_beyond_its_limit() -> None:
    reached = run(SHEET, WORN)
    # By hand: 65.74 - 65.00 = 0.74; 0.74 / 65 = 0.0113846...; 0.74 / 0.50 = 1.48.
    expected = {"clearance": 0.74, "of_diameter": float(Fraction(74, 6500)), "share_of_limit": 1.48}
    assert expected == {name: result.value for name, result in reached.results.items()}
    assert reached.verdict is Verdict.BEYOND


@pytest.mark.parametrize(
    ("bore", "verdict"),
    [
        ("65.44 mm", Verdict.WITHIN),
        ("65.45 mm", Verdict.NEAR),
        ("65.50 mm", Verdict.NEAR),
        ("65.501 mm", Verdict.BEYOND),
        ("65.52 ± 0.02 mm", Verdict.CANNOT_TELL),
        ("65.48 ± 0.02 mm", Verdict.CANNOT_TELL),
        ("65.48 ± 0.01 mm", Verdict.NEAR),
        ("65.53 ± 0.02 mm", Verdict.BEYOND),
        ("65.00 mm", Verdict.CANNOT_TELL),
        ("64.90 mm", Verdict.CANNOT_TELL),
    ],
)
def test_the_verdict_follows_the_limit_and_the_band(bore: str, verdict: Verdict) -> None:
    assert verdict is run(SHEET, WORN | {"bore": bore}).verdict


def test_bands_combine_as_the_gum_says() -> None:
    # JCGM 100:2008, 4.3.7 and 5.1.2: U = 2 * sqrt(0.01^2/3 + 0.02^2/3), by hand 0.02582 mm.
    reached = run(SHEET, WORN | {"bore": "65.74 ± 0.01 mm", "journal": "65.00 ± 0.02 mm"})
    band = reached.results["clearance"].plus_minus
    expected = 2 * math.sqrt((0.01**2 + 0.02**2) / 3)
    assert expected == pytest.approx(band, rel=1e-9)


def test_the_band_of_a_ratio_holds_both_its_parts() -> None:
    # clearance / limit: relative standard uncertainties add as squares (JCGM 100:2008, 5.1.6).
    reached = run(SHEET, WORN | {"bore": "65.74 ± 0.01 mm", "limit": "0.50 ± 0.02 mm"})
    relative = math.hypot(0.01 / 0.74, 0.02 / 0.50) / math.sqrt(3)
    band = reached.results["share_of_limit"].plus_minus
    expected = 2 * 1.48 * relative
    assert expected == pytest.approx(band, rel=2e-3)


def test_an_uncertain_limit_widens_what_cannot_be_told() -> None:
    sure = run(SHEET, WORN | {"bore": "65.55 ± 0.01 mm"})
    unsure = run(SHEET, WORN | {"bore": "65.55 ± 0.01 mm", "limit": "0.50 ± 0.10 mm"})
    expected = (Verdict.BEYOND, Verdict.CANNOT_TELL)
    assert expected == (sure.verdict, unsure.verdict)


def test_wear_since_new_is_given_only_where_the_new_clearance_is() -> None:
    assert "wear" not in run(SHEET, WORN).results
    reached = run(SHEET, WORN | {"new_clearance": "0.10 mm"}).results
    expected = (0.64, 0.64 / 0.40)
    assert expected == pytest.approx((reached["wear"].value, reached["share_of_wear"].value))


@pytest.mark.parametrize(
    ("words", "given"),
    [
        ("no larger than the journal", {"bore": "65.00 mm"}),
        ("no larger than the journal", {"bore": "64.90 mm"}),
        ("less than when new", {"bore": "65.05 mm", "new_clearance": "0.10 mm"}),
        ("no less than the limit", {"new_clearance": "0.50 mm"}),
        ("ISO 12129-1", {"new_clearance": "0.03 mm"}),
        ("ISO 12129-1", {"new_clearance": "0.30 mm"}),
        ("No ± was given", {}),
    ],
)
def test_a_doubtful_entry_is_cautioned(words: str, given: dict[str, str]) -> None:
    assert cautioned(words, **given)


@pytest.mark.parametrize(
    ("words", "given"),
    [
        ("no larger than the journal", {}),
        ("less than when new", {"new_clearance": "0.10 mm"}),
        ("no less than the limit", {"new_clearance": "0.10 mm"}),
        ("ISO 12129-1", {"new_clearance": "0.10 mm"}),
        ("No ± was given", {"bore": "65.74 ± 0.01 mm"}),
    ],
)
def test_a_sound_entry_is_not_cautioned_for_it(words: str, given: dict[str, str]) -> None:
    assert not cautioned(words, **given)


@pytest.mark.parametrize("words", ["on diameter", "two axes", "one temperature", "permit to work"])
def test_how_to_measure_is_always_said(words: str) -> None:
    assert cautioned(words)


def test_no_share_of_wear_is_given_where_none_is_allowed() -> None:
    assert "share_of_wear" not in run(SHEET, WORN | {"new_clearance": "0.50 mm"}).results


def test_every_fault_is_reported_at_once_and_by_name() -> None:
    with pytest.raises(SheetRefuses) as caught:
        run(SHEET, {"bore": "-65 mm", "journal": "65 kN", "limits": "0.5 mm"})
    expected = {"bore", "journal", "limit", "limits"}
    assert expected == {fault.name for fault in caught.value.faults}


def test_a_misspelt_input_is_answered_with_the_nearest() -> None:
    with pytest.raises(SheetRefuses, match="Did you mean limit"):
        run(SHEET, WORN | {"limits": "0.5 mm"})


def test_inches_and_millimetres_tell_the_same() -> None:
    metric = run(SHEET, {"bore": "50.8 mm", "journal": "50.673 mm", "limit": "0.254 mm"})
    inches = run(SHEET, {"bore": "2 in", "journal": "1.995 in", "limit": "10 thou"})
    assert metric.results == inches.results


def test_a_run_is_told_in_the_shape_the_command_line_prints() -> None:
    told = describe_run(run(SHEET, WORN))
    assert {"sheet", "results", "verdict", "cautions", "source"} <= told.keys()
    expected = ("bearing-clearance", "beyond", {"value": 0.74, "unit": "mm", "plus_minus": None})
    results = told["results"]
    assert isinstance(results, dict)
    assert expected == (told["sheet"], told["verdict"], results["clearance"])


SIZES = st.decimals(min_value="0.001", max_value="3000", places=3, allow_nan=False)


@given(journal=SIZES, gap=SIZES, limit=SIZES)
def test_a_wider_bore_is_never_judged_better(
    journal: Decimal, gap: Decimal, limit: Decimal
) -> None:
    order = [Verdict.WITHIN, Verdict.NEAR, Verdict.BEYOND]
    sizes = {"journal": f"{journal} mm", "limit": f"{limit} mm"}
    now, later = (
        run(SHEET, sizes | {"bore": f"{journal + gap + more} mm"}).verdict
        for more in (Decimal(0), Decimal("0.01"))
    )
    assert now in order
    assert later in order[order.index(now) :]
