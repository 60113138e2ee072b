"""A worksheet's page says all that the sheet says of itself, and a decision's page uses it."""

from __future__ import annotations

import re
from html import unescape

import pytest

import canary_museum as canary
from calling import call
from rendered_site import Markup, demo, pages, site_of
from witnessmark.worksheets import built_names, describe_sheet, find_sheet
from witnessmark.worksheets.declare import Sheet
from witnessmark.worksheets.signature import inputs_of, results_of

SHEETS = [find_sheet(name) for name in built_names()]


def words(markup: str) -> str:
    """The words of a page as a reader has them, without markup."""
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]*>", " ", markup)))


def page_of(sheet: Sheet) -> str:
    return pages(demo())[f"worksheets/{sheet.id}/index.html"]


def without_blanks(text: str) -> str:
    return re.sub(r"\s+", "", text)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_a_page_names_every_input_and_result_with_its_meaning(sheet: Sheet) -> None:
    read = words(page_of(sheet))
    taken = {t.name: t.kind.meaning for t in inputs_of(sheet.equation)}
    given = {name: gives.meaning for name, gives in results_of(sheet.equation).items()}
    wanted = {*taken, *taken.values(), *given, *given.values()}
    assert set() == {text for text in wanted if text not in read}


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_a_page_holds_equation_cautions_sources_and_what_was_not_found(sheet: Sheet) -> None:
    read = without_blanks(words(page_of(sheet)))
    texts = [*sheet.formula, *(caution.text for caution in sheet.cautions)]
    for source in sheet.sources:
        texts += [source.title, source.clause, source.standing.value[1:], source.note]
    texts += [sheet.tells, sheet.none_found]
    assert [] == [text for text in texts if without_blanks(text).rstrip(".") not in read]


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_a_printed_figure_stands_beside_ours(sheet: Sheet) -> None:
    page = page_of(sheet)
    for example in sheet.examples:
        for name, printed in example.printed.items():
            mark = " (the print is wrong)" if printed.is_wrong else ""
            style = ' class="wm-wrong"' if printed.is_wrong else ""
            row = f'<th scope="row">{name}</th><td{style}>{printed.value}{mark}</td>'
            assert f"{row}<td>{printed.ours}</td>" in page


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_every_wrong_print_is_explained(sheet: Sheet) -> None:
    wrong = [e for e in sheet.examples if any(p.is_wrong for p in e.printed.values())]
    page = page_of(sheet)
    assert len(wrong) == page.count("Why we say the print is wrong.")
    assert [] == [
        e.note for e in wrong if without_blanks(e.note) not in without_blanks(words(page))
    ]


def test_some_sheet_has_a_wrong_print() -> None:
    assert sum("Why we say the print is wrong." in page_of(sheet) for sheet in SHEETS) > 2


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_a_sheet_with_few_published_examples_says_so(sheet: Sheet) -> None:
    says = "What was not found" in page_of(sheet)
    assert says is bool(sheet.none_found)
    assert says or len(sheet.examples) > 1


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_every_table_of_a_page_scrolls_in_a_labelled_box_that_takes_focus(sheet: Sheet) -> None:
    page = page_of(sheet)
    boxes = [given for _, given in Markup(page).elements if given.get("class") == "wm-scroll"]
    assert page.count("<table") + page.count("<pre>") == len(boxes)
    assert all(box["tabindex"] == "0" and box["aria-label"] for box in boxes)
    labels = [box["aria-label"] for box in boxes]
    assert sorted(set(labels)) == sorted(labels)


def test_the_command_of_a_page_runs_and_gives_what_the_page_says() -> None:
    sheet = find_sheet("limits-and-fits")
    found = re.search(r"<code>witnessmark (worksheet run .*?)</code>", page_of(sheet))
    assert found
    typed = re.findall(r'([\w-]+(?:="[^"]*")?)', unescape(found[1]))
    called = call(*(word.replace('"', "") for word in typed), "--format", "json")
    # ISO 286-2:2010 for 50 H7/p6: hole +25/0, shaft +42/+26 um (from memory, as in the sheet).
    results = called.json["results"]
    names = ("hole_upper", "hole_lower", "shaft_upper", "shaft_lower")
    assert [25, 0, 42, 26] == [results[name]["value"] for name in names]


def test_the_list_leads_to_every_sheet() -> None:
    page = pages(demo())["worksheets/index.html"]
    hrefs = set(Markup(page).all("href"))
    wanted = {f"../worksheets/{name}/index.html" for name in built_names()}
    assert set() == wanted - hrefs


def test_a_decision_and_a_sheet_tell_the_same_of_each_other() -> None:
    site = pages(demo())
    link = re.compile(r'href="../../(worksheets|d)/([a-z0-9-]+)/index\.html')
    told: dict[str, set[tuple[str, str]]] = {"d": set(), "worksheets": set()}
    for path, text in site.items():
        kind, _, name = path.removesuffix("/index.html").partition("/")
        if kind in told and name:
            told[kind] |= {
                (name, other) for to, other in link.findall(text) if {to, kind} == {*told}
            }
    assert told["d"]
    assert told["d"] == {(decision, sheet) for sheet, decision in told["worksheets"]}


def test_a_decision_shows_inputs_equation_result_limit_verdict_source_and_caution() -> None:
    page = pages(site_of(canary.library()))["d/2024-003/index.html"]
    part = words(page.split('<h2 id="worksheets">')[1].split("<h2 ")[0])
    # 65.74 - 65.00 = 0.74 mm, over the limit of 0.50 mm: by hand.
    wanted = [
        "65.74 mm",
        "clearance = bore - journal",
        "Clearance is 0.7400 mm and must be at most 0.5 mm.",
        "Beyond: the result does not keep to the limit.",
        "Source:",
        "not a permit to work",
    ]
    assert [] == [text for text in wanted if text not in part]


def test_a_band_is_shown_with_the_result_and_its_digits() -> None:
    text = canary.DECISION.replace("bore: 65.74 mm", "bore: 65.74 ± 0.02 mm")
    library = canary.library_with("crane/2024-003-canary.yml", text)
    page = pages(site_of(library))["d/2024-003/index.html"]
    # GUM 4.3.7: 2 x 0.02 / sqrt(3) = 0.023 mm.
    assert "Clearance is 0.740 ± 0.023 mm and must be at most 0.5 mm." in words(page)


def test_every_page_says_how_its_sheet_is_described() -> None:
    for sheet in SHEETS:
        told = describe_sheet(sheet)["uncertainty"]
        assert isinstance(told, list)
        assert set() == {str(line) for line in told if str(line) not in words(page_of(sheet))}
