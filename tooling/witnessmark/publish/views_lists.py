"""The front page, the lists of decisions, and the page about the record itself."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from witnessmark.model.words import State
from witnessmark.publish.linked_page import site_facts
from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.public_decision import PublicDecision
from witnessmark.publish.views import Section, View

Groups = list[tuple[str, str, list[PublicDecision]]]


def home_view(museum: PublicMuseum) -> View:
    """The front page: one real decision first, then ways in."""
    newest = museum.standing[0] if museum.standing else None
    return View(
        path="index.html",
        title=museum.name,
        description="Why old machines are mended the way they are: every decision, with reasons.",
        lead="home/lead.html",
        sections=tuple(_home_sections(museum)),
        values={"newest": newest, "ahead": _ahead(museum)},
        facts=site_facts(museum, museum.web_root) if museum.web_root else None,
    )


def _home_sections(museum: PublicMuseum) -> Iterator[Section]:
    for name, title, is_there in (
        ("machines", "Decisions by machine", bool(museum.machines)),
        ("disagreed", "Where we disagreed", any(d.dissent for d in museum.decisions)),
        ("rests", "Where we let a rule rest", any(d.waived for d in museum.decisions)),
        ("ahead", "Coming up for a second look", bool(_ahead(museum))),
        ("ways-in", "More ways in", True),
    ):
        if is_there:
            yield Section(id=name, title=title, template=f"home/{name}.html")


def _ahead(museum: PublicMuseum) -> list[PublicDecision]:
    """Standing decisions still to be looked at again, the soonest first; overdue ones lead."""
    dated = [(d.look_again, d.id, d) for d in museum.standing if d.look_again and not d.looked_on]
    return [d for _, _, d in sorted(dated, key=lambda row: row[:2])]


def decisions_view(museum: PublicMuseum) -> View:
    """Every decision, by machine, by state and by year."""
    return View(
        path="decisions/index.html",
        title="All decisions",
        description=f"Every published decision of {museum.name}, by machine, state and year.",
        lead="lists/decisions.html",
        sections=(
            Section(id="by-machine", title="By machine", template="lists/by-machine.html"),
            Section(id="by-state", title="By state", template="lists/by-state.html"),
            Section(id="by-year", title="By year", template="lists/by-year.html"),
        ),
        values={
            "by_machine": _by_machine(museum),
            "by_state": _by_state(museum.decisions),
            "by_year": _by_year(museum.decisions),
        },
    )


def _by_machine(museum: PublicMuseum) -> Groups:
    rows = (
        (m.id, m.name, [d for d in museum.decisions if d.machine == m.id]) for m in museum.machines
    )
    return [row for row in rows if row[2]]


def _by_state(decisions: Sequence[PublicDecision]) -> Groups:
    rows = (
        (state.value, state.definition, [d for d in decisions if d.state is state])
        for state in State
    )
    return [row for row in rows if row[2]]


def _by_year(decisions: Sequence[PublicDecision]) -> Groups:
    years = sorted({d.year for d in decisions}, reverse=True)
    return [(year, "", [d for d in decisions if d.year == year]) for year in years]


def about_view(museum: PublicMuseum) -> View:
    """What this record is, and what it is not."""
    return View(
        path="about/index.html",
        title="About this record",
        description=f"What the decision record of {museum.name} is, and what it is not.",
        lead="lists/about.html",
        sections=(
            Section(id="not", title="What it is not", template="lists/about-not.html"),
            Section(
                id="shown", title="What is shown, what is not", template="lists/about-shown.html"
            ),
            Section(id="people", title="Who decides", template="lists/about-people.html"),
        ),
    )


def lost_view(museum: PublicMuseum) -> View:
    """The page for an address that is not there."""
    return View(
        path="404.html",
        title="There is no page here",
        description="No page has this address.",
        lead="lists/lost.html",
        values={"at": museum.web, "numbers": _numbers(museum)},
    )


def _numbers(museum: PublicMuseum) -> list[tuple[str, list[str]]]:
    """Every decision's number by year, so that a slip in an address is soon mended."""
    found = sorted([*(d.id for d in museum.decisions), *(w.id for w in museum.withheld)])
    return [(year, list(ids)) for year, ids in groupby(found, key=lambda name: name[:4])]
