"""The page that says how the record itself is kept, and how to read it without us."""

from __future__ import annotations

from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.views import Section, View

PATH = "how-this-is-kept/index.html"


def keeping_view(museum: PublicMuseum) -> View:
    """What is deposited, what git keeps, what a seal proves; the terms where they are set."""
    licence = museum.licence or ""
    return View(
        path=PATH,
        title="How this record is kept",
        description=f"How {museum.name} keeps its decisions readable when we are gone.",
        lead="keeping/lead.html",
        sections=tuple(
            Section(id=name, title=title, template=f"keeping/{name}.html")
            for name, title, is_there in (
                ("copies", "Where copies lie", True),
                ("read", "How to read it without us", True),
                ("for-ever", "What is kept for ever", True),
                ("taken-back", "What can be taken back", True),
                ("seals", "What a seal proves, and what it does not", True),
                ("terms", "What you may do with it", bool(licence)),
            )
            if is_there
        ),
        values={"licence": licence, "is_address": licence.startswith(("https://", "http://"))},
    )
