"""Steps and consequences in sentences, without store places or notes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from witnessmark.model.options import Consequence, Step
from witnessmark.model.words import Do, Fate, Like
from witnessmark.publish.environment import within
from witnessmark.publish.public_decision import PublicStep
from witnessmark.publish.shown_names import Names, listed
from witnessmark.scoring.undo import Undo

FATE_WORDS = {
    Fate.STORED: "kept in store",
    Fate.DISPLAYED: "kept where visitors can see it",
    Fate.STUDY: "kept for study",
    Fate.LOST: "not kept",
}


def public_steps(
    steps: Sequence[Step], *, machine: str, names: Names, undo: Sequence[Undo] = ()
) -> tuple[PublicStep, ...]:
    """Steps in the order of the work; `undo` gives the level of each by position."""
    rows = {row.index: row for row in undo}
    return tuple(
        PublicStep(
            text=step_words(step, machine=machine, names=names),
            undo=_level(rows.get(index)),
            because=step.because,
            do=step.do,
            places=step.addresses,
            count=step.count,
            fate=step.fate,
            labels=step.all_labels,
            like=step.like,
            what=step.what,
            material=step.material,
            drawing=step.drawing,
            marked=step.marked,
            source=_giver(step),
        )
        for index, step in enumerate(steps)
    )


def public_consequences(
    found: Sequence[Consequence], *, machine: str, names: Names, undo: Sequence[Undo], first: int
) -> tuple[PublicStep, ...]:
    """Consequences; `first` is the position of the first one behind the steps."""
    rows = {row.index: row for row in undo}
    return tuple(
        PublicStep(
            text=_consequence(c, machine, names),
            undo=_level(rows.get(first + index)),
            because=c.because,
            places=c.addresses,
            count=c.count,
            becomes=c.becomes,
        )
        for index, c in enumerate(found)
    )


def _consequence(found: Consequence, machine: str, names: Names) -> str:
    parts = _parts(found.addresses, found.count, machine, names)
    several = len(found.addresses) > 1 or (found.count or 1) > 1
    return f"{parts} {'become' if several else 'becomes'} {found.becomes}"


def _giver(step: Step) -> tuple[str, str] | None:
    """The machine and place a donor's part comes from; a lot's id stays private."""
    if step.do is not Do.FIT_FROM_DONOR or not step.source:
        return None
    machine, _, address = step.source.partition("/")
    return machine, address


def _level(row: Undo | None) -> int | None:
    return row.level if row and row.counts and row.level >= 0 else None


def _parts(addresses: Sequence[str], count: int | None, machine: str, names: Names) -> str:
    named = listed(names.parts(machine, addresses))
    return f"{count} of the {within(named)}" if count else named


def step_words(step: Step, *, machine: str, names: Names) -> str:
    """One step as a sentence of the workshop.

    The verb comes first, then the parts, then what goes in or becomes of what comes out.
    """
    verb = step.do.value.replace("-", " ").capitalize()
    parts = _parts(step.addresses, step.count, machine, names)
    return "; ".join([f"{verb}: {parts}", *_details(step, names)])


def _details(step: Step, names: Names) -> Iterator[str]:
    if step.what:
        yield step.what
    if step.do is Do.FIT_OLD_STOCK and step.source:
        yield f"from the old stock ({names.lot(step.source)})"
    if step.do is Do.FIT_FROM_DONOR and step.source:
        yield f"from another machine ({names.donor(step.source)})"
    if step.like:
        yield "like the old part" if step.like is Like.SAME else "unlike the old part"
    for label, value in (("material", step.material), ("drawing", step.drawing)):
        if value:
            yield f"{label} {value}"
    if step.marked:
        yield f"marked {step.marked}"
    if step.fate:
        yield FATE_WORDS[step.fate]
    if step.all_labels:
        yield f"labelled {listed(step.all_labels)}"
