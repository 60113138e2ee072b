"""A review as Markdown that fits a host's comment, whatever the records hold."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.exchange.escapes import markdown
from witnessmark.exchange.review.compare import Review
from witnessmark.exchange.review.sections import (
    Block,
    Line,
    Point,
    Points,
    Reworded,
    Section,
    Table,
    sections_of,
)
from witnessmark.model.word_difference import Stretch

MARKER = "<!-- witnessmark-review -->"
"""By this a build finds its earlier comment and puts the new one in its place."""

MOST_CHARACTERS = 60_000
"""A GitHub comment holds 65,536; some is left for what a build adds around it."""

_ROOM = 400  # for the line that says what was left out


def render_markdown(review: Review, *, most: int = MOST_CHARACTERS) -> str:
    """The sheet; whole sections are left out from the end where it would grow too long."""
    rendered = [render_section(section) for section in sections_of(review)]
    kept, size = [MARKER], len(MARKER)
    for number, text in enumerate(rendered):
        if size + len(text) + _ROOM > most and number > 0:
            kept.append(_cut_short(len(rendered) - number))
            break
        kept.append(text)
        size += len(text) + 2
    return "\n\n".join(kept) + "\n"


def _cut_short(left: int) -> str:
    return (
        f"**{left} more {'section' if left == 1 else 'sections'} left out here** to fit the host's "
        "comment. The whole sheet is what `witnessmark review --format html` writes."
    )


def render_section(section: Section) -> str:
    """A heading with its blocks."""
    parts = [f"{'#' * section.depth} {markdown(section.title)}"]
    parts += [text for block in section.blocks if (text := render_block(block))]
    return "\n\n".join(parts)


def render_block(block: Block) -> str:
    """One block; every text in it is escaped."""
    if isinstance(block, Line):
        lead = f"**{markdown(block.lead)}** " if block.lead else ""
        return f"{lead}{markdown(block.text)}".strip()
    if isinstance(block, Points):
        return "\n".join(_points(block))
    if isinstance(block, Table):
        return "\n".join(_table(block))
    return _reworded(block)


def _points(block: Points) -> Iterator[str]:
    for number, point in enumerate(block.points, start=1):
        mark = f"{number}." if block.numbered else "-"
        yield f"{mark} {_point(point)}"
        indent = " " * (len(mark) + 1)
        yield from (f"{indent}- {markdown(remark)}" for remark in point.remarks)


def _point(point: Point) -> str:
    lead = f"**{markdown(point.lead)}** " if point.lead else ""
    return f"{lead}{markdown(point.text)}"


def _table(block: Table) -> Iterator[str]:
    yield _row(block.head)
    yield "|" + " --- |" * len(block.head)
    yield from (_row(row) for row in block.rows)


def _row(cells: tuple[str, ...]) -> str:
    return "| " + " | ".join(markdown(cell) for cell in cells) + " |"


def _reworded(block: Reworded) -> str:
    marks = {Stretch.STAYED: "", Stretch.WENT: "~~", Stretch.CAME: "**"}
    words = " ".join(
        f"{marks[s.fate]}{markdown(s.text)}{marks[s.fate]}" for s in block.stretches if s.text
    )
    seen = " (public)" if block.is_public else ""
    return f"- {markdown(block.field)}{seen}: {words}"
