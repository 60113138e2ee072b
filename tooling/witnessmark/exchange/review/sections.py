"""A review as sections of plain blocks, which every format then shows in its own way."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from witnessmark.exchange.review.compare import Review
from witnessmark.exchange.review.first import FirstSheet
from witnessmark.model.word_difference import Stretch, shortened, word_difference
from witnessmark.weighing.changes.change import Change, Kind, Weight

MOST_FIRST = 12
"""Lines of the first block that list what needs a person, so that the block fits 25 lines."""

NO_CHANGE = "No change in meaning."


@dataclass(frozen=True)
class Line:
    """A sentence, with an optional lead in bold."""

    text: str
    lead: str = ""


@dataclass(frozen=True)
class Points:
    """Numbered or plain points; each has a lead, a text and remarks below it."""

    points: tuple[Point, ...]
    numbered: bool = False


@dataclass(frozen=True)
class Point:
    """One point of a list."""

    lead: str
    text: str
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True)
class Table:
    """A table with its column names."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class Reworded:
    """One passage word by word."""

    field: str
    stretches: tuple[Stretch, ...]
    is_public: bool


Block = Line | Points | Table | Reworded


@dataclass(frozen=True)
class Section:
    """A heading and what stands under it."""

    title: str
    blocks: tuple[Block, ...]
    depth: int = 3


def sections_of(review: Review) -> tuple[Section, ...]:
    """The sections in the order of a sheet; the first is what must not be missed."""
    return (_first(review), *_rest(review))


def _first(review: Review) -> Section:
    blocks: list[Block] = [Line(f"{review.base} to {review.head}", "Compared:")]
    blocks += [Line(note, "Note:") for note in review.notes]
    needs = review.needs
    if review.is_empty:
        blocks.append(Line("", NO_CHANGE))
    elif not needs:
        blocks.append(Line(_summary(review), "Nothing here needs a person to decide."))
    else:
        things = (
            "1 thing needs a person" if len(needs) == 1 else f"{len(needs)} things need a person"
        )
        blocks.append(Line(_summary(review), f"{things}."))
        points = tuple(_point(change, review) for change in needs[:MOST_FIRST])
        blocks.append(Points(points, numbered=True))
        if len(needs) > MOST_FIRST:
            blocks.append(Line(f"and {len(needs) - MOST_FIRST} more, each under its record below."))
    return Section("Review of the museum's decisions", tuple(blocks), depth=2)


def _summary(review: Review) -> str:
    records = {c.record for c in review.changes if c.record in review.titles}
    changed = len(records - {sheet.record for sheet in review.new})
    said = [f"{changed} {'record' if changed == 1 else 'records'} changed or affected"]
    said += [f"{len(review.new)} new"] if review.new else []
    looks = sum(change.weight is Weight.LOOK for change in review.changes)
    said += [f"{looks} further {'change' if looks == 1 else 'changes'} to look at"] if looks else []
    return f"{', '.join(said)}."


def _point(change: Change, review: Review) -> Point:
    del review
    where = f" ({change.place})" if change.place else ""
    remarks = change.remarks if change.kind in {Kind.FLIP, Kind.STOCK} else ()
    text = " ".join([f"{change.record}: {change.says}{where}", *remarks])
    return Point(change.kind.heading.upper(), text)


def _rest(review: Review) -> Iterator[Section]:
    sheets = {sheet.record: sheet for sheet in review.new}
    for record in dict.fromkeys(c.record for c in review.changes):
        mine = [c for c in review.changes if c.record == record and c.kind is not Kind.AFFECTED]
        if mine:
            yield from _of_record(record, mine, review, sheets.get(record))
    affected = [c for c in review.changes if c.kind is Kind.AFFECTED]
    if affected:
        yield Section("Not changed but affected", (_points(affected, named=True),), depth=2)
    if not review.is_empty:
        yield _how(review)


def _of_record(
    record: str, changes: list[Change], review: Review, sheet: FirstSheet | None
) -> Iterator[Section]:
    title = review.titles.get(record)
    heading = f"{record} \N{MIDDLE DOT} {title}" if title else record
    lead = [c for c in changes if c.kind in _LEADING]
    yield Section(heading, (_points(lead),) if lead else (), depth=2)
    if sheet:
        yield from _sheet(sheet)
    for title, kinds in _GROUPS:
        group = [c for c in changes if c.kind in kinds]
        if group:
            yield Section(title, tuple(_blocks(title, group)))


