"""Pages that answer everyday questions: old parts, old stock, what is due, who disagreed."""

from __future__ import annotations

from collections import Counter
from itertools import groupby

from witnessmark.model.words import Purpose, State
from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.public_lists import PublicRemoved
from witnessmark.publish.views import Section, View
from witnessmark.rules.removed import Seen


def parts_view(museum: PublicMuseum) -> View:
    """Every original that came off a machine: where it is now in plain words, and whether seen."""
    machines = [
        (name, list(found))
        for name, found in groupby(_by_machine(museum.removed), key=lambda one: one.machine)
    ]
    pieces: Counter[Seen] = Counter()
    for one in museum.removed:
        pieces[one.seen] += one.count
    return View(
        path="parts/index.html",
        title="Old parts that came off",
        description=f"Every original that came off a machine of {museum.name}, and where it is.",
        lead="everyday/parts.html",
        sections=tuple(
            Section(id=name, title=found[0].machine_name, template="everyday/parts-of.html")
            for name, found in machines
        ),
        values={"of_machine": dict(machines), "pieces": [(s, pieces[s]) for s in Seen]},
        has_contents=True,
    )


def _by_machine(removed: tuple[PublicRemoved, ...]) -> list[PublicRemoved]:
    """By machine; within one, by label, as they were handed over."""
    return sorted(removed, key=lambda one: one.machine)


def stock_view(museum: PublicMuseum) -> View:
    """The old stock in plain numbers, by what it is for."""
    groups = [
        (purpose, [lot for lot in museum.stock if lot.purpose is purpose]) for purpose in Purpose
    ]
    found = {purpose.value: lots for purpose, lots in groups if lots}
    return View(
        path="stock/index.html",
        title="Old stock",
        description=f"Old stock of {museum.name}: what there is, what was used, how long it lasts.",
        lead="everyday/stock.html",
        sections=tuple(
            Section(id=p.value, title=_HEADINGS[p], template="everyday/stock-of.html")
            for p, lots in groups
            if lots
        ),
        values={"lots_for": found, "purposes": {p.value: p for p in Purpose}},
    )


_HEADINGS = {
    Purpose.UNDECIDED: "Waiting for a decision",
    Purpose.COLLECTION: "Kept as objects",
    Purpose.SPARES: "Kept to be fitted",
    Purpose.TEACHING: "Kept to teach from",
    Purpose.PASS_ON: "To be passed on",
}


def due_view(museum: PublicMuseum) -> View:
    """What the museum has promised to come back to, the oldest first."""
    late = [one for one in museum.due if one.is_overdue]
    ahead = [one for one in museum.due if not one.is_overdue]
    return View(
        path="due/index.html",
        title="What is due",
        description=f"What {museum.name} has promised to look at again, and what is overdue.",
        lead="everyday/due.html",
        sections=(
            Section(id="overdue", title="Overdue", template="everyday/due-late.html"),
            Section(id="ahead", title="Ahead", template="everyday/due-ahead.html"),
        ),
        values={"late": late, "ahead": ahead},
    )


def disagreements_view(museum: PublicMuseum) -> View:
    """Where somebody disagreed in writing, what they said and what was answered."""
    return View(
        path="disagreements/index.html",
        title="Where we disagreed",
        description=f"Every dissent written down at {museum.name}, and what was answered.",
        lead="everyday/disagreements.html",
        sections=(
            Section(id="dissents", title="In their own words", template="everyday/dissents.html"),
            Section(
                id="against", title="Against our own ranking", template="everyday/against.html"
            ),
        ),
        values={
            "dissenting": [d for d in museum.decisions if d.dissent],
            "departing": [d for d in museum.decisions if d.departs_from_ranking],
            "replaced": State.REPLACED,
        },
    )
