"""The one door from the museum's records to the public: what is allowed through, no more."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from datetime import date

from witnessmark.errors import WitnessmarkError
from witnessmark.model.decision import Decision, Withheld
from witnessmark.model.library import DecisionFile, Library
from witnessmark.model.words import Role
from witnessmark.publish.public import PublicMuseum, PublicRole, PublicWithheld
from witnessmark.publish.public_decision import PublicRevision
from witnessmark.publish.public_policy import public_policies
from witnessmark.publish.shown_decision import Surroundings
from witnessmark.publish.shown_decisions import shown_decisions
from witnessmark.publish.shown_history import NO_VERSIONS, PUBLIC_STATES, is_shown
from witnessmark.publish.shown_likeness import public_likeness
from witnessmark.publish.shown_lists import public_due, public_removed, public_stock, shown_due
from witnessmark.publish.shown_machine import public_machine
from witnessmark.publish.shown_names import Names
from witnessmark.publish.shown_rules import known_rules, public_rules
from witnessmark.publish.shown_worksheets import public_worksheets
from witnessmark.repository.prepared import Prepared
from witnessmark.repository.record_versions import RecordVersions
from witnessmark.rules.due_kinds import Due
from witnessmark.rules.rulebook import RuleBook

BESIDE = ("feed.xml", "sitemap.xml", "robots.txt")
NO_REVISIONS: Mapping[str, PublicRevision] = {}
NO_PREPARED: Prepared = {}


def public_museum(
    library: Library,
    rulebook: RuleBook,
    *,
    as_of: date,
    revisions: Mapping[str, PublicRevision] = NO_REVISIONS,
    versions: RecordVersions = NO_VERSIONS,
    pictures: Prepared = NO_PREPARED,
    beside: Collection[str] = (),
) -> PublicMuseum:
    """Everything the site may show.

    `pictures` are the copies of each picture that may be shown, by its path below the museum;
    `beside` are files that stand beside the pages, for pages to lead to.

    Raises:
        WitnessmarkError: museum.yml could not be read whole.

    """
    museum = library.museum.value
    if museum is None or not library.museum.whole:
        raise WitnessmarkError(
            f"{library.root}/museum.yml cannot be read whole, so nothing is published.",
            remedy="Run check and mend what it names.",
        )
    names = Names(library)
    shown = tuple(_shown(library))
    published = {entry.id for entry in shown}
    kept_back = tuple(_withheld(library, names))
    known = known_rules(library, rulebook)
    around = Surroundings(
        library=library,
        names=names,
        museum=museum,
        as_of=as_of,
        published=published,
        listed=published | {withheld.id for withheld in kept_back},
        pictures=pictures,
        revisions=revisions,
        versions=versions,
        rules={name: rule for name, (rule, _) in known.items()},
        book=rulebook,
    )
    told = shown_decisions(shown, around)
    decisions = told.decisions
    machines = tuple(
        public_machine(
            library, name, as_of=as_of, published=published, names=names, pictures=pictures
        )
        for name in library.machines
        if library.machine_files[name].whole
    )
    web = museum.web if museum.web and is_web_address(museum.web) else None
    return PublicMuseum(
        name=museum.name,
        place=museum.place,
        web=web,
        about=museum.about,
        licence=museum.licence,
        as_of=as_of,
        machines=machines,
        decisions=decisions,
        withheld=kept_back,
        rules=tuple(
            public_rules(
                known,
                library=library,
                book=rulebook,
                decisions=decisions,
                machines={machine.id for machine in machines},
            )
        ),
        worksheets=public_worksheets(decisions),
        policies=public_policies(library, names),
        replays=told.replays,
        likeness=public_likeness(library, published=published),
        roles=tuple(_roles(library, as_of)),
        removed=tuple(public_removed(library, as_of=as_of, published=published, names=names)),
        stock=tuple(public_stock(library, as_of=as_of, published=published)),
        due=tuple(public_due(library, as_of=as_of, published=published, names=names)),
        is_demo=museum.demo_as_of == as_of,
        beside=frozenset([*beside, *(BESIDE if web else ())]),
    )


def publicly_due(library: Library, *, as_of: date) -> tuple[Due, ...]:
    """What is due and may be shown, for a calendar that stands beside the pages."""
    published = {entry.id for entry in _shown(library)}
    return tuple(shown_due(library, as_of=as_of, published=published))


def is_web_address(text: str) -> bool:
    """True for an address a link may lead to; anything that could run is none."""
    return text.startswith(("https://", "http://"))


def _public(library: Library) -> Iterator[tuple[DecisionFile, Decision]]:
    """Records read whole, of a machine read whole, in a state the public may see."""
    for name, entry in sorted(library.by_id.items()):
        machine = library.machine_files.get(entry.machine)
        decision = entry.value
        if decision is None or not entry.shaped.whole or machine is None or not machine.whole:
            continue
        if decision.state in PUBLIC_STATES and name == decision.id:
            yield entry, decision


def published_ids(library: Library) -> frozenset[str]:
    """The decisions that the public may read."""
    return frozenset(entry.id for entry in _shown(library))


def _shown(library: Library) -> Iterator[DecisionFile]:
    return (entry for entry, decision in _public(library) if is_shown(decision))


def _withheld(library: Library, names: Names) -> Iterator[PublicWithheld]:
    for entry, decision in _public(library):
        if isinstance(decision.publish, Withheld):
            yield PublicWithheld(
                id=entry.id,
                machine=entry.machine,
                machine_name=names.machine(entry.machine),
                because=decision.publish.withheld,
            )


def _roles(library: Library, as_of: date) -> Iterator[PublicRole]:
    for role in Role:
        people = sorted(library.people.items())
        holders = tuple(person.public for _, person in people if person.holds(role, on=as_of))
        if holders:
            yield PublicRole(role=role, holders=holders)
