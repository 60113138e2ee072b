"""Work as rules see it: what was done, and how it differs from what was agreed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from datetime import date

from witnessmark.model.decision import Decision, NewLoss, Work
from witnessmark.model.library import Library
from witnessmark.model.machine import Photo
from witnessmark.model.options import Step
from witnessmark.model.words import Do, Fate, Role, Stage
from witnessmark.rules.machine_facts import iso
from witnessmark.rules.step_facts import Places, Setting
from witnessmark.rules.view_decision import WorkView
from witnessmark.rules.view_words import Given

FOR_GOOD = frozenset({Do.MACHINE, Do.GRIND, Do.DRILL, Do.WELD, Do.BUILD_UP, Do.HEAT})
"""What the museum's rubric puts at undo level 1: it cannot be taken back (our own judgement)."""

ANSWERS_FOR_THE_METAL = frozenset({Role.COLLECTIONS, Role.GOVERNING})


def work_view(decision: Decision, setting: Setting) -> WorkView:
    """What was done; empty texts and lists where no work is written down."""
    work = decision.work
    photos = (*decision.photos, *(work.photos if work else ()))
    new_loss = work.new_loss if work else None
    return {
        "started": iso(work.started if work else None),
        "ended": iso(work.ended if work else None),
        "by": list(work.by) if work else [],
        "competence": (work.competence or "") if work else "",
        "hidden": (work.hidden or "") if work else "",
        "departures_given": _departures(work),
        "is_unlike_plan": _is_unlike_plan(decision),
        "new_losses": list(dict.fromkeys(_new_losses(decision, setting.places))),
        "new_loss_agreed_on": iso(new_loss.date if new_loss else None),
        "new_loss_by_holder": _may_agree(new_loss, setting.library),
        "has_departures": work is not None and bool(work.departures),
        "has_steps": work is not None and bool(work.as_done),
        "photos_before": _pictures(photos, Stage.BEFORE, work.started if work else None),
        "photos_during": _pictures(photos, Stage.DURING, None),
    }


def _departures(work: Work | None) -> Given:
    if work is None or not work.departures:
        return "blank"
    return "none" if work.departures == "none" else "listed"


def _is_unlike_plan(decision: Decision) -> bool:
    """Whether other things were done than chosen; sizes, labels and places may differ."""
    if decision.work is None or not decision.work.as_done or decision.chosen is None:
        return False
    return _gist(decision.work.as_done) != _gist(decision.chosen.steps)


def _gist(steps: Iterable[Step]) -> Counter[object]:
    return Counter(
        (step.do, address, step.count, step.fate, step.like, step.source)
        for step in steps
        for address in step.addresses
    )


def _new_losses(decision: Decision, places: Places) -> Iterator[str]:
    """Original parts of which more were lost, or cut for good, than the plan said."""
    if decision.work is None or decision.chosen is None:
        return
    planned = _harmed(decision.chosen.steps, places)
    for (address, harm), count in _harmed(decision.work.as_done, places).items():
        is_evidence = any(pieces.is_in_scope for pieces in places.get(address, ()))
        if is_evidence and count > planned[address, harm]:
            yield address


def _harmed(steps: Iterable[Step], places: Places) -> Counter[tuple[str, bool]]:
    """Pieces by address and by whether they were lost; the others were cut and stay."""
    found: Counter[tuple[str, bool]] = Counter()
    for step in steps:
        is_lost = step.do is Do.REMOVE and step.fate is Fate.LOST
        if is_lost or step.do in FOR_GOOD:
            for address in step.addresses:
                whole = sum(pieces.count for pieces in places.get(address, ()))
                found[address, is_lost] += whole if step.count is None else step.count
    return found


def _may_agree(new_loss: NewLoss | None, library: Library) -> bool:
    person = library.people.get(new_loss.by) if new_loss else None
    if new_loss is None or person is None or new_loss.role not in ANSWERS_FOR_THE_METAL:
        return False
    return person.holds(new_loss.role, on=new_loss.date)


def _pictures(photos: tuple[Photo, ...], stage: Stage, by: date | None) -> int:
    """How many pictures of a stage there are that are not dated after a day."""
    return sum(
        photo.stage is stage and (by is None or photo.date is None or photo.date <= by)
        for photo in photos
    )
