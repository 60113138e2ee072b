"""Old parts, old stock, what is due and what runs, cut down to what the public may see."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from dataclasses import replace
from datetime import date

from witnessmark.model.library import Library
from witnessmark.publish.environment import long_day
from witnessmark.publish.public_lists import (
    PublicDraw,
    PublicDue,
    PublicLot,
    PublicReason,
    PublicRemoved,
    PublicRuns,
)
from witnessmark.publish.shown_names import Names
from witnessmark.rules.due import due
from witnessmark.rules.due_kinds import Due, DueKind
from witnessmark.rules.removed import removed_parts
from witnessmark.rules.runs_today import Reason, Runs, runs_today
from witnessmark.rules.stock_account import Draw, Lasting, LotAccount, stock_accounts

OF_DECISIONS = frozenset(
    {
        DueKind.RUNS_OUT,
        DueKind.ACCEPTED_RISK,
        DueKind.WAIVER,
        DueKind.RATIFY,
        DueKind.LOOK_AGAIN,
    }
)
OF_FINDINGS = frozenset({DueKind.STOP, DueKind.PUT_OFF, DueKind.MEASURE})
AHEAD = 366 * 100
"""Days to look ahead: everything that anybody has promised."""
_DAY = re.compile(r"\b[0-9]{4}-[0-9]{2}-[0-9]{2}\b")
_FIRST_NUMBER = re.compile(r"^(?:(f-[0-9]+)|[0-9]{4}-[0-9]{3})\b")
_FINDING_ID = re.compile(r"\bf-\d+\b")


def public_runs(
    library: Library, name: str, *, as_of: date, published: Collection[str], names: Names
) -> PublicRuns:
    """Whether a machine runs; what rests on a record that is not shown counts without its words."""
    found = runs_today(library, name, on=as_of)
    shown = {finding.id for finding in library.findings_of(name) if finding.public}

    def reason(one: Reason) -> PublicReason:
        named = set(_FINDING_ID.findall(one.says))
        is_shown = named <= shown and (one.decision is None or one.decision in published)
        says = told_to_visitors(names.in_place_of_addresses(name, one.says)) if is_shown else None
        return PublicReason(
            weight=one.weight, says=says, decision=one.decision if is_shown else None
        )

    reasons = dict.fromkeys(reason(one) for one in found.reasons)
    return PublicRuns(
        runs=found.runs,
        # What holds nothing and may not be told would be a line that says nothing.
        reasons=tuple(one for one in reasons if one.says or one.weight is not Runs.RUNS),
        notice=found.notice,
    )


def told_to_visitors(text: str) -> str:
    """A reckoned sentence with days as people write them, and numbers that say what they are of.

    >>> told_to_visitors("2024-001 sets limits to its use until 2026-10-31.")
    'Decision 2024-001 sets limits to its use until 31 October 2026.'
    """
    begun = _FIRST_NUMBER.sub(lambda at: f"{'Finding' if at[1] else 'Decision'} {at[0]}", text)
    return _DAY.sub(lambda found: long_day(date.fromisoformat(found[0])), begun)


def public_removed(
    library: Library, *, as_of: date, published: Collection[str], names: Names
) -> Iterator[PublicRemoved]:
    """The originals off their machines by published decisions, by label."""
    for one in removed_parts(library, on=as_of):
        if one.decision in published:
            yield PublicRemoved(
                machine=one.machine,
                machine_name=one.machine_name,
                name=names.part(one.machine, one.address),
                count=one.count,
                label=one.label,
                fate=one.fate,
                seen=one.seen,
                now_in=names.machine(one.went_to) if one.went_to else None,
                day=one.day,
                decision=one.decision,
            )


def public_stock(
    library: Library, *, as_of: date, published: Collection[str]
) -> Iterator[PublicLot]:
    """Every lot in plain numbers, in the order of the stores' file."""
    for one in stock_accounts(library, on=as_of):
        yield PublicLot(
            what=one.lot.what,
            made_to=one.lot.made_to,
            can_be_made=one.lot.can_be_made,
            purpose=one.lot.purpose,
            counted=one.counted,
            count=one.lot.count,
            left=one.left,
            reserved=one.left - one.free,
            draws=tuple(_draw(draw, published) for draw in (*one.drawn, *one.reserved)),
            lasts=_years(one),
        )


def _draw(draw: Draw, published: Collection[str]) -> PublicDraw:
    name = draw.decision if draw.decision in published else None
    return PublicDraw(decision=name, count=draw.count, day=draw.day)


def _years(one: LotAccount) -> tuple[int, int | None, int | None] | None:
    found: Lasting | None = one.lasting
    if found is None:
        return None
    likely = None if found.likely is None else round(found.likely)
    latest = None if found.latest is None else round(found.latest)
    return round(found.soonest), likely, latest


def public_due(
    library: Library, *, as_of: date, published: Collection[str], names: Names
) -> Iterator[PublicDue]:
    """What is promised in published decisions and public findings, the oldest first."""
    for one in shown_due(library, as_of=as_of, published=published):
        if one.machine:
            yield PublicDue(
                kind=one.kind,
                day=one.day,
                machine=one.machine,
                machine_name=names.machine(one.machine),
                what=one.says,
                decision=one.decision,
                is_overdue=one.day < as_of,
            )


def shown_due(library: Library, *, as_of: date, published: Collection[str]) -> Iterator[Due]:
    """What is due and shown, each saying only its public words."""
    for one in due(library, on=as_of, days=AHEAD):
        what = _promised(one, library, published)
        if what:
            yield replace(one, says=what)


def _promised(one: Due, library: Library, published: Collection[str]) -> str | None:
    """The public words of what is due: a decision's title or a finding's; none if not shown."""
    if one.kind in OF_DECISIONS and one.decision and one.decision in published:
        entry = library.by_id.get(one.decision)
        return entry.value.title if entry and entry.value else None
    if one.kind in OF_FINDINGS and one.machine:
        wanted = one.name.rpartition("/")[2]
        log = library.findings_of(one.machine)
        return next((f.what for f in log if f.id == wanted and f.public), None)
    return None
