"""Every pair of colours can be told apart, by the formula of WCAG 2.2 (definitions of contrast
ratio and relative luminance; 1.4.3 asks 4.5 to 1 for text, 1.4.11 asks 3 to 1 for marks)."""

from __future__ import annotations

import re

import pytest

from witnessmark.publish import static_files

CSS = static_files()["assets/witnessmark.css"].decode()
PAPER = "#f7f4ed"


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2."""
    parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio, WCAG 2.2."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def palettes() -> list[dict[str, str]]:
    """The light palette, then the dark one."""
    long = re.sub(r"#([0-9a-f])([0-9a-f])([0-9a-f])\b(?![0-9a-f])", r"#\1\1\2\2\3\3", CSS)
    blocks = re.findall(r"\.wm, \.wm-plain \{(.*?)\}", long, re.DOTALL)
    found = [dict(re.findall(r"--wm-(\w+): (#[0-9a-f]{6})", block)) for block in blocks]
    return [palette for palette in found if palette]


def test_the_formula_gives_the_printed_ends_of_its_scale() -> None:
    assert (21, 1) == (round(contrast("#000000", "#ffffff"), 6), contrast("#123456", "#123456"))


@pytest.mark.parametrize("scheme", [0, 1], ids=["light", "dark"])
@pytest.mark.parametrize("ground", ["paper", "sheet", "wash"])
@pytest.mark.parametrize("role", ["ink", "second", "blue", "bronze", "oxide", "verdigris"])
def test_text_can_be_read(scheme: int, ground: str, role: str) -> None:
    palette = palettes()[scheme]
    assert contrast(palette[role], palette[ground]) >= 4.5


@pytest.mark.parametrize("scheme", [0, 1], ids=["light", "dark"])
@pytest.mark.parametrize("ground", ["paper", "sheet", "wash"])
def test_edges_can_be_seen(scheme: int, ground: str) -> None:
    palette = palettes()[scheme]
    assert contrast(palette["edge"], palette[ground]) >= 3


@pytest.mark.parametrize("mark", ["#1b4b82", "#b37f05", "#2b825e", "#4f1717", "#4b5159"])
def test_marks_in_drawings_can_be_seen_on_their_paper(mark: str) -> None:
    assert mark in CSS
    assert contrast(mark, PAPER) >= 3
