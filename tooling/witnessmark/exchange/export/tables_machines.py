"""The tables of museums, machines, parts and findings."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from witnessmark.exchange.export.columns import (
    MUSEUM,
    Link,
    Row,
    Table,
    day,
    text,
    whole,
    yes_no,
)
from witnessmark.exchange.export.published import Part, Published

MACHINE = text("machine", "The machine's id, as in the address of its page.")
OF_MUSEUM = Link(("museum",), "museums", ("museum",))
OF_MACHINE = Link(("museum", "machine"), "machines", ("museum", "machine"))


def page(published: Published, path: str) -> str | None:
    """The full address of a page; None where the museum has no web address."""
    web = published.museum.web
    return f"{web.rstrip('/')}/{path}" if web else None


def _museums(published: Published) -> Iterator[Row]:
    museum, on = published.museum, date.fromisoformat(published.as_of)
    yield published.name, museum.name, museum.place, museum.about, on


def _machines(published: Published) -> Iterator[Row]:
    for m in published.machines:
        yield (
            *(published.name, m.id, m.name, m.what, m.built, m.number, m.as_of),
            *(m.kept_now.value, m.matters, m.judged_against, page(published, f"m/{m.id}/")),
        )


def _parts(published: Published) -> Iterator[Row]:
    for machine in published.machines:
        for assembly in machine.assemblies:
            for p in assembly.parts:
                yield (
                    *(published.name, machine.id, p.address, assembly.name, p.name, p.count),
                    *(p.origin.value, p.made_to.value, p.mass, p.material, p.drawing),
                    *(_can_be_made(p), p.last_known, "; ".join(p.today) or None),
                )


def _can_be_made(part: Part) -> str:
    """Yes, no or unknown: a third answer has no place among true and false."""
    if isinstance(part.can_be_made, bool):
        return "yes" if part.can_be_made else "no"
    return part.can_be_made


def _findings(published: Published) -> Iterator[Row]:
    for machine in published.machines:
        for f in machine.findings:
            yield (
                *(published.name, machine.id, f.id, f.day, f.by, f.place, f.basis.value),
                *(f.grade.value, f.what, f.measurement, f.instrument),
                *(f.put_off_until, f.put_off_because, f.is_open),
            )


MUSEUMS = Table(
    name="museums",
    means="One row a museum.",
    columns=(
        MUSEUM,
        text("name", "Its name."),
        text("place", "Where it is."),
        text("about", "What it says about itself."),
        day("as_of", "The day on which all that is said here was so."),
    ),
    key=("museum",),
    rows=_museums,
)
MACHINES = Table(
    name="machines",
    means="One row a machine.",
    columns=(
        MUSEUM,
        MACHINE,
        text("name", "What it is called."),
        text("what", "What it is and what it did."),
        text("built", "When it was built, as the museum writes it."),
        text("number", "Its number in the museum's register."),
        day("parts_listed", "The day on which its parts were listed."),
        text("kept", "How it is kept today: running, on-display or reserve."),
        text("matters", "Why it matters."),
        text("judged_against", "The state that decisions are judged against."),
        text("page", "The full address of its page."),
    ),
    key=("museum", "machine"),
    links=(OF_MUSEUM,),
    rows=_machines,
)
PARTS = Table(
    name="parts",
    means="One row a place in a machine, with the part that was listed there.",
    columns=(
        MUSEUM,
        MACHINE,
        text("part", "The part's address in the machine, assembly/part."),
        text("assembly", "What the assembly is called."),
        text("name", "What the part is called."),
        whole("count", "How many of it there are."),
        text("origin", "Where it comes from: as-built, in-service, museum-made or unknown."),
        text("made_to", "What the maker meant to happen to it: last, wear or be-used-up."),
        text("mass", "The mass of all of them, with its unit."),
        text("material", "What it is made of."),
        text("drawing", "Its drawing."),
        text("can_be_made", "Whether its type can still be made: yes, no or unknown."),
        yes_no("last_known", "True where it is the last original known."),
        text("today", "What sits there today, where that is not simply what was listed."),
    ),
    key=("museum", "machine", "part"),
    links=(OF_MACHINE,),
    rows=_parts,
)
FINDINGS = Table(
    name="findings",
    means="One row a finding that the museum marked public.",
    columns=(
        MUSEUM,
        MACHINE,
        text("finding", "Its id, unique within the machine."),
        day("found", "When it was found."),
        text("by", "Who found it, by title."),
        text("part", "The address of the part it is about."),
        text("basis", "How it is known: seen, measured, inferred or told."),
        text("grade", "How much it presses: note, watch, act or stop."),
        text("what", "What was found."),
        text("measurement", "What was measured, with its unit."),
        text("instrument", "What it was measured with."),
        day("put_off_until", "Until when it is put off."),
        text("put_off_because", "Why it is put off."),
        yes_no("is_open", "True until work that names it has ended or another finding answers it."),
    ),
    key=("museum", "machine", "finding"),
    links=(OF_MACHINE,),
    rows=_findings,
)
