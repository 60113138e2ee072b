"""What the example of the galvanic sheet cannot say: places, order, doubles of the list."""

from __future__ import annotations

from itertools import combinations

import pytest

from witnessmark.worksheets import SheetRefuses, Verdict, find_sheet, run
from witnessmark.worksheets.anodic_index import metals

SHEET = find_sheet("galvanic-pair")
BUSH = {"metal": "bronze", "other": "steel", "place": "store"}


def cautioned(words: str, **given: str) -> bool:
    return any(words in text for text in run(SHEET, BUSH | given).cautions)


# A public page on the anodic index: 0.15 V outdoors, 0.25 in a store, 0.50 where controlled; gold
# with silver, 0.15 apart, is accepted outdoors. Bronze (0.40) in steel (0.85) is 0.45 apart.
@pytest.mark.parametrize(
    ("metal", "other", "place", "verdict"),
    [
        ("bronze", "steel", "outdoor", Verdict.BEYOND),
        ("bronze", "steel", "store", Verdict.BEYOND),
        ("bronze", "steel", "controlled", Verdict.NEAR),
        ("low-bronze", "steel", "controlled", Verdict.NEAR),  # 0.50, at the limit
        ("high-bronze", "steel", "controlled", Verdict.WITHIN),  # 0.40
        ("gold", "silver", "outdoor", Verdict.NEAR),
        ("steel", "cast-iron", "outdoor", Verdict.WITHIN),
    ],
)
def test_a_pair_is_held_to_the_difference_allowed_where_it_is_kept(
    metal: str, other: str, place: str, verdict: Verdict
) -> None:
    assert verdict is run(SHEET, {"metal": metal, "other": other, "place": place}).verdict


def test_the_order_of_the_two_does_not_matter() -> None:
    turned = BUSH | {"metal": "steel", "other": "bronze"}
    assert run(SHEET, BUSH).results == run(SHEET, turned).results


@pytest.mark.parametrize(
    ("metal", "other", "wastes"),
    [("bronze", "steel", "steel"), ("zinc", "steel", "zinc"), ("steel", "cast-iron", "neither")],
)
def test_the_metal_that_wastes_is_named(metal: str, other: str, wastes: str) -> None:
    assert wastes == run(SHEET, BUSH | {"metal": metal, "other": other}).results["wastes"].value


def test_the_series_in_sea_water_names_the_same_metal() -> None:
    # A public chart, millivolts against silver chloride (copper and silver from memory): the more
    # negative wastes. Stainless steel and nickel are left out: their place depends on their film.
    millivolts = {
        "magnesium": -1730,
        "galvanised": -1140,
        "zinc": -1050,
        "steel": -790,
        "high-brass": -450,
        "copper": -340,
        "silver": -130,
    }
    for one, other in combinations(millivolts, 2):
        first = min(one, other, key=millivolts.__getitem__)
        reached = run(SHEET, {"metal": one, "other": other, "place": "outdoor"})
        wastes = reached.results["wastes"].value
        # The two scales differ on zinc and galvanised iron alone, 0.05 V apart here.
        assert first == wastes or {one, other} == {"galvanised", "zinc"}


def test_a_metal_meant_to_waste_meets_no_limit_and_is_named() -> None:
    given = {"metal": "zinc", "other": "steel", "place": "outdoor"}
    assert Verdict.BEYOND is run(SHEET, given).verdict
    meant = run(SHEET, given | {"sacrificial": "true"})
    assert (None, "zinc") == (meant.verdict, meant.results["wastes"].value)
    assert cautioned("meant to waste", **given, sacrificial="true")
    assert not cautioned("meant to waste", **given, sacrificial="false")


def test_a_word_the_list_uses_twice_must_be_chosen() -> None:
    with pytest.raises(SheetRefuses, match="monel-with-nickel"):
        run(SHEET, BUSH | {"metal": "monel"})
    assert cautioned("names monel twice", metal="monel-with-nickel")


def test_a_bronze_is_told_of_its_three_places_in_the_list() -> None:
    assert cautioned("run all three")
    assert not cautioned("run all three", metal="lead")


def test_indices_are_unsigned() -> None:
    # Some lists print a minus sign; a signed row among unsigned ones would double a difference.
    assert all(0 <= metal.index < 2 for metal in metals().values())
