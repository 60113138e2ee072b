"""Steps and consequences in sentences, without store places or notes."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from witnessmark.model.options import Consequence, Step
from witnessmark.model.words import Do, Fate, Like
from witnessmark.publish.public_decision import PublicDecision, PublicStep
from witnessmark.publish.shown_names import Names, listed, within
from witnessmark.scoring.undo import Undo

FATE_WORDS = {
    Fate.STORED: "kept in store",
    Fate.DISPLAYED: "kept where visitors can see it",
    Fate.STUDY: "kept for study",
    Fate.LOST: "not kept",
}
_BEFORE = re.compile(r",? (?:of|in|on|for|at|above|below|between|under|from|to|with)\b")


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


def is_as_planned(decision: PublicDecision) -> bool:
    """True when the work as done has exactly the steps of the option chosen, part by part.

    A reason in the plan need not be given again; one that stands with the work alone is news.
    """
    plan = set(_single(decision.chosen.steps)) if decision.chosen else set()
    done = set(_single(decision.as_done))
    known = plan | _bare(plan)
    return bool(done) and done <= known and _bare(done) == _bare(plan)


def _bare(steps: Iterable[PublicStep]) -> set[PublicStep]:
    return {replace(step, because=None) for step in steps}


def _single(steps: Sequence[PublicStep]) -> Iterator[PublicStep]:
    """Every step on every part by itself, so that it does not matter how they were written.

    The undo level is the plan's alone, and the sentence says the same as what follows it.
    """
    for step in steps:
        labels = step.labels if len(step.labels) == len(step.places) else None
        for place, part in enumerate(step.places):
            own = (labels[place],) if labels else step.labels
            yield replace(step, text="", undo=None, places=(part,), labels=own)


def public_consequences(
    found: Sequence[Consequence], *, machine: str, names: Names, undo: Sequence[Undo], first: int
) -> tuple[PublicStep, ...]:
    """Consequences; `first` is the position of the first one behind the steps."""
    rows = {row.index: row for row in undo}
    return tuple(
        PublicStep(
            text=_becomes(c, machine, names),
            undo=_level(rows.get(first + index)),
            because=c.because,
            places=c.addresses,
            count=c.count,
            becomes=c.becomes,
        )
        for index, c in enumerate(found)
    )


def _giver(step: Step) -> tuple[str, str] | None:
    """The machine and place a donor's part comes from; a lot's id stays private."""
    if step.do is not Do.FIT_FROM_DONOR or not step.source:
        return None
    machine, _, address = step.source.partition("/")
    return machine, address


def _level(row: Undo | None) -> int | None:
    return row.level if row and row.counts and row.level >= 0 else None


def _becomes(found: Consequence, machine: str, names: Names) -> str:
    """A consequence as a sentence; its verb goes with the number of what it speaks of."""
    parts, count = names.parts(machine, found.addresses), found.count
    is_one = len(parts) == 1 and (count == 1 or (count is None and not _is_plural(parts[0])))
    some = counted(parts, count)
    return f"{some[:1].upper()}{some[1:]} {'becomes' if is_one else 'become'} {found.becomes}"


def counted(parts: Sequence[str], count: int | None) -> str:
    """Some of a part, or parts in a row, as they stand within a sentence.

    >>> counted(["Track shoes"], 12), counted(["Track shoes"], 1), counted(["Post", "Bush"], None)
    ('12 track shoes', '1 of the track shoes', 'post and bush')
    """
    named = listed(within(part) for part in parts)
    if count is None:
        return named
    if len(parts) > 1:
        return f"{count} each of {named}"
    return f"{count} {named}" if count > 1 and _is_plural(named) else f"{count} of the {named}"


def _is_plural(name: str) -> bool:
    """True for a name whose main word, which stands before any `of` or `in`, ends like a plural."""
    main = _BEFORE.split(name, maxsplit=1)[0].rstrip(",")
    return main.endswith("s") and not main.endswith(("ss", "us", "is"))


def step_words(step: Step, *, machine: str, names: Names) -> str:
    """One step as a sentence of the workshop.

    The verb comes first, then the parts, then what goes in or becomes of what comes out.
    """
    verb = step.do.value.replace("-", " ").capitalize()
    parts = counted(names.parts(machine, step.addresses), step.count)
    return "; ".join([f"{verb}: {parts}", *_details(step, names)])


def _details(step: Step, names: Names) -> Iterator[str]:
    if step.what:
        yield within(step.what)
    if step.do is Do.FIT_OLD_STOCK and step.source:
        yield f"from the old stock ({within(names.lot(step.source))})"
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
