"""A figure shows the numbers of its table, read back from what was drawn."""

from __future__ import annotations

import re
from fractions import Fraction
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rendered_site import demo, pages
from witnessmark.publish.environment import environment
from witnessmark.publish.figures.bars import pieces_of
from witnessmark.publish.figures.figure import LEFT, Figure
from witnessmark.publish.figures.over_time import over_time_figure
from witnessmark.publish.figures.scales import RIGHT, Row, scales_figure
from witnessmark.publish.public import Account, Tally
from witnessmark.publish.public_decision import PublicScore

SVG = "{http://www.w3.org/2000/svg}"
FIGURE = re.compile(r'<figure class="wm-figure">.*?</figure>', re.DOTALL)
levels = st.lists(st.integers(0, 400), min_size=3, max_size=3).map(sorted)


def drawn(figure: Figure) -> ET.Element:
    text = environment().get_template("figures/figure.html").render(figure=figure)
    named = re.sub("<svg ", f'<svg xmlns="{SVG.strip("{}")}" ', text)
    return ET.fromstring(named)  # noqa: S314  our own markup


def cells(root: ET.Element) -> list[list[str]]:
    return [["".join(c.itertext()) for c in row] for row in root.iter("tr")][1:]


def level_at(x: float) -> float:
    return (x - LEFT) / (RIGHT - LEFT) * 4


@given(st.lists(levels, min_size=1, max_size=6))
def test_each_tick_and_band_stands_where_the_table_says(ends: list[list[int]]) -> None:
    scores = [
        PublicScore(low=Fraction(a, 100), likely=Fraction(b, 100), high=Fraction(c, 100))
        for a, b, c in ends
    ]
    rows = [("Form", [(chr(65 + n), score) for n, score in enumerate(scores)])]
    root = drawn(scales_figure(rows, name="x", title="T", finding="F."))
    ticks = [e for e in root.iter(f"{SVG}path") if "wm-tick" in e.attrib["class"]]
    at = [level_at(float(re.split("[M ]", e.attrib["d"])[1])) for e in ticks]
    assert [pytest.approx(b / 100, abs=0.001) for _, b, _ in ends] == at
    bands = [e for e in root.iter(f"{SVG}rect") if "wm-band" in e.attrib["class"]]
    spans = [float(e.attrib["width"]) / (RIGHT - LEFT) * 4 for e in bands]
    assert [pytest.approx((c - a) / 100, abs=0.001) for a, _, c in ends if c > a] == spans


def test_the_numbers_in_the_drawing_are_those_of_the_table() -> None:
    score = PublicScore(low=Fraction(2), likely=Fraction(3), high=Fraction(4))
    none = PublicScore(withheld=("why",))
    rows: list[Row] = [
        ("Form", [("A", score), ("B", none), ("C", None)]),
        ("Use", [("A", none), ("B", score), ("C", score)]),
    ]
    root = drawn(scales_figure(rows, name="x", title="T", finding="F."))
    numbers = [e.text for e in root.iter(f"{SVG}text") if e.attrib["class"] == "wm-number"]
    assert numbers == [cell for row in cells(root) for cell in row[1:]]


def test_a_score_that_is_withheld_is_dashed_and_never_nought() -> None:
    root = drawn(
        scales_figure(
            [("Form", [("A", PublicScore(withheld=("why",)))])], name="x", title="T", finding="F."
        )
    )
    classes = [e.attrib["class"] for e in root.iter() if "class" in e.attrib]
    assert ("wm-none" in classes, [c for c in classes if "wm-tick" in c]) == (True, [])
    assert [["Form", "not scored"]] == cells(root)


@given(st.lists(st.integers(0, 40), min_size=4, max_size=4).filter(any))
def test_a_bar_is_cut_in_proportion_and_stays_on_the_drawing(counts: list[int]) -> None:
    amounts = {str(n): Fraction(count) for n, count in enumerate(counts)}
    whole = sum(amounts.values(), Fraction(0))
    pieces = pieces_of(amounts, whole=whole, left=0)
    assert [a for a in amounts.values() if a] == [piece.amount for piece in pieces]
    shapes = [re.findall(r"M([\d.]+) 0h([\d.]+)", piece.path) for piece in pieces]
    assert all(float(x) + float(w) <= 320 for shape in shapes for x, w in shape)
    if whole <= 20:
        assert [int(piece.amount) for piece in pieces] == [len(shape) for shape in shapes]


def test_metal_over_time_draws_what_its_table_counts() -> None:
    from datetime import date

    before = Tally(as_built=Fraction(6), in_service=Fraction(2))
    after = Tally(as_built=Fraction(4), in_service=Fraction(2), kept=Fraction(1), lost=Fraction(1))
    account = [
        Account(day=day, decision=None, pieces=tally, kilograms=Tally(), unweighed=0)
        for day, tally in ((date(2022, 1, 1), before), (date(2024, 3, 1), after))
    ]
    figure = over_time_figure(account, name="m", machine="The crane")
    root = drawn(figure)
    assert [["2022-01-01", "6", "2", "0", "0"], ["2024-03-01", "4", "2", "1", "1"]] == cells(root)
    paths = [e for e in root.iter(f"{SVG}path") if "wm-piece" in e.attrib["class"]]
    assert [6, 2, 4, 2, 1, 1] == [e.attrib["d"].count("M") for e in paths]


def test_every_figure_of_the_site_has_a_title_a_description_and_a_table() -> None:
    for path, text in pages(demo()).items():
        for figure in FIGURE.findall(text):
            named = re.search(r'role="img" aria-labelledby="(\S+) (\S+)"', figure)
            assert named, path
            assert f'<title id="{named[1]}">' in figure
            assert f'<desc id="{named[2]}">' in figure
            assert figure.count("<td>") > 1


def test_no_figure_brings_a_style_of_its_own() -> None:
    for text in pages(demo()).values():
        assert "style=" not in text
        assert "<style" not in text
