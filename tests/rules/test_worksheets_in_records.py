"""A record's worksheets are reckoned anew at each check; what cannot be is told at its own line."""

from __future__ import annotations

import pytest

from building import BASE, DECISION, museum
from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.rules.check import check
from witnessmark.rules.rulebook_check import load_shipped

BOOK = load_shipped()
HEAD = """\
worksheets:
  - id: asked
    sheet: {sheet}
    bears_on: [drum/bush]
    given:
"""


def record(sheet: str, **given: str) -> str:
    """The base record with one worksheet, each input on a line of its own."""
    before, _, rest = BASE[DECISION].partition("worksheets:\n")
    _, _, after = rest.partition("hazards:\n")
    lines = "".join(f"      {name}: {text}\n" for name, text in given.items())
    return f"{before}{HEAD.format(sheet=sheet)}{lines}hazards:\n{after}"


def found(text: str, *, code: str) -> list[Diagnostic]:
    checked = check(museum(also={DECISION: text}), rulebook=BOOK)
    return [d for d in checked.diagnostics if d.code == code and d.file.endswith(DECISION)]


def line_of(text: str, words: str) -> int:
    return text[: text.index(words)].count("\n") + 1


CLEARANCE = {"bore": "65.74 mm", "journal": "65.00 mm", "limit": "0.50 mm"}
TOW = {"mass": "12000 kg", "gradient": "2 %", "rolling": "0.04"}
LIFE = {"dynamic_rating": "22500 N", "radial": "4000 N", "kind": "ball"}
WEAR = {
    "first": "60.12 mm",
    "second": "60.31 mm",
    "limit": "60.60 mm",
    "interval": "820 h",
    "instrument": "0.01 mm",
}
REFUSED = [
    ("bearing-clearance", CLEARANCE | {"boar": "65 mm"}, "boar:", "no input called 'boar'"),
    ("bearing-clearance", CLEARANCE | {"bore": "65.74 kg"}, "bore:", "is a mass"),
    ("bearing-clearance", CLEARANCE | {"bore": "65.74"}, "bore:", "a length is wanted"),
    ("bearing-clearance", CLEARANCE | {"bore": "400 mil"}, "bore:", "in more than one way"),
    ("bearing-clearance", CLEARANCE | {"journal": "-65 mm"}, "journal:", "cannot be the journal"),
    ("bearing-clearance", CLEARANCE | {"limit": "wide"}, "limit:", "a number that can be read"),
    ("tow-pull", TOW | {"mass": "2 ton"}, "mass:", "in more than one way"),
    ("tow-pull", TOW | {"gradient": '"120 %"'}, "gradient:", "cannot be the gradient"),
    ("rolling-bearing-life", LIFE | {"kind": "needle"}, "kind:", "not one this sheet knows"),
    ("sling-legs", {"load": "1 kN", "legs": '"2"', "angle": "60 deg", "angle_from": "level"},
     "angle_from:", "not one this sheet knows"),
    ("wasted-fastener", {"thread": "M0", "shank": "8 mm"}, "thread:", "M0"),
]  # fmt: skip


@pytest.mark.parametrize(("sheet", "given", "where", "words"), REFUSED)
def test_an_input_that_is_refused_is_told_at_its_own_line(
    sheet: str, given: dict[str, str], where: str, words: str
) -> None:
    text = record(sheet, **given)
    (diagnostic,) = found(text, code="WM070")
    assert line_of(text, f"      {where}") == diagnostic.line
    assert words in diagnostic.message
    assert diagnostic.fix


def test_an_input_that_is_missing_is_told_where_the_inputs_stand() -> None:
    text = record("bearing-clearance", bore="65.74 mm", limit="0.50 mm")
    (diagnostic,) = found(text, code="WM070")
    assert "'journal' is not given" in diagnostic.message
    assert diagnostic.line - line_of(text, "    given:") in {0, 1}


