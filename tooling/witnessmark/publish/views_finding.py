"""Ways to find a decision without a search: what changed, and an index from A to Z."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.public_decision import PublicDecision
from witnessmark.publish.shown_changes import changes
from witnessmark.publish.views import Section, View

MOST_CHANGES = 200
"""More on one page than anybody reads; older ones stand on the pages of the decisions."""


def changes_view(museum: PublicMuseum) -> View:
    """What became of published decisions, the newest first, by year."""
    newest = changes(museum.decisions)[:MOST_CHANGES]
    years = {
        str(year): list(found) for year, found in groupby(newest, key=lambda one: one.day.year)
    }
    return View(
        path="changes/index.html",
        title="What changed",
        description=f"What became of decisions at {museum.name}, the newest first.",
        lead="finding/changes.html",
        sections=tuple(_year(year) for year in years),
        values={"of_year": years},
    )


def _year(year: str) -> Section:
    return Section(id=f"y{year}", title=year, template="finding/changes-of.html")


SEARCH = "search/index.html"
"""The one page that a theme's search stands on; the others need not load what it reads."""


def find_view(museum: PublicMuseum) -> View:
    """The ways to find something; where the shell has a search, it stands above them."""
    return View(
        path=SEARCH,
        title="Find something",
        description=f"Ways to find a decision, a machine or a part of {museum.name}.",
        lead="finding/find.html",
    )


@dataclass(frozen=True, slots=True)
class Entry:
    """One word of the index, what kind of thing it is, and the decisions it leads to."""

    word: str
    kind: str
    decisions: tuple[PublicDecision, ...]


def index_view(museum: PublicMuseum) -> View:
    """Machines, parts, materials, kinds of choice and worksheets from A to Z."""
    entries = sorted(_entries(museum), key=lambda one: (one.word.casefold(), one.kind))
    letters = {
        letter: list(found) for letter, found in groupby(entries, key=lambda one: _letter(one.word))
    }
    return View(
        path="a-z/index.html",
        title="From A to Z",
        description=f"Decisions of {museum.name} by machine, part, material and kind of choice.",
        lead="finding/index.html",
        sections=tuple(_section(letter) for letter in letters),
        values={"of_letter": {_anchor(letter): found for letter, found in letters.items()}},
    )


def _section(letter: str) -> Section:
    return Section(id=_anchor(letter), title=letter, template="finding/index-of.html")


def _letter(word: str) -> str:
    first = word[:1].upper()
    return first if first.isascii() and first.isalpha() else "Other"


def _anchor(letter: str) -> str:
    return f"letter-{letter.lower()}"


def _entries(museum: PublicMuseum) -> Iterator[Entry]:
    found: dict[tuple[str, str], dict[str, PublicDecision]] = defaultdict(dict)
    materials = _materials(museum)
    for decision in museum.decisions:
        for word, kind in _words(decision, materials):
            found[word, kind][decision.id] = decision
    for (word, kind), decisions in found.items():
        yield Entry(word, kind, tuple(decisions[name] for name in sorted(decisions)))


def _materials(museum: PublicMuseum) -> dict[tuple[str, str], str]:
    """The material of each part by machine and name of the part."""
    return {
        (machine.id, part.name): part.material
        for machine in museum.machines
        for assembly in machine.assemblies
        for part in assembly.parts
        if part.material
    }


def _words(
    decision: PublicDecision, materials: dict[tuple[str, str], str]
) -> Iterator[tuple[str, str]]:
    yield decision.machine_name, "machine"
    for part in decision.about:
        yield part, "part"
        material = materials.get((decision.machine, part))
        if material:
            yield f"{material[:1].upper()}{material[1:]}", "material"
    if decision.chosen:
        yield decision.chosen.kind.value.replace("-", " ").capitalize(), "what was chosen"
    for sheet in decision.sheets:
        yield sheet.title, "worksheet"
