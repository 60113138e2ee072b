"""The pages of the worksheets: one for each method, and the list."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.public_worksheet import PublicWorksheet
from witnessmark.publish.views import Section, View


def worksheets_view(museum: PublicMuseum) -> View:
    """The list of worksheets, those that decisions rest on first."""
    return View(
        path="worksheets/index.html",
        title="Worksheets",
        description="The small calculations behind our decisions, each with its source.",
        lead="worksheets/list.html",
        values={
            "used": [sheet for sheet in museum.worksheets if sheet.used_in],
            "unused": [sheet for sheet in museum.worksheets if not sheet.used_in],
        },
    )


def worksheet_view(sheet: PublicWorksheet) -> View:
    """One worksheet."""
    return View(
        path=f"worksheets/{sheet.id}/index.html",
        title=sheet.title,
        description=sheet.tells,
        lead="worksheets/lead.html",
        sections=tuple(_sections(sheet)),
        values={"sheet": sheet},
        has_contents=True,
    )


def _sections(sheet: PublicWorksheet) -> Iterator[Section]:
    for name, title, is_there in (
        ("equation", "The equation", True),
        ("inputs", "What goes in", True),
        ("results", "What comes out", True),
        ("limit", "The limit it is held against", True),
        ("uncertainty", "How sure a result is", True),
        ("cautions", "Cautions", True),
        ("sources", "Where it comes from", True),
        ("examples", "Worked by others, and by us", True),
        ("run", "How to run it", True),
        ("decisions", "Decisions that rest on it", bool(sheet.used_in)),
    ):
        if is_there:
            yield Section(id=name, title=title, template=f"worksheets/{name}.html")