def test_a_slope_without_per_cent_is_asked_for_it() -> None:
    text = record("tow-pull", **(TOW | {"gradient": '"2"'}))
    (diagnostic,) = found(text, code="WM070")
    assert line_of(text, "      gradient:") == diagnostic.line
    assert "%" in diagnostic.fix


def test_a_wear_that_the_instrument_cannot_resolve_gives_no_life() -> None:
    text = record("wear-life", **(WEAR | {"second": "60.125 mm"}))
    assert 1 == len(found(text, code="WM070"))


def test_every_input_at_fault_is_told_and_not_only_the_first() -> None:
    text = record("bearing-clearance", bore="65 kg", journal="a lot", limit="0.5 mm")
    lines = [line_of(text, "      bore:"), line_of(text, "      journal:")]
    assert lines == sorted(d.line for d in found(text, code="WM070"))


def test_a_sheet_that_nobody_knows_is_told_at_its_name() -> None:
    text = record("bearing-clearence", **CLEARANCE)
    (diagnostic,) = found(text, code="WM070")
    assert line_of(text, "    sheet:") == diagnostic.line
    assert "bearing-clearance" in diagnostic.fix


def test_a_sheet_that_can_be_reckoned_is_no_finding() -> None:
    assert [] == found(record("bearing-clearance", **CLEARANCE), code="WM070")


def pinned(text: str, verdict: str) -> list[Diagnostic]:
    """What is said of the worksheet where the record was agreed with that verdict for it."""
    seals = 'seal: "wm1:0", words: "wm1w:0"'
    agreed = f"agreed:\n  - {{role: collections, by: curator, date: 2024-03-02, {seals}}}\n"
    text += f"{agreed}reckoned:\n  worksheets:\n    asked: {verdict}\n"
    return [d for d in found(text, code="WM082") if "orksheet" in d.message]


def test_a_verdict_that_is_still_the_agreed_one_is_no_finding() -> None:
    assert [] == pinned(record("bearing-clearance", **CLEARANCE), "beyond")


@pytest.mark.parametrize(
    ("given", "now"),
    [
        (CLEARANCE | {"bore": "65.20 mm"}, "within"),
        (CLEARANCE | {"bore": "65.20 kg"}, "not reckoned"),
    ],
)
def test_a_verdict_other_than_the_agreed_one_is_told_with_the_name_of_its_sheet(
    given: dict[str, str], now: str
) -> None:
    (diagnostic,) = pinned(record("bearing-clearance", **given), "beyond")
    expected = f'Worksheet "asked" was beyond when it was agreed and is {now} now.'
    assert expected == diagnostic.message
    assert Level.WARNING is diagnostic.level


def test_a_pinned_sheet_that_is_gone_from_the_record_is_told() -> None:
    text = record("bearing-clearance", **CLEARANCE).replace("id: asked", "id: other")
    (diagnostic,) = pinned(text, "beyond")
    assert "is not in this record now" in diagnostic.message


@pytest.mark.parametrize(
    ("sheet", "given"),
    [
        ("sling-legs", {"load": "1 kN", "legs": "2", "angle": "60 deg", "angle_from": "vertical"}),
        (
            "galvanic-pair",
            {"metal": "steel", "other": "zinc", "place": "store", "sacrificial": "true"},
        ),
        (
            "bolt-preload",
            {"thread": "5/8 BSW", "proof_stress": '"class: 8.8"', "nut_factor": "0.2"},
        ),
        ("noise-dose", {"exposure": "[92 dB for 30 min, 80 dB for 4 h]"}),
    ],
)
def test_an_input_is_a_number_a_truth_a_thread_or_a_list_as_yaml_has_them(
    sheet: str, given: dict[str, str]
) -> None:
    text = record(sheet, **given)
    checked = check(museum(also={DECISION: text}), rulebook=BOOK)
    (case,) = checked.cases
    (reckoned,) = case.sheets
    assert reckoned.run is not None, reckoned.faults
