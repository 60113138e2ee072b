"""What the example of the wasted bolt cannot say: where it turns, its band, and its verdict."""

from __future__ import annotations

import math

import pytest

from witnessmark.worksheets import SheetRefuses, Verdict, find_sheet, run

SHEET = find_sheet("wasted-fastener")
BOLT = {"thread": "M20", "shank": "17 mm"}


def value(name: str, **given: str) -> float:
    return float(run(SHEET, BOLT | given).results[name].value)


@pytest.mark.parametrize(
    ("shank", "governed_by"),
    [
        ("20 mm", "thread"),
        ("17.7 mm", "thread"),  # 246.1 mm2 against 245
        ("17.6 mm", "shank"),  # 243.3
    ],
)
def test_the_lesser_section_governs(shank: str, governed_by: str) -> None:
    assert governed_by == run(SHEET, BOLT | {"shank": shank}).results["governed_by"].value


def test_a_full_shank_leaves_the_whole_strength_of_the_thread() -> None:
    assert (1.0, 245.0) == (
        value("share_left", shank="20 mm"),
        value("governing_area", shank="20 mm"),
    )


def test_a_misprinted_shank_would_call_a_new_bolt_a_third_wasted() -> None:
    # A public copy of BS 1083, table 1, prints 0.4060 in as the least shank of 1/2 in; a handbook
    # of machinery, 31st edition, prints 0.4960.
    new, misprint = (
        value("share_of_new_shank", thread="1/2 BSW", shank=f"{shank} in")
        for shank in ("0.4960", "0.4060")
    )
    assert [0.984, 0.659] == pytest.approx([new, misprint], abs=5e-4)


def test_a_stated_uncertainty_is_the_band_of_the_shank() -> None:
    apart = run(SHEET, BOLT | {"shank_uncertainty": "0.1 mm"})
    assert apart.results == run(SHEET, BOLT | {"shank": "17 ± 0.1 mm"}).results
    # Area goes with the square: U = 2 * 2 * 0.1 / (17 * sqrt(3)) of the share.
    expected = value("share_left") * 4 * 0.1 / (17 * math.sqrt(3))
    assert expected == pytest.approx(apart.results["share_left"].plus_minus)


def test_an_uncertainty_stated_twice_is_refused() -> None:
    with pytest.raises(SheetRefuses, match="stated twice"):
        run(SHEET, BOLT | {"shank": "17 ± 0.1 mm", "shank_uncertainty": "0.1 mm"})


@pytest.mark.parametrize(
    ("given", "verdict"),
    [
        ({}, None),
        ({"least_share": "0.8"}, Verdict.WITHIN),
        ({"least_share": "0.9"}, Verdict.NEAR),
        ({"least_share": "0.95"}, Verdict.BEYOND),
        ({"least_share": "0.92", "shank_uncertainty": "0.1 mm"}, Verdict.CANNOT_TELL),
    ],
)
def test_the_share_left_is_held_to_the_share_allowed(
    given: dict[str, str], verdict: Verdict | None
) -> None:
    assert verdict is run(SHEET, BOLT | given).verdict


@pytest.mark.parametrize(
    ("words", "shank", "is_said"),
    [
        ("more than the nominal size", "20.1 mm", True),
        ("more than the nominal size", "20 mm", False),
        ("was not measured", "19 mm", True),
        ("was not measured", "20 mm", False),
        ("was not measured", "17 mm", False),
    ],
)
def test_a_doubtful_shank_is_cautioned(words: str, shank: str, *, is_said: bool) -> None:
    assert is_said is any(words in text for text in run(SHEET, BOLT | {"shank": shank}).cautions)
