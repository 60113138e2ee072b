"""The pages of the machines."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.publish.figures.over_time import over_time_figure
from witnessmark.publish.linked_page import machine_facts
from witnessmark.publish.public import PublicMachine, PublicMuseum
from witnessmark.publish.public_decision import PublicDecision
from witnessmark.publish.public_json import machine_json_path
from witnessmark.publish.views import Section, View


def machine_view(machine: PublicMachine, museum: PublicMuseum) -> View:
    """One machine."""
    decisions = [d for name in machine.decisions if (d := museum.decision(name)) is not None]
    lessons = _lessons(machine, museum)
    drawing = over_time_figure(machine.account, name=f"m-{machine.id}-metal", machine=machine.name)
    return View(
        path=f"m/{machine.id}/index.html",
        title=machine.name,
        description=machine.what,
        lead="machine/lead.html",
        sections=tuple(_sections(machine, has_lessons=bool(lessons))),
        values={
            "m": machine,
            "decisions": decisions,
            "withheld": [w for w in museum.withheld if w.machine == machine.id],
            "metal": drawing,
            "owed": [one for one in museum.due if one.machine == machine.id],
            "lessons": lessons,
        },
        has_contents=True,
        data_file=machine_json_path(machine.id),
        facts=machine_facts(machine, museum, museum.web_root) if museum.web_root else None,
    )


def _lessons(machine: PublicMachine, museum: PublicMuseum) -> list[tuple[PublicDecision, str]]:
    """Decisions about other machines that follow one about this, with what they follow."""
    return [
        (d, name)
        for d in museum.decisions
        for name, _ in d.precedents
        if d.machine != machine.id and name in machine.decisions
    ]


def _sections(machine: PublicMachine, *, has_lessons: bool) -> Iterator[Section]:
    for name, title, is_there in (
        ("decisions", "Decisions, newest first", True),
        ("matters", "Why it matters", True),
        ("kept", "How it is kept", True),
        ("metal", "Its original material over time", bool(machine.account)),
        ("parts", "Part by part", bool(machine.assemblies)),
        ("findings", "What was found", True),
        ("owed", "What is due", True),
        ("lessons", "Who learnt from it", has_lessons),
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
