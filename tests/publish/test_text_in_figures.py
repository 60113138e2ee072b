"""Text in drawings against what really lies behind it, point by point.

axe-core gives no verdict on text in SVG. So a drawing is taken twice, with its words and without;
where the two differ is ink, and what the second shows there is its ground. Contrast is reckoned as
WCAG 2.2 defines it (relative luminance, 1.4.3: at least 4.5 to 1).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from io import BytesIO
from typing import Any

import pytest
from PIL import Image
from playwright.sync_api import Locator, Page

from in_chromium import Looked, open_all

pytestmark = [pytest.mark.browser, pytest.mark.filterwarnings("ignore::DeprecationWarning")]
Colour = tuple[int, int, int]
LEAST = 4.5
NOISE = 3  # one step in each colour: a line drawn anew may round otherwise, and is no ink
DRAWN = "svg.wm-drawing"


def luminance(colour: Colour) -> float:
    """Relative luminance (WCAG 2.2, Definitions)."""
    parts = [c / 255 for c in colour]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: Colour, other: Colour) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_contrast_is_reckoned_as_published() -> None:
    # WCAG 2.2, Understanding 1.4.3: black on white is 21 to 1; #777777 on white is 4.48 to 1.
    white = (255, 255, 255)
    assert (21.0, 4.48) == (contrast((0, 0, 0), white), round(contrast((0x77,) * 3, white), 2))


def pixels(drawing: Locator) -> Image.Image:
    return Image.open(BytesIO(drawing.screenshot())).convert("RGB")


def distance(one: Any, other: Any) -> int:
    """How far two colours lie apart, in steps of all three parts."""
    return sum(abs(a - b) for a, b in zip(one, other, strict=True))


def pairs(shown: Image.Image, bare: Image.Image, box: tuple[int, ...]) -> Iterator[Any]:
    """Ink and ground of each point of a piece of text, the ink at its fullest first."""
    ours, theirs = shown.crop(box), bare.crop(box)  # type: ignore[arg-type]  # four whole numbers
    both = zip(ours.get_flattened_data(), theirs.get_flattened_data(), strict=True)
    return ((ink, ground) for ink, ground in both if distance(ink, ground) > NOISE)


def worst(shown: Image.Image, bare: Image.Image, box: tuple[int, ...]) -> float:
    """The contrast of a piece of text on the worst ground that bears a twentieth of it.

    Its ink is the colour that most of its full points have; the others are softened edges.
    """
    found = Counter(pairs(shown, bare, box))
    if not found:
        return 1.0  # no point differs: nothing is to be read
    far = Counter[Colour]()
    for (ink, ground), count in found.items():
        far[ink] += count * distance(ink, ground)
    ink = far.most_common(1)[0][0]
    grounds = Counter[Colour]()
    for (_, ground), count in found.items():
        grounds[ground] += count
    whole = sum(grounds.values())
    return min(contrast(ink, ground) for ground, n in grounds.items() if n >= whole / 20)


BOXES = """
s => { const o = s.getBoundingClientRect(); return [...s.querySelectorAll('text')].map(t => {
  const r = t.getBoundingClientRect();
  return [t.textContent, r.left - o.left, r.top - o.top, r.right - o.left, r.bottom - o.top];
})}
"""
HIDE = "(s, how) => s.querySelectorAll('text').forEach(t => t.style.visibility = how)"


def faint(drawing: Locator, scale: float) -> list[tuple[str, float]]:
    """Pieces of text of a drawing that stand out too little."""
    shown = pixels(drawing)
    drawing.evaluate(HIDE, "hidden")
    bare = pixels(drawing)
    drawing.evaluate(HIDE, "visible")
    found = []
    for said, *edges in drawing.evaluate(BOXES):
        box = tuple(max(0, round(edge * scale)) for edge in edges)
        ratio = worst(shown, bare, box)
        found += [(said, round(ratio, 2))] if ratio < LEAST else []
    return found


def drawings(page: Page) -> list[Locator]:
    open_all(page)
    return [one for one in page.locator(DRAWN).all() if one.locator("text").count()]


@pytest.mark.parametrize(
    "media",
    [{}, {"color_scheme": "dark"}, {"forced_colors": "active", "color_scheme": "dark"}],
    ids=["light", "dark", "forced colours, dark"],
)
def test_text_in_figures_stands_out_from_what_lies_behind_it(
    site: Looked, media: dict[str, Any]
) -> None:
    said, looked = {}, 0
    for path in site.paths:
        page = site.at(path, width=640, **media)
        for place, drawing in enumerate(drawings(page)):
            looked += 1
            said[f"{path} {place}"] = faint(drawing, 1.0)
    assert looked > 10
    assert {} == {where: texts for where, texts in said.items() if texts}


def test_text_that_cannot_be_read_is_found(plain_site: Looked) -> None:
    page = plain_site.at("d/2024-003/index.html", width=640)
    drawing = drawings(page)[0]
    drawing.evaluate("s => s.querySelectorAll('text').forEach(t => t.style.fill = '#c9c4b6')")
    assert faint(drawing, 1.0)


def test_text_in_figures_is_eleven_pixels_tall_on_the_narrowest_phone(plain_site: Looked) -> None:
    # 11 px at 320 px is the project's own floor (the smallest text of common phone guides, no
    # source in WCAG).
    small = {}
    for path in plain_site.paths:
        page = plain_site.at(path, width=320)
        open_all(page)
        sizes = page.evaluate(
            f"[...document.querySelectorAll('{DRAWN} text')].map(t => "
            "[t.textContent, parseFloat(getComputedStyle(t).fontSize) * t.getScreenCTM().a])"
        )
        small[path] = [(said, size) for said, size in sizes if size < 11]
    assert {} == {path: texts for path, texts in small.items() if texts}
