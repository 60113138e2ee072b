"""Which drawings may be shown: those of plain shapes, with nothing a browser could run or fetch."""

from __future__ import annotations

from xml.etree import ElementTree as ET

_SVG = "{http://www.w3.org/2000/svg}"
_SHAPES = frozenset(
    {"svg", "title", "desc", "g", "defs", "path", "rect", "circle", "ellipse", "line", "polyline"}
    | {"polygon", "text", "tspan", "pattern", "clipPath", "use"}
)
_REFERENCES = frozenset({"href", "{http://www.w3.org/1999/xlink}href"})


def is_plain_drawing(content: bytes) -> bool:
    """True for well-formed SVG of shapes and words, without script, style, links or entities."""
    if b"<!DOCTYPE" in content or b"<!ENTITY" in content:
        return False
    try:
        root = ET.fromstring(content)  # noqa: S314  no entities can be there, see above
    except ET.ParseError:
        return False
    return root.tag == f"{_SVG}svg" and all(_is_plain(element) for element in root.iter())


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