_LEADING = frozenset(
    {
        Kind.FLIP, Kind.SEAL_VOID, Kind.SIGNATURE_BAD, Kind.KEYS, Kind.CHOICE, Kind.DELETED,
        Kind.UNREADABLE, Kind.POLICY_AND_SCORES, Kind.STATE_BACK, Kind.MOVED, Kind.RANKING,
        Kind.STATE, Kind.NEW,
    }
)  # fmt: skip
_GROUPS: tuple[tuple[str, frozenset[Kind]], ...] = (
    ("Scores changed", frozenset({Kind.SCORE, Kind.RISK, Kind.UNDO})),
    (
        "Options, hazards and steps",
        frozenset({Kind.OPTION_REMOVED, Kind.OPTION, Kind.HAZARD_REMOVED, Kind.HAZARD, Kind.STEP}),
    ),
    ("Original material and old stock", frozenset({Kind.FABRIC, Kind.LOSS_REMOVED, Kind.STOCK})),
    ("Rules", frozenset({Kind.RULE_NEW, Kind.RULE_MENDED, Kind.WAIVER})),
    ("Policy", frozenset({Kind.POLICY_EDITED, Kind.POLICY})),
    (
        "Agreement and dissent",
        frozenset({Kind.AGREEMENT_REMOVED, Kind.AGREEMENT, Kind.DISSENT_REMOVED, Kind.DISSENT}),
    ),
    ("Evidence", frozenset({Kind.EVIDENCE})),
    ("Words", frozenset({Kind.PROSE})),
    ("Visibility", frozenset({Kind.PUBLIC, Kind.PRIVATE})),
    ("Work, outcome and other fields", frozenset({Kind.WORK, Kind.AROUND, Kind.OTHER})),
)


def _blocks(title: str, group: list[Change]) -> Iterator[Block]:
    if title == "Scores changed":
        head = ("what", "base", "head", "who", "reason and evidence")
        rows = tuple((_what(c), c.before, c.after, c.who, "; ".join(c.remarks)) for c in group)
        yield Table(head, rows)
        return
    for change in group:
        if change.kind is Kind.PROSE:
            stretches = shortened(word_difference(change.before, change.after))
            yield Reworded(change.field, stretches, change.is_public)
    points = [change for change in group if change.kind is not Kind.PROSE]
    if points:
        yield _points(points)


def _what(change: Change) -> str:
    """What a row of scores is about, less the levels that stand beside it."""
    said = change.says.removesuffix(f": {change.before} to {change.after}")
    return said.replace(f": {change.before} to {change.after} (computed)", " (computed)")


def _points(changes: list[Change], *, named: bool = False) -> Points:
    return Points(tuple(_detailed(change, named=named) for change in changes))


def _detailed(change: Change, *, named: bool) -> Point:
    lead = change.record if named else change.kind.heading
    where = f" ({change.place})" if change.place else ""
    sides: tuple[str, ...] = ()
    if change.before or change.after:
        told = f"{change.before or 'nothing'} to {change.after or 'nothing'}"
        sides = () if told in change.says or change.kind in _LEADING else (told,)
    return Point(lead, f"{change.says}{where}", (*sides, *change.remarks))


def _sheet(sheet: FirstSheet) -> Iterator[Section]:
    facts: list[Block] = [Line(fact) for fact in sheet.facts]
    blanks = ", ".join(sheet.blanks) or "none; every aspect is judged and every hazard answered"
    facts.append(Line(f"{blanks}.", "Blanks:"))
    overrides = tuple(Point("", text) for text in sheet.overrides)
    facts.append(Line("" if overrides else "none.", "Undo levels set by hand:"))
    facts += [Points(overrides)] if overrides else []
    hand = " ".join(sheet.one_hand) or "no; proposer, judge and signers differ."
    facts.append(Line(hand, "One hand in two parts:"))
    yield Section("First review", tuple(facts))
    for grid in sheet.grids:
        blocks: tuple[Block, ...] = (Table(grid.head, grid.rows),) if grid.rows else ()
        yield Section(grid.title, (*blocks, Line(grid.note)) if grid.note else blocks)


def _how(review: Review) -> Section:
    text = (
        f"Records are matched by their ids; moved files and layout count for nothing. "
        f"{review.open_rules} findings of the check stand on both sides. To see this again: "
        "witnessmark review BASE HEAD."
    )
    return Section("How this was made", (Line(text),), depth=2)
