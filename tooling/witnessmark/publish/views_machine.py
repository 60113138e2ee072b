"""The pages of the machines."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.publish.figures.over_time import over_time_figure
from witnessmark.publish.public import PublicMachine, PublicMuseum
from witnessmark.publish.views import Section, View


def machine_view(machine: PublicMachine, museum: PublicMuseum) -> View:
    """One machine."""
    decisions = [d for name in machine.decisions if (d := museum.decision(name)) is not None]
    drawing = over_time_figure(machine.account, name=f"m-{machine.id}-metal", machine=machine.name)
    return View(
        path=f"m/{machine.id}/index.html",
        title=machine.name,
        description=machine.what,
        lead="machine/lead.html",
        sections=tuple(_sections(machine)),
        values={
            "m": machine,
            "decisions": decisions,
            "withheld": [w for w in museum.withheld if w.machine == machine.id],
            "metal": drawing,
        },
        has_contents=True,
    )


def _sections(machine: PublicMachine) -> Iterator[Section]:
    for name, title, is_there in (
        ("decisions", "Decisions, newest first", True),
        ("matters", "Why it matters", True),
        ("kept", "How it is kept", True),
        ("metal", "Its original metal over time", bool(machine.account)),
        ("parts", "Part by part", bool(machine.assemblies)),
        ("findings", "What was found", True),
        ("pictures", "More pictures", len(machine.pictures) > 1),
    ):
        if is_there:
            yield Section(id=name, title=title, template=f"machine/{name}.html")


def machines_view(museum: PublicMuseum) -> View:
    """The list of machines."""
    return View(
        path="machines/index.html",
        title="The machines",
        description=f"The machines of {museum.name} that decisions are published about.",
        lead="lists/machines.html",
    )
