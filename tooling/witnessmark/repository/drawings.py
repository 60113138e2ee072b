"""Which drawings may be shown: those of plain shapes, with nothing a browser could run or fetch."""

from __future__ import annotations

from xml.etree import ElementTree as ET

_SVG = "{http://www.w3.org/2000/svg}"
_SHAPES = frozenset(
    {"svg", "title", "desc", "g", "defs", "path", "rect", "circle", "ellipse", "line", "polyline"}
    | {"polygon", "text", "tspan", "pattern", "clipPath", "use"}
)
MOST_SHAPES = 20_000
"""A detailed sketch has some hundred. Our own limit."""
_MOST_LEVELS = 64
_REFERENCES = frozenset({"href", "{http://www.w3.org/1999/xlink}href"})


def is_plain_drawing(content: bytes) -> bool:
    """True for well-formed SVG of shapes and words, without script, style, links or entities."""
    if b"<!DOCTYPE" in content or b"<!ENTITY" in content:
        return False
    try:
        root = ET.fromstring(content)  # noqa: S314  no entities can be there, see above
    except ET.ParseError:
        return False
    is_plain = root.tag == f"{_SVG}svg" and all(_is_plain(element) for element in root.iter())
    return is_plain and _shapes_drawn(root) <= MOST_SHAPES


def _shapes_drawn(root: ET.Element) -> int:
    """How many shapes are drawn when each `use` is drawn out; beyond the most, one more than it.

    A few lines of uses of uses ask for more shapes than any disk holds.
    """
    named = {element.get("id", ""): element for element in root.iter()}
    known: dict[str, int] = {}

    def drawn(element: ET.Element, inside: tuple[str, ...], level: int) -> int:
        if level > _MOST_LEVELS:
            return MOST_SHAPES + 1
        count = 1 + sum(drawn(child, inside, level + 1) for child in element)
        for reference in _REFERENCES & element.attrib.keys():
            count += of(element.attrib[reference][1:], inside, level + 1)
        return min(count, MOST_SHAPES + 1)

    def of(name: str, inside: tuple[str, ...], level: int) -> int:
        if name in inside:  # a drawing of itself never ends
            return MOST_SHAPES + 1
        if name not in known:
            known[name] = drawn(named[name], (*inside, name), level) if name in named else 0
        return known[name]

    return drawn(root, (), 0)


def _is_plain(element: ET.Element) -> bool:
    name = str(element.tag)
    if not name.startswith(_SVG) or name.removeprefix(_SVG) not in _SHAPES:
        return False
    return all(_is_harmless(key, value) for key, value in element.attrib.items())


def _is_harmless(key: str, value: str) -> bool:
    if key in _REFERENCES:
        return value.startswith("#")
    outside = "url(" in value and "url(#" not in value
    return not key.lower().startswith("on") and key != "style" and not outside
