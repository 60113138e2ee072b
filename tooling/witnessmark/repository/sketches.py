"""A drawn sketch as pictures of dots, where the library that can draw it is installed.

An SVG file is a program to a browser; a picture of dots is not. Without `resvg-py` and Pillow the
drawing itself is shown, after `drawings.is_plain_drawing` has found nothing in it but shapes.
"""

from __future__ import annotations

import importlib.util
from io import BytesIO
from xml.etree import ElementTree as ET

from witnessmark.repository.drawings import is_plain_drawing
from witnessmark.repository.photos import (
    MOST_PIXELS,
    WIDTHS,
    Copy,
    PictureFault,
    copy_name,
    has_pillow,
)

MOST_DRAWING_BYTES = 2 * 1024 * 1024
_PAPER = "#f7f4ed"  # what the style sheet puts under drawings
_COLOURS = 64  # a sketch has a dozen flat colours; the others are their soft edges
_CORNERS = 4
_WORDS = "{http://www.w3.org/2000/svg}text"


def can_draw() -> bool:
    """True where sketches become pictures of dots."""
    return has_pillow() and importlib.util.find_spec("resvg_py") is not None


def sketch_fault(content: bytes) -> PictureFault | None:
    """What keeps a drawing from being shown; None for shapes of a known size."""
    if len(content) > MOST_DRAWING_BYTES:
        most = MOST_DRAWING_BYTES // 1024 // 1024
        return PictureFault(f"It holds more than {most} MB.", "Save it as PNG or JPEG.")
    if not is_plain_drawing(content):
        return PictureFault(
            "This SVG file holds more than plain shapes; a browser could run it or follow it.",
            "Save it as PNG, JPEG or WebP, or take out its scripts, styles, links and pictures.",
        )
    size = _size(content)
    if size is None or min(size) <= 0 or WIDTHS[-1] ** 2 * size[1] / size[0] > MOST_PIXELS:
        return PictureFault(
            "This drawing does not say how wide and high it is, or is far higher than wide.",
            'Give it a viewBox, such as viewBox="0 0 960 640".',
        )
    return None


def sketch_copies(name: str, content: bytes) -> tuple[Copy, ...]:
    """The drawing at each width, the smallest first; itself where it cannot or must not be drawn.

    A drawing with words in it stays what it is: its letters would come from the fonts of the
    machine that builds the site, and the next machine would build another site.
    """
    wide, high = _size(content) or (WIDTHS[1], WIDTHS[1])
    if not can_draw() or _has_words(content):
        return (Copy.of(name, WIDTHS[1], max(1, round(WIDTHS[1] * high / wide)), content),)
    return tuple(_drawn(name, content, width) for width in WIDTHS)


def _size(content: bytes) -> tuple[float, float] | None:
    """Width and height as the viewBox, or else the two attributes, give them."""
    root = ET.fromstring(content)  # noqa: S314  no entities can be there, see is_plain_drawing
    box = root.get("viewBox", "").replace(",", " ").split()
    given = box[2:] if len(box) == _CORNERS else [root.get("width", ""), root.get("height", "")]
    try:
        return float(given[0]), float(given[1])
    except ValueError:
        return None


def _has_words(content: bytes) -> bool:
    root = ET.fromstring(content)  # noqa: S314  no entities can be there, see is_plain_drawing
    return next(root.iter(_WORDS), None) is not None


def _drawn(name: str, content: bytes, width: int) -> Copy:
    import resvg_py  # type: ignore[import-not-found, unused-ignore]  # it is an extra
    from PIL import Image

    drawn = resvg_py.svg_to_bytes(
        svg_string=content.decode(), width=width, background=_PAPER, skip_system_fonts=True
    )
    image = Image.open(BytesIO(bytes(drawn))).convert("RGB").quantize(_COLOURS)
    file = BytesIO()
    image.save(file, "PNG", optimize=True)
    return Copy.of(copy_name(name, width, suffix=".png"), *image.size, file.getvalue())
