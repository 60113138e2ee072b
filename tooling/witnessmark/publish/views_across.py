"""The pages about all decisions at once: how alike we judge, and other policies."""

from __future__ import annotations

from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.views import Section, View
from witnessmark.weighing.agreement import ENOUGH_DECISIONS


def likeness_view(museum: PublicMuseum) -> View:
    """How alike people judge the same values without having seen each other's."""
    found = museum.likeness
    return View(
        path="how-alike-we-judge/index.html",
        title="How alike we judge",
        description="How often two people who judge the same thing apart give the same level.",
        lead="across/likeness.html",
        sections=tuple(
            Section(id=name, title=title, template=f"across/{name}.html")
            for name, title, is_there in (
                ("figures", "The figures", found is not None),
                ("method", "How we find them", True),
            )
            if is_there
        ),
        values={"found": found, "enough": ENOUGH_DECISIONS},
    )


def replays_view(museum: PublicMuseum) -> View:
    """Past decisions under each other policy of the museum."""
    by_section = {f"policy-{found.policy}": found for found in museum.replays}
    return View(
        path="other-policies/index.html",
        title="Past decisions under other policies",
        description="What would have led if the museum had weighed by another of its policies.",
        lead="across/replays.html",
        sections=tuple(
            Section(
                id=name, title=f"Weighed by policy {found.policy}", template="across/replayed.html"
            )
            for name, found in by_section.items()
        ),
        values={"replays": by_section},
    )
