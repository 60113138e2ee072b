"""What changed around the decisions: policies, people, machines, findings, stores, the museum."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from typing import Any

from pydantic import BaseModel

from witnessmark.exchange.review.sides import Side
from witnessmark.model.differences import Difference, Plain, differences, normal_form, settled
from witnessmark.model.judgement import plain
from witnessmark.model.library import Library
from witnessmark.model.shape import Shaped
from witnessmark.model.statement import ALLOWED_SIGNERS
from witnessmark.model.words import State
from witnessmark.weighing.changes.change import Change, Kind, Weight
from witnessmark.weighing.changes.record import is_prose
from witnessmark.weighing.changes.shown import field_of, shown

_AGREED_UNDER = frozenset({State.AGREED, State.UNDER_WAY, State.DONE, State.REPLACED})
Teller = Callable[[Difference, str, Side, Side], Iterator[Change]]


def around_changes(base: Side, head: Side) -> Iterator[Change]:
    """Every change of the files around the decisions."""
    for teller, before, after in _groups(base.library, head.library):
        for name in sorted(before.keys() | after.keys()):
            yield from _file(name, before.get(name), after.get(name), teller, (base, head))
    yield from _keys(base, head)


def _groups(
    before: Library, after: Library
) -> Iterator[tuple[Teller, Mapping[str, Shaped[Any]], Mapping[str, Shaped[Any]]]]:
    def single(name: str, library: Library) -> Mapping[str, Shaped[Any]]:
        shaped = {"museum.yml": library.museum, "people.yml": library.people_file,
                  "stores.yml": library.stores_file}[name]  # fmt: skip
        return {name: shaped} if shaped is not None else {}

    def under(prefix: str, files: Mapping[str, Shaped[Any]], end: str) -> Mapping[str, Shaped[Any]]:
        return {f"{prefix}{name}{end}": shaped for name, shaped in files.items()}

    yield (
        _policy,
        under("policy/", before.policy_files, ""),
        under("policy/", after.policy_files, ""),
    )
    yield _museum, single("museum.yml", before), single("museum.yml", after)
    yield _people, single("people.yml", before), single("people.yml", after)
    yield _plain, single("stores.yml", before), single("stores.yml", after)
    machines = (under("", side.machine_files, "/machine") for side in (before, after))
    yield _machine, *machines  # type: ignore[misc]
    findings = (under("", side.finding_files, "/findings") for side in (before, after))
    yield _findings, *findings  # type: ignore[misc]


def _file(
    name: str,
    before: Shaped[Any] | None,
    after: Shaped[Any] | None,
    teller: Teller,
    sides: tuple[Side, Side],
) -> Iterator[Change]:
    old, new = _forms(before, after)
    if old is None and new is None:
        return
    if old is None or new is None:
        kind = Kind.POLICY if name.startswith("policy/") else Kind.AROUND
        says = f"{name} is {'new' if old is None else 'deleted'}."
        weight = Weight.NOTE if old is None else Weight.PERSON
        yield Change.of(kind, name, "", says, weight=weight)
        return
    told = [change for one in differences(old, new) for change in teller(one, name, *sides)]
    yield from _gathered(told) if name.startswith("policy/") else told


def _forms(before: Shaped[Any] | None, after: Shaped[Any] | None) -> tuple[Plain, Plain]:
    """Both sides in the form in which equal meaning is equal; as written where one has faults."""
    both = [shaped for shaped in (before, after) if shaped]
    if all(shaped.whole for shaped in both):
        forms = [_typed(shaped.value) if shaped else None for shaped in (before, after)]
    else:
        forms = [settled(plain(s.document.data)) if s else None for s in (before, after)]
    return forms[0], forms[1]


def _typed(value: BaseModel | None) -> Plain:
    return normal_form(value) if value is not None else None


def _told(
    kind: Kind, one: Difference, name: str, says: str, weight: Weight | None = None
) -> Change:
    return Change.of(
        kind, name, field_of(one.path), says, weight=weight, before=shown(one.before),
        after=shown(one.after),
    )  # fmt: skip


def _verb(one: Difference) -> str:
    if one.before is None:
        return "is new"
    return "is taken out" if one.after is None else "changed"


def _plain(one: Difference, name: str, base: Side, head: Side) -> Iterator[Change]:
    del base, head
    if is_prose(one.path) and isinstance(one.before, str) and isinstance(one.after, str):
        says = f"{name}: the words of {field_of(one.path)} changed."
        yield Change.of(
            Kind.PROSE, name, field_of(one.path), says, before=one.before, after=one.after
        )
    else:
        yield _told(Kind.AROUND, one, name, f"{name}: {field_of(one.path)} {_verb(one)}.")


def _policy(one: Difference, name: str, base: Side, head: Side) -> Iterator[Change]:
    if is_prose(one.path) or one.path[:1] in {("title",), ("statement",), ("elicited",)}:
        yield from _plain(one, name, base, head)
        return
    relying = _agreed_under(name.removeprefix("policy/"), base)
    says = f"{name} is edited."
    if relying:
        says += f" Agreed under it: {', '.join(relying)}. A new date is a new file."
    field = field_of(one.path)
    moved = f"{field}: {shown(one.before) or 'nothing'} to {shown(one.after) or 'nothing'}"
    kind = Kind.POLICY_EDITED if relying else Kind.POLICY
    yield Change.of(kind, name, field, says, remarks=(moved,))


def _agreed_under(policy: str, side: Side) -> list[str]:
    return sorted(
        entry.id
        for entry in side.library.decisions
        if entry.value and entry.value.policy == policy and entry.value.state in _AGREED_UNDER
    )


def _gathered(told: list[Change]) -> Iterator[Change]:
    """The edits of one policy as one change, since the reviewer decides about them as one."""
    edits = [c for c in told if c.kind in {Kind.POLICY, Kind.POLICY_EDITED}]
    yield from (change for change in told if change not in edits)
    if edits:
        remarks = tuple(remark for change in edits for remark in change.remarks)
        yield replace(edits[0], field="", remarks=remarks)


def _museum(one: Difference, name: str, base: Side, head: Side) -> Iterator[Change]:
    if one.path[:1] == ("shown",) and _opens(one.after):
        yield _told(Kind.PUBLIC, one, name, f"{field_of(one.path)} becomes public.")
    else:
        yield from _plain(one, name, base, head)


def _opens(value: Plain) -> bool:
    return any(value.values()) if isinstance(value, dict) else bool(value)


def _people(one: Difference, name: str, base: Side, head: Side) -> Iterator[Change]:
    person = one.path[1] if len(one.path) > 1 else ""
    if one.path[2:] == ("public_name",) and one.after:
        yield _told(Kind.PUBLIC, one, name, f"The name of {person} becomes public.")
    elif one.path[2:3] == ("roles",) and one.before is not None and _has_signed(person, head):
        says = f"The roles of {person}, who has agreed to records, changed for days past."
        yield _told(Kind.AROUND, one, name, says, Weight.PERSON)
    else:
        yield from _plain(one, name, base, head)


def _has_signed(person: str, side: Side) -> bool:
    return any(
        signature.by == person
        for entry in side.library.decisions
        if entry.value
        for signature in entry.value.agreed
    )


def _machine(one: Difference, name: str, base: Side, head: Side) -> Iterator[Change]:
    if one.path[:1] == ("photos",) and _becomes_public(one):
        says = f"{name}: a picture becomes public: {' '.join(one.path[1:2])}."
        yield _told(Kind.PUBLIC, one, name, says)
    else:
        yield from _plain(one, name, base, head)


def _becomes_public(one: Difference) -> bool:
    """True where something that was there and private is public now."""
    if one.path[-1] == "public":
        return bool(one.after)
    return False


def _findings(one: Difference, name: str, base: Side, head: Side) -> Iterator[Change]:
    if _becomes_public(one):
        yield _told(Kind.PUBLIC, one, name, f"{name}: {one.path[1]} becomes public.")
    elif len(one.path) == 2 and isinstance(one.after, dict) and one.before is None:  # noqa: PLR2004
        what = f"{name}: {one.path[1]} is new ({one.after.get('grade')}): {one.after.get('what')}"
        grave = Weight.LOOK if str(one.after.get("grade")) in {"act", "stop"} else Weight.NOTE
        yield Change.of(Kind.EVIDENCE, name, field_of(one.path), what, weight=grave)
    else:
        yield from _plain(one, name, base, head)


def _keys(base: Side, head: Side) -> Iterator[Change]:
    """The list of keys is held against the base's, since a branch could vouch for itself."""
    before, after = base.allowed_signers, head.further.get(ALLOWED_SIGNERS)
    if before == after:
        return
    says = (
        "The list of keys differs from the base's. Signatures are held against the base's list; "
        "whoever looks after the keys has to confirm the change."
    )
    yield Change.of(Kind.KEYS, ALLOWED_SIGNERS, "", says)
