"""The whole comparison of two sides: every change, worst first, and a sheet for each new record."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from witnessmark.exchange.review.affected import affected_changes, stock_changes
from witnessmark.exchange.review.around import around_changes
from witnessmark.exchange.review.first import FirstSheet, first_sheet
from witnessmark.exchange.review.rules import rule_changes, still_open
from witnessmark.exchange.review.seals import seal_changes
from witnessmark.exchange.review.sides import Side
from witnessmark.exchange.review.together import together
from witnessmark.model.library import DecisionFile
from witnessmark.weighing.changes import (
    Change,
    Kind,
    ranking_changes,
    record_changes,
    score_changes,
)
from witnessmark.weighing.changes.change import in_order
from witnessmark.weighing.changes.record import record_differences
from witnessmark.weighing.changes.scores import new_overrides
from witnessmark.weighing.changes.shown import field_of, shown

_NEVER_DELETED = "A decision that no longer stands is withdrawn or replaced, never deleted."


@dataclass(frozen=True)
class Review:
    """What changed in meaning between two sides.

    `changes` are in the order of a sheet; `titles` name the records that the changes speak of.
    """

    base: str
    head: str
    notes: tuple[str, ...]
    changes: tuple[Change, ...]
    new: tuple[FirstSheet, ...]
    titles: Mapping[str, str]
    open_rules: int

    @property
    def needs(self) -> tuple[Change, ...]:
        """What needs a person."""
        return tuple(change for change in self.changes if change.needs_a_person)

    @property
    def is_empty(self) -> bool:
        """True when nothing changed in meaning."""
        return not self.changes

    @property
    def exit_code(self) -> int:
        """1 when something needs a person."""
        return int(bool(self.needs))


def review_of(base: Side, head: Side, *, notes: tuple[str, ...] = ()) -> Review:
    """Compare two sides of a museum by stable ids."""
    new = [name for name in head.records if name not in base.records]
    changed = frozenset(_changed_records(base, head)) | frozenset(new)
    found = [
        *_deleted(base, head),
        *(change for name in sorted(changed - set(new)) for change in _record(name, base, head)),
        *(change for name in new for change in _new(name, base, head)),
        *(change for name in sorted(head.records.keys() - changed)
          for change in _untouched(name, base, head)),
        *around_changes(base, head),
        *stock_changes(base, head),
        *rule_changes(base, head),
    ]  # fmt: skip
    found += together(found, head) if base.library.policy_files else []  # a museum's first day
    found += affected_changes(base, head, changed | _gone(base, head)) if found else []
    sheets = [first_sheet(head.records[name], head) for name in new]
    return Review(
        base=base.label,
        head=head.label,
        notes=notes,
        changes=in_order(found),
        new=tuple(sheet for sheet in sheets if sheet),
        titles=_titles(base) | _titles(head),
        open_rules=still_open(base, head),
    )


def _titles(side: Side) -> dict[str, str]:
    return {name: entry.value.title for name, entry in side.records.items() if entry.value}


def _gone(base: Side, head: Side) -> frozenset[str]:
    return frozenset(base.records.keys() - head.records.keys())


def _changed_records(base: Side, head: Side) -> Iterator[str]:
    for name, entry in head.records.items():
        before = base.records.get(name)
        if before and _differ(before, entry):
            yield name


def _differ(before: DecisionFile, after: DecisionFile) -> bool:
    if before.machine != after.machine or (before.value is None) != (after.value is None):
        return True
    if before.shaped.document.text == after.shaped.document.text:
        return False
    return any(True for _ in record_differences(before, after))


def _deleted(base: Side, head: Side) -> Iterator[Change]:
    for name in sorted(_gone(base, head)):
        value = base.records[name].value
        state = f" It was {value.state.value}." if value else ""
        says = f"The record is deleted.{state} {_NEVER_DELETED}"
        yield Change.of(Kind.DELETED, name, "", says)


def _record(name: str, base: Side, head: Side) -> Iterator[Change]:
    before, after = base.cases.get(name), head.cases.get(name)
    scored = bool(before and after and before.scores and after.scores)
    old, new = base.records[name], head.records[name]
    told = [*record_changes(old, new, scored=scored)]
    if before and after:
        told += score_changes(before, after, evidence=tuple(_evidence(old, new)))
    yield from told or _untold(old, new)
    if before and after:
        yield from ranking_changes(before, after)
    yield from seal_changes(name, base, head)


def _untold(before: DecisionFile, after: DecisionFile) -> Iterator[Change]:
    """What no other teller spoke of: nothing that differs may pass unseen."""
    for one in record_differences(before, after):
        field = field_of(one.path)
        yield Change.of(
            Kind.OTHER, after.id, field, f"{field} changed.", before=shown(one.before),
            after=shown(one.after),
        )  # fmt: skip


def _evidence(before: DecisionFile, after: DecisionFile) -> Iterator[str]:
    """What the record rests on that it did not rest on before."""
    old, new = before.value, after.value
    if old and new:
        yield from (f for f in new.findings if f not in old.findings)
        yield from sorted({s.id for s in new.worksheets} - {s.id for s in old.worksheets})
        yield from sorted({s.what for s in new.sources} - {s.what for s in old.sources})
        yield from sorted({p.file for p in new.photos} - {p.file for p in old.photos})


def _new(name: str, base: Side, head: Side) -> Iterator[Change]:
    entry, case = head.records[name], head.cases.get(name)
    state = entry.value.state.value if entry.value else "not readable"
    yield Change.of(Kind.NEW, name, "", f"New record, {state}; its first-review sheet is below.")
    if case:
        yield from new_overrides(None, case)
    yield from seal_changes(name, base, head)


def _untouched(name: str, base: Side, head: Side) -> Iterator[Change]:
    """A record whose own file says the same, but whose ranking or seal may have moved."""
    before, after = base.cases.get(name), head.cases.get(name)
    if before is after and base.further == head.further:
        return  # nothing that it rests on differs
    if before and after:
        yield from ranking_changes(before, after)
        yield from seal_changes(name, base, head, is_changed=False)
