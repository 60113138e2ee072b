"""One page as it would stand, drafts included, made from the records as they lie on disk now.

A decision's page needs that decision and the few that may be like it, so a museum of thousands is
looked at nearly as fast as a small one. Nothing is shown that is private in a published record:
people's names, money, hours, places in store, notes and contacts stay hidden in drafts too.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from importlib.resources import files

from markupsafe import Markup

from witnessmark.model.decision import Choice, Decision, Withheld
from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.library import DecisionFile, Library
from witnessmark.model.museum import Museum
from witnessmark.publish.allow import NO_REVISIONS, public_museum, published_ids
from witnessmark.publish.environment import environment
from witnessmark.publish.one_met_before import met_before
from witnessmark.publish.pages import Page, page_of, tidy, views
from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.public_decision import PublicDecision
from witnessmark.publish.shown_decision import Surroundings, public_decision
from witnessmark.publish.shown_history import NO_VERSIONS, PUBLIC_STATES
from witnessmark.publish.shown_names import Names
from witnessmark.publish.shown_rules import known_rules, rules_of_pages
from witnessmark.publish.views_decision import decision_view
from witnessmark.repository.prepared import Prepared, prepared
from witnessmark.rules.rulebook import RuleBook
from witnessmark.weighing.case import work_out

_NOT_YET = "Not written yet."
_NOTHING = Choice(
    option="not-chosen",
    because=_NOT_YET,
    gives_up=_NOT_YET,
    would_change_our_mind=_NOT_YET,
    dissent="none raised",
)
"""Stands in a draft's preview for the choice that is still to come."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """What a preview is made from: the museum as read, on a day, and its pictures."""

    library: Library
    museum: Museum
    rulebook: RuleBook
    as_of: date
    pictures: Mapping[str, bytes]


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One record in the list of all: `standing` says whether and why the public does not see it."""

    id: str
    title: str
    machine: str
    state: str
    standing: str


def decision_page(entry: DecisionFile, ground: Ground) -> Page | None:
    """The page of one decision in any state; None where too little of it can be read."""
    decision = entry.value
    if decision is None or entry.machine not in ground.library.machines:
        return None
    shown = entry if decision.choice else _with(entry, decision.model_copy(update=_CHOICE))
    museum = _museum_of(shown, ground)
    if museum is None:
        return None
    return page_of(decision_view(museum.decisions[0], museum), museum, skin="themed")


_CHOICE = {"choice": _NOTHING}


def site_page(path: str, ground: Ground) -> Page | None:
    """The page of the site at a path, as the public would see it; all records are worked out."""
    pictures = prepared(ground.pictures, ground.library)
    museum = public_museum(ground.library, ground.rulebook, as_of=ground.as_of, pictures=pictures)
    view = next((view for view in views(museum) if view.path == path), None)
    return page_of(view, museum, skin="themed") if view else None


def standing_of(decision: Decision) -> str:
    """Whether the public sees a record, and if not why, as a sentence."""
    if isinstance(decision.publish, Withheld):
        return "The public is shown why this record is withheld, and not the record."
    if decision.state not in PUBLIC_STATES:
        return f"The public does not see this record: its state is {decision.state.value}."
    if decision.publish is not True:
        return "The public does not see this record: publish is not true."
    return "The public sees this record."


def list_of(library: Library) -> tuple[Line, ...]:
    """Every record by id, those that cannot be read too."""
    names = Names(library)
    return tuple(
        Line(
            id=name,
            title=entry.value.title if entry.value else entry.file,
            machine=names.machine(entry.machine) if entry.machine in library.machines else "",
            state=entry.value.state.value if entry.value else "cannot be read",
            standing=standing_of(entry.value) if entry.value else "It cannot be read yet.",
        )
        for name, entry in sorted(library.by_id.items())
    )


def preview_shell(
    body: str,
    *,
    title: str,
    root: str,
    stamp: str,
    standing: str,
    said: Sequence[Diagnostic] | None = None,
) -> str:
    """A whole page with the banner, what a check says of the record, and the body below."""
    made = Markup(body)  # noqa: S704  a template of ours made it, and escaped it
    template = environment().get_template("preview/shell.html")
    text = template.render(
        body=made, title=title, root=root, stamp=stamp, standing=standing, said=said
    )
    return f"{tidy(text).strip()}\n"


def preview_script() -> bytes:
    """The script of the preview; it is no part of any site."""
    return (files("witnessmark.publish") / "static" / "preview.js").read_bytes()


def preview_list(library: Library, *, museum: str) -> str:
    """The body of the list of all records."""
    template = environment().get_template("preview/list.html")
    return template.render(lines=list_of(library), museum=museum)


def _with(entry: DecisionFile, decision: Decision) -> DecisionFile:
    return replace(entry, shaped=replace(entry.shaped, value=decision))


def _museum_of(entry: DecisionFile, ground: Ground) -> PublicMuseum | None:
    """The museum as far as the page of one decision needs it."""
    library, museum = ground.library, ground.museum
    known = known_rules(library, ground.rulebook)
    published = published_ids(library) | {entry.id}
    around = Surroundings(
        library=library,
        names=Names(library),
        museum=museum,
        as_of=ground.as_of,
        published=published,
        listed=published,
        pictures=_pictures(entry, ground),
        revisions=NO_REVISIONS,
        versions=NO_VERSIONS,
        rules={name: rule for name, (rule, _) in known.items()},
        book=ground.rulebook,
    )
    value = entry.value
    case = work_out(value, entry.machine, library) if value else None
    public = public_decision(entry, around, case=case) if case else None
    if public is None:
        return None
    rows = met_before(case, library, published=published_ids(library)) if case else ()
    decisions: tuple[PublicDecision, ...] = (replace(public, met_before=rows),)
    return PublicMuseum(
        name=museum.name,
        place=museum.place,
        web=None,
        about=None,
        as_of=ground.as_of,
        machines=(),
        decisions=decisions,
        withheld=(),
        rules=tuple(rules_of_pages(known, decisions=decisions)),
        worksheets=(),
        policies=(),
        replays=(),
        likeness=None,
        roles=(),
        removed=(),
        stock=(),
        due=(),
        is_demo=museum.demo_as_of == ground.as_of,
        licence=None,
    )


def _pictures(entry: DecisionFile, ground: Ground) -> Prepared:
    """The copies of one decision's pictures; of no other."""
    decision = entry.value
    work = decision.work.photos if decision and decision.work else ()
    photos = (*decision.photos, *work) if decision else ()
    wanted = {f"{entry.machine}/{photo.file}" for photo in photos if photo.public}
    mine = {name: ground.pictures[name] for name in wanted & ground.pictures.keys()}
    return prepared(mine, ground.library)
