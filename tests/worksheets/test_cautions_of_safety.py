"""Where a figure touches people's safety the sheet says so, as common practice, and defers to law.

The dangers and the customs are common practice, no source; where a law is named, it is named with
its country, as one place's law and not as everybody's.
"""

from __future__ import annotations

import pytest

from witnessmark.worksheets import STANDING_CAUTION, built_names, find_sheet, run
from witnessmark.worksheets.declare import Caution

LAWS = ("Regulations", "Directive", "OSHA", "CFR")
PLACES = ("Great Britain", "European Union", "Europe", "United States")

# What the caution is of, the sheet, words that it always has, and words by which it defers.
ALWAYS_SAID = [
    ("pressure vessels", "gas-charge", "is a pressure vessel", "local law"),
    ("pressure vessels", "gas-compression", "is a pressure vessel", "local law"),
    ("pressure vessels", "stored-gas-energy", "is a pressure vessel", "local law"),
    ("pressure vessels", "gas-charge", "Never weld, heat or drill", "competent person"),
    ("pressure vessels", "fillet-weld-stress", "Never weld near a gas strut", "competent person"),
    ("grinding", "tack-weld-break", "Grinding makes sparks", "local rules for hot work"),
    ("grinding", "hand-arm-vibration", "white fingers end the job", ""),
    ("lifting", "sling-legs", "in date of examination", "elsewhere others"),
    ("lifting", "fillet-weld-stress", "weld on what lifts", "competent person"),
    ("lifting", "wasted-fastener", "Bolts that lift", "competent person"),
    ("lifting", "thread-engagement", "A joint that lifts", "competent person"),
    ("lifting", "manual-lift", "healthy workers", "in Great Britain"),
    ("lifting", "ride-lean", "Never reach under a machine", ""),
    ("confined space", "oxygen-depletion", "is a confined space", "local law"),
    ("confined space", "oxygen-depletion", "never enter a pit", "competent person"),
    ("floors", "ground-pressure", "A floor is another matter", "by an engineer"),
    ("lead", "plain-bearing-duty", "may hold lead", "local rules for lead"),
    ("lead", "tack-weld-break", "frees lead from paint", "lead and cadmium"),
    ("lead", "wasted-fastener", "old paint lead", "local rules"),
    ("lead", "fillet-weld-stress", "lead paint", "local rules"),
    ("cadmium", "tack-weld-break", "cadmium plating give poison fume", "lead and cadmium"),
    ("cadmium", "wasted-fastener", "may be cadmium", "local rules"),
    ("cadmium", "fillet-weld-stress", "cadmium plating", "local rules"),
]
CAUTIONS = [
    pytest.param(sheet, caution, id=f"{sheet.id}: {caution.text[:40]}")
    for sheet in map(find_sheet, built_names())
    for caution in sheet.cautions
]


def always(name: str) -> list[str]:
    """What every run of a sheet says, whatever is given."""
    sheet = find_sheet(name)
    said = [set(run(sheet, example.given).cautions) for example in sheet.examples]
    return sorted(set.intersection(*said))


@pytest.mark.parametrize(("danger", "name", "words", "defers"), ALWAYS_SAID)
def test_a_danger_is_always_named_with_who_has_the_last_word(
    danger: str, name: str, words: str, defers: str
) -> None:
    (text, *_) = [text for text in always(name) if words in text] or [""]
    assert words in text, f"{name} says nothing of {danger}"
    assert defers in text


@pytest.mark.parametrize("name", built_names())
def test_every_run_defers_to_local_codes_and_licensed_practice(name: str) -> None:
    assert STANDING_CAUTION in always(name)
    assert "Local codes and licensed practice govern" in STANDING_CAUTION
    assert "not a permit to work" in STANDING_CAUTION


@pytest.mark.parametrize("other", ["cadmium-plate", "lead", "tin-lead-solder"])
def test_a_pair_with_cadmium_or_lead_is_cautioned_as_poison(other: str) -> None:
    given = {"metal": "steel", "other": other, "place": "store"}
    cautions = run(find_sheet("galvanic-pair"), given).cautions
    assert [text for text in cautions if "are poisons" in text and "local rules" in text]


def test_a_pair_without_them_is_not() -> None:
    given = {"metal": "steel", "other": "zinc", "place": "store"}
    assert not [t for t in run(find_sheet("galvanic-pair"), given).cautions if "are poisons" in t]


@pytest.mark.parametrize(("sheet", "caution"), CAUTIONS)
def test_a_law_is_named_with_the_country_it_holds_in(sheet: object, caution: Caution) -> None:
    if any(law in caution.text for law in LAWS):
        assert any(place in caution.text for place in PLACES)
