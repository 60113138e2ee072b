"""The map of weights as drawn: read back from its SVG, and compared with who wins and with shapely.

Who wins at some weights is worked out here, from the scores, by the definition of the weighted sum.
"""

from __future__ import annotations

import random
import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from itertools import pairwise
from xml.etree import ElementTree as ET

import pytest
import shapely

from rendered_site import DEMO, demo, pages
from witnessmark.model.library import assemble
from witnessmark.publish.environment import environment
from witnessmark.publish.figures.ternary import ternary_figure
from witnessmark.publish.public_weighing import PublicWeighing
from witnessmark.publish.shown_options import letters_of
from witnessmark.publish.shown_weighing import rows_of
from witnessmark.repository.disk import read_museum
from witnessmark.weighing import Option, Range, Ranges, Weighting, weigh
from witnessmark.weighing.case import bare_options, weighting_of, work_out
from witnessmark.weighing.ternary import ternary_map

F = Fraction
SVG = "{http://www.w3.org/2000/svg}"
Spot = tuple[int, int]
"""A place in millionths of a unit of the drawing, so that all that is compared is exact."""

PARTS = 10**6
Scores = dict[str, tuple[Fraction, Fraction, Fraction]]
HAIR = PARTS // 100
"""How near a border a point is left out: corners are drawn rounded to hundredths of a unit, so a
border may lie up to 1/200 off in either direction. The triangle is 1000 units wide."""

RUNNING: Ranges = ((F(1, 5), F(1, 2)), (F(3, 10), F(3, 5)), (F(1, 10), F(2, 5)))
OURS = (F(7, 20), F(2, 5), F(1, 4))
HARD: dict[str, tuple[dict[str, tuple[object, object, object]], Ranges | None]] = {
    "three specialists and one that is middling": (
        {"a": (4, 0, 0), "b": (0, 4, 0), "c": (0, 0, 4), "m": (2, 2, 2)},
        RUNNING,
    ),
    "one never leads": ({"a": (4, 1, 4), "b": (3, 3, 3), "c": (1, 4, 1), "d": (2, 3, 3)}, RUNNING),
    "two score the same": ({"a": (4, 1, 4), "b": (2, 4, 2), "c": (4, 1, 4)}, None),
    "a sliver": ({"a": (4, 0, 0), "b": (0, 4, 0), "c": ("2.01", "2.01", 0)}, RUNNING),
    "more than four": (
        {
            "a": (4, 0, 1),
            "b": (0, 4, 1),
            "c": (1, 0, 4),
            "d": ("3.5", "2.5", 0),
            "e": (0, "3.5", "2.5"),
            "f": ("2.5", 0, "3.5"),
            "g": ("2.5", "2.5", "2.5"),
            "h": (3, 1, 3),
        },
        RUNNING,
    ),
    "a line of weights": (
        {"a": (4, 1, 4), "b": (2, 4, 2)},
        ((F(7, 20), F(7, 20)), (F(0), F(1)), (F(0), F(1))),
    ),
    "one weighting": ({"a": (4, 1, 4), "b": (2, 4, 2)}, (*((w, w) for w in OURS),)),  # type: ignore[dict-item]
}


@dataclass(frozen=True)
class Drawn:
    """A map read from its markup, and the scores it should show, by letter."""

    name: str
    figure: ET.Element
    scores: Scores
    ranges: Ranges | None
    weights: tuple[Fraction, Fraction, Fraction]

    def polygons(self, kind: str) -> list[tuple[str, list[Spot]]]:
        """The polygons of one class: which options lead there, and the corners as written."""
        found = (e for e in self.figure.iter(f"{SVG}polygon") if kind in e.attrib["class"].split())
        return [(e.get("data-leads", ""), corners(e.attrib["points"])) for e in found]


def corners(points: str) -> list[Spot]:
    pairs = (pair.split(",") for pair in points.split())
    return [(int(F(x) * PARTS), int(F(y) * PARTS)) for x, y in pairs]


def parsed(figure: str) -> ET.Element:
    return ET.fromstring(re.sub("<svg ", f'<svg xmlns="{SVG.strip("{}")}" ', figure, count=1))  # noqa: S314


def numbers(scores: dict[str, tuple[object, object, object]]) -> Scores:
    return {name: (F(str(a)), F(str(s)), F(str(r))) for name, (a, s, r) in scores.items()}


