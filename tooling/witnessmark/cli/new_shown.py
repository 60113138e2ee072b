"""What is known before a decision is written: the machine, its parts, findings and precedents."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from fractions import Fraction

from witnessmark.cli.printing import folded
from witnessmark.model.library import Library
from witnessmark.model.words import Kind
from witnessmark.rules.answered import open_findings
from witnessmark.rules.runs_today import runs_today
from witnessmark.weighing.precedents import (
    OF_THE_QUESTION,
    Precedent,
    precedents,
    question_about,
    question_of,
)
from witnessmark.weighing.verdict import in_a_hundred

MOST_SHOWN = 3


def render_known(library: Library, machine: str, *, on: date) -> str:
    """The machine as it is kept, its parts by assembly, and what stands open."""
    whole = library.machines[machine]
    lines = [f"{whole.name} ({machine}), kept {whole.kept_on(on).value}."]
    for reason in runs_today(library, machine, on=on).reasons:
        lines += folded(reason.says, first="  - ", rest="    ")
    lines.append("Parts:")
    for assembly in whole.assemblies:
        parts = ", ".join(f"{assembly.id}/{part.id}" for part in assembly.parts)
        lines += folded(f"{assembly.name}: {parts}", first="  ", rest="    ")
    still = list(open_findings(library, machine, on=on))
    lines.append("Open findings:" if still else "No finding is open.")
    for one in still:
        found = one.finding
        where = f" {found.part}" if found.part else ""
        text = f"{found.id} {found.grade.value}{where}: {found.what}"
        lines += folded(text, first="  ", rest="    ")
    return "\n".join(lines) + "\n"


def render_precedents(
    library: Library, machine: str, parts: Sequence[str], kinds: Sequence[Kind], on: date
) -> str:
    """The nearest earlier decisions with what was chosen then and why, or that there is none."""
    found = list(nearest(library, machine, parts, kinds, on=on))
    if not found:
        return "No earlier decision of this museum was agreed, so there is no precedent yet."
    lines = ["Met before:"]
    for one in found:
        lines += _told(one, library)
    return "\n".join(lines)


def nearest(
    library: Library, machine: str, parts: Sequence[str], kinds: Sequence[Kind], *, on: date
) -> Iterator[Precedent]:
    """The earlier agreed decisions most like a question that has no record yet."""
    every = frozenset({Kind.LEAVE_AS_FOUND.value, *(kind.value for kind in kinds)})
    asked = question_about(parts, kinds=every, machine=library.machines[machine], on=on).portrait
    past = {
        name: question_of(entry.value, machine=library.machines.get(entry.machine)).portrait
        for name, entry in sorted(library.by_id.items())
        if entry.value and entry.value.is_settled and entry.value.opened <= on
    }
    return iter(precedents(asked, past=past, features=OF_THE_QUESTION)[:MOST_SHOWN])


def _told(precedent: Precedent, library: Library) -> list[str]:
    entry = library.by_id[precedent.decision]
    earlier = entry.value
    if earlier is None:
        return []
    alike = in_a_hundred(precedent.likeness.similarity or Fraction(0))
    chosen = f" Chosen: {earlier.chosen.title}." if earlier.chosen else ""
    text = f"{earlier.id} ({alike} alike, {entry.machine}): {earlier.title}.{chosen}"
    return folded(text, first="  ", rest="    ")
