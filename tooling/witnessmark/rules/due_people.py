"""What is due about people: terms that ended, and roles that nobody holds."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from witnessmark.model.decision import Decision
from witnessmark.model.library import Library
from witnessmark.model.people import Person
from witnessmark.model.words import Role, State
from witnessmark.rules.due_kinds import Due, DueKind

OPEN = frozenset({State.DRAFT, State.FOR_REVIEW, State.AGREED, State.UNDER_WAY})
TWO_AGREE: tuple[tuple[Role, ...], ...] = (
    (Role.COLLECTIONS,),
    (Role.ENGINEERING, Role.SAFETY),
)
"""The roles that agreement needs, each with those that may stand for it (the seal's design)."""


def due_of_people(library: Library, *, on: date) -> Iterator[Due]:
    """Terms that ended or end of those still named, and roles without a holder."""
    for index, person in enumerate(_people(library)):
        yield from _term(library, person, index, on)
    yield from _vacant(library, on)


def _people(library: Library) -> tuple[Person, ...]:
    found = library.people_file.value if library.people_file else None
    return found.people if found else ()


def _last_day(person: Person) -> date | None:
    """The last day of the last term; none while any lasts without an end."""
    ends = [held.to for held in person.roles]
    return max((end for end in ends if end), default=None) if all(ends) else None


def _term(library: Library, person: Person, index: int, on: date) -> Iterator[Due]:
    last = _last_day(person)
    named = sorted(_still_named(library, person.id, on)) if last else []
    if last and named:
        says = f"The last term of {person.id}, still named in {', '.join(named)}."
        yield Due(
            kind=DueKind.TERM,
            day=last,
            name=person.id,
            says=says,
            file=_register(library),
            path=("people", index, "roles"),
            written=max(held.since for held in person.roles),
        )


def _register(library: Library) -> str:
    found = library.people_file
    return found.document.file if found else f"{library.root}/people.yml"


def _still_named(library: Library, person: str, on: date) -> Iterator[str]:
    for entry in library.decisions:
        decision = entry.value
        if decision and person in _named_in(decision, on):
            yield entry.id


def _named_in(decision: Decision, on: date) -> set[str]:
    """Those who are needed yet: in open records, and for what was accepted or waived for a time."""
    found: set[str] = set()
    if decision.state in OPEN:
        found |= {decision.proposed_by}
        found |= {decision.judged_by.by} if decision.judged_by else set()
    if decision.state in OPEN or decision.is_settled:
        risk = decision.accepted_risk
        found |= {risk.by} if risk and risk.until >= on else set()
        found |= {waiver.approver for waiver in decision.waivers if waiver.until >= on}
    return found


def _vacant(library: Library, on: date) -> Iterator[Due]:
    people = _people(library)
    valid = [p for p in library.policies.values() if p.valid_from <= on]
    newest = max(valid, key=lambda policy: policy.valid_from, default=None)
    approvers = newest.waivers.approver_roles if newest else ()
    for needed in (*TWO_AGREE, *((role,) for role in approvers)):
        held = [h for p in people for h in p.roles if h.role in needed and h.since <= on]
        ends = [one.to for one in held]
        if not people or not all(ends):
            continue
        last = max((end for end in ends if end), default=newest.valid_from if newest else on)
        words = " or ".join(role.value for role in needed)
        says = f"From then on nobody holds the role {words}, which agreement needs."
        yield Due(
            kind=DueKind.NO_HOLDER,
            day=last,
            name="-or-".join(needed),
            says=says,
            file=_register(library),
            path=("people",),
            written=max((one.since for one in held), default=last),
        )