@cache
def hard(name: str) -> Drawn:
    scores, ranges = numbers(HARD[name][0]), HARD[name][1]
    options = [
        Option(option, (Range.certain(a), Range.certain(s), Range.certain(r)))
        for option, (a, s, r) in scores.items()
    ]
    weighing = weigh(options, weighting=Weighting(weights=OURS, ranges=ranges))
    letters = {option: option.upper() for option in scores}
    assert weighing.verdict
    shown = PublicWeighing(
        word=weighing.verdict.word,
        lead=("It leads.",),
        flips=(),
        stability=(),
        doubt=(),
        steps=(),
        others=(),
        aside=(),
        has_ranges=ranges is not None,
        rows=tuple(rows_of(weighing, letters=letters, chosen=None)),
        map=ternary_map(weighing, weights=OURS, labels=letters),
        unmapped=None,
    )
    figure = ternary_figure(shown, name="x")
    assert figure
    text = environment().get_template("figures/figure.html").render(figure=figure)
    by_letter = {letters[option]: values for option, values in scores.items()}
    return Drawn(name, parsed(text), by_letter, ranges, OURS)


@cache
def demos() -> tuple[Drawn, ...]:
    """Every map on the demo's decision pages."""
    library = assemble(read_museum(DEMO))
    found = []
    for path, page in pages(demo()).items():
        figure = re.search(
            r'<figure class="wm-figure">\s*<figcaption>[^<]*</figcaption>\s*'
            r'<svg class="wm-drawing wm-map".*?</figure>',
            page,
            re.DOTALL,
        )
        if figure:
            entry = library.by_id[path.split("/")[1]]
            assert entry.value
            case = work_out(entry.value, entry.machine, library)
            assert case.ground
            weighting = weighting_of(case.ground.policy, case.ground.kept)
            letters = letters_of(entry.value)
            running = [o for o in bare_options(case.scores) if o.id not in case.aside]
            scores = {letters[option.id]: option.likelies for option in running}
            assert weighting.weights
            drawn = parsed(figure[0])
            found.append(Drawn(path, drawn, scores, weighting.ranges, weighting.weights))
    return tuple(found)


@pytest.fixture(params=[*HARD, "the demo"])
def maps(request: pytest.FixtureRequest) -> tuple[Drawn, ...]:
    """One hard map, or all those of the demo."""
    return demos() if request.param == "the demo" else (hard(request.param),)


def place(weights: Iterable[Fraction]) -> Spot:
    """Where weights stand: authenticity lower left, safety lower right, reversibility on top."""
    _, safety, reversibility = weights
    across, down = 1000 * safety + 500 * reversibility, 866 * (1 - reversibility)
    return int(across * PARTS), int(down * PARTS)


def leaders(scores: Scores, weights: tuple[Fraction, Fraction, Fraction]) -> set[str]:
    worth = {
        letter: sum((w * s for w, s in zip(weights, three, strict=True)), F(0))
        for letter, three in scores.items()
    }
    return {letter for letter, value in worth.items() if value == max(worth.values())}


def turns(spot: Spot, outline: list[Spot]) -> list[tuple[int, int]]:
    """For each side, twice the area between it and a spot, signed; and its squared length."""
    x, y = spot
    return [
        ((c - a) * (y - b) - (d - b) * (x - a), (c - a) ** 2 + (d - b) ** 2)
        for (a, b), (c, d) in pairwise([*outline, outline[0]])
    ]


def holds(outline: list[Spot], spot: Spot) -> bool:
    signs = {turn > 0 for turn, _ in turns(spot, outline)}
    return len(signs) == 1


def is_a_hair_off(outline: list[Spot], spot: Spot) -> bool:
    """True for a spot no further than HAIR from the line of some side."""
    return any(turn**2 <= HAIR**2 * length for turn, length in turns(spot, outline))


def samples(count: int) -> list[tuple[Fraction, Fraction, Fraction]]:
    """Weights spread evenly over the triangle, exact, the same at every run."""
    chance = random.Random(1931)  # noqa: S311  a sample, no secret
    found = []
    for _ in range(count):
        low, high = sorted(chance.randrange(1, PARTS) for _ in range(2))
        found.append((F(low, PARTS), F(high - low, PARTS), 1 - F(high, PARTS)))
    return found


def test_the_drawn_area_that_holds_some_weights_is_the_winners(maps: tuple[Drawn, ...]) -> None:
    for drawn in maps:
        areas = drawn.polygons("wm-area")
        left_out = 0
        for weights in samples(1000):
            spot = place(weights)
            if any(is_a_hair_off(outline, spot) for _, outline in areas):
                left_out += 1
                continue
            inside = [
                set(letters.split(", ")) for letters, outline in areas if holds(outline, spot)
            ]
            assert [leaders(drawn.scores, weights)] == inside
        assert left_out < 20


def test_the_outline_holds_just_the_weights_that_the_policy_allows(maps: tuple[Drawn, ...]) -> None:
    for drawn in maps:
        outlines = [outline for _, outline in drawn.polygons("wm-policy")]
        if drawn.ranges is None:
            assert [] == outlines
            continue
        for weights in samples(1000):
            within = all(
                least <= weight <= most
                for weight, (least, most) in zip(weights, drawn.ranges, strict=True)
            )
            drawn_within = [o for o in outlines if len(o) > 2 and holds(o, place(weights))]
            near = any(is_a_hair_off(outline, place(weights)) for outline in outlines)
            assert near or within == bool(drawn_within)


def test_the_cross_stands_at_the_museums_own_weights(maps: tuple[Drawn, ...]) -> None:
    for drawn in maps:
        (own,) = [e for e in drawn.figure.iter(f"{SVG}g") if e.get("class") == "wm-own"]
        (circle,) = own.iter(f"{SVG}circle")
        found = (float(circle.attrib["cx"]), float(circle.attrib["cy"]))
        assert pytest.approx([part / PARTS for part in place(drawn.weights)], abs=0.006) == list(
            found
        )


def test_no_label_and_no_line_to_one_hides_the_cross(maps: tuple[Drawn, ...]) -> None:
    for drawn in maps:
        x, y = place(drawn.weights)
        cross = shapely.Point(x / PARTS, y / PARTS).buffer(26)  # the disc behind the cross
        plates = [
            shapely.box(left, top, left + wide, top + tall)
            for left, top, wide, tall in (
                [float(e.attrib[side]) for side in ("x", "y", "width", "height")]
                for e in drawn.figure.iter(f"{SVG}rect")
                if e.get("class") == "wm-plate"
            )
        ]
        lines = [
            shapely.LineString([tuple(map(float, end.split(","))) for end in ends[1:].split("L")])
            for ends in (
                e.attrib["d"]
                for e in drawn.figure.iter(f"{SVG}path")
                if e.get("class") == "wm-leader"
            )
        ]
        assert len(drawn.polygons("wm-area")) == len(plates)
        assert [] == [shape for shape in (*plates, *lines) if shape.intersects(cross)]


def test_each_share_in_the_table_is_the_size_of_what_is_drawn(maps: tuple[Drawn, ...]) -> None:
    for drawn in maps:
        head, *rows = [["".join(c.itertext()) for c in row] for row in drawn.figure.iter("tr")]
        told = {row[0].removesuffix(" (chosen)"): dict(zip(head, row, strict=True)) for row in rows}
        areas = {
            letters: shapely.Polygon(outline) for letters, outline in drawn.polygons("wm-area")
        }
        outlines = [o for _, o in drawn.polygons("wm-policy") if len(o) > 2]
        for letters, area in areas.items():
            for letter in letters.split(", "):
                share = area.area / (1000 * 866 / 2 * PARTS**2)
                assert says(told[letter]["Leads, of all weights"], share), letter
                for allowed in map(shapely.Polygon, outlines):
                    share = area.intersection(allowed).area / allowed.area
                    assert says(told[letter]["Leads, of those we allow"], share), letter
        nowhere = told.keys() - {letter for letters in areas for letter in letters.split(", ")}
        assert {told[letter]["Leads, of all weights"] for letter in nowhere} <= {"0 in 100", "none"}


def says(text: str, share: float) -> bool:
    """True when a share in words is within half of one in a hundred of a number."""
    if text.startswith(("under", "over")):
        return share < 0.0101 if text.startswith("under") else share > 0.9899
    return abs(float(text.removesuffix(" in 100")) - 100 * share) <= 0.51


def test_no_two_areas_of_a_map_look_the_same(maps: tuple[Drawn, ...]) -> None:
    for drawn in maps:
        looks = []
        for area in drawn.figure.iter(f"{SVG}polygon"):
            if "wm-area" not in area.attrib["class"]:
                continue
            named = area.get("fill", "").removeprefix("url(#").removesuffix(")")
            patterns = [e for e in drawn.figure.iter(f"{SVG}pattern") if e.get("id") == named]
            inner = [ET.tostring(child) for pattern in patterns for child in pattern]
            how = [pattern.get("patternTransform", "") for pattern in patterns]
            looks.append((area.attrib["class"], tuple(how), tuple(inner)))
        assert len(looks) == len(set(looks))


def test_the_finding_tells_the_shares_of_the_table() -> None:
    figure = hard("one never leads").figure
    (finding,) = figure.iter("figcaption")
    (described,) = figure.iter(f"{SVG}desc")
    cells = ["".join(c.itertext()) for c in figure.iter("td")]
    told = re.findall(r"\d+ in 100", finding.text or "")
    assert told
    assert set(told) <= set(cells)
    assert (finding.text or "") in (described.text or "")


def test_the_demo_shows_maps_and_pages_that_need_none() -> None:
    decisions = {path: text for path, text in pages(demo()).items() if path.startswith("d/")}
    maps = {path for path, text in decisions.items() if "wm-map" in text}
    none = {path for path, text in decisions.items() if "No map of the weights is drawn" in text}
    assert maps
    assert none
    assert set() == maps & none
    assert {drawn.name for drawn in demos()} == maps


def test_a_page_without_a_map_still_has_the_table() -> None:
    for path, text in pages(demo()).items():
        if 'id="weighing"' in text:
            part = text.split('<h2 id="weighing">')[1].split("</section>")[0]
            assert (path, part.count("wm-one-line")) == (path, 1)
