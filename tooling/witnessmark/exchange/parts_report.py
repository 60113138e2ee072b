"""Removed parts and old stock, for a terminal and for programs; both are for the house."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

from witnessmark.exchange.escapes import one_line
from witnessmark.exchange.text_table import folded, render_table
from witnessmark.rules.removed import Removed
from witnessmark.rules.stock_account import Draw, Lasting, LotAccount

IN_TEN = "9 in 10"
ONE_SIDED = "19 in 20"
"""One end alone of a range of nine in ten is passed by one in twenty."""
NONE = "-"


def render_parts(found: Sequence[Removed]) -> str:
    """A table of removed parts: label, machine, part, place, decision, state, can it be seen."""
    if not found:
        return "No removed original answers to that."
    heading = ("label", "machine", "where it lies", "decision", "seen", "part")
    rows = [
        (
            one.label or NONE,
            one.machine,
            _lies(one),
            f"{one.decision} {one.state.value if one.state else ''}".strip(),
            one.seen.value,
            one_line(f"{one.name} x {one.count}" if one.count > 1 else one.name),
        )
        for one in found
    ]
    return "\n".join([*render_table(heading, rows), "", f"{len(found)} in all."])


def _lies(one: Removed) -> str:
    if one.went_to:
        return f"in {one.went_to}"
    return one.place or (one.fate.value if one.fate else NONE)


def parts_as_json(found: Sequence[Removed], *, on: date) -> dict[str, Any]:
    """Removed parts as plain data, the private places among it."""
    return {
        "as_of": on.isoformat(),
        "parts": [
            {
                "label": one.label,
                "machine": one.machine,
                "part": one.address,
                "name": one.name,
                "count": one.count,
                "fate": one.fate.value if one.fate else None,
                "place": one.place,
                "place_name": one.place_name,
                "went_to": one.went_to,
                "came_off": one.day.isoformat(),
                "decision": one.decision,
                "state": one.state.value if one.state else None,
                "seen": one.seen.value,
            }
            for one in found
        ],
    }


def render_stock(found: Sequence[LotAccount]) -> str:
    """The lots one below the other, each with its draws and how long it lasts."""
    if not found:
        return "No lot of old stock is listed."
    return "\n\n".join("\n".join(_lot(one)) for one in found)


def _lot(one: LotAccount) -> Iterator[str]:
    lot = one.lot
    yield f"{lot.id}: {one.left} of {lot.count} left, {one.free} free ({lot.purpose.value})"
    said = [
        f"{lot.what}.",
        *(f"Drawn: {_drawn(draw)}." for draw in one.drawn),
        *(f"Reserved: {_drawn(draw)}." for draw in one.reserved),
    ]
    if one.free < 0:
        said.append("More is reserved than is left.")
    if one.is_last_of_its_kind and one.left > 0:
        said.append("The last of their kind: no more can be made.")
    if one.owes_a_decision:
        said.append("Nobody has decided what it is for; a decision is owed.")
    if lot.conditions:
        said.append(f"The giver asked: {lot.conditions}")
    if lot.giver:
        said.append(f"From: {lot.giver}.")
    said += _lasts(one)
    for line in said:
        yield from folded(one_line(line), indent="    ")


def _drawn(draw: Draw) -> str:
    return f"{draw.count} by {draw.decision}" + (f" on {draw.day}" if draw.day else "")


def _lasts(one: LotAccount) -> Iterator[str]:
    """How long it lasts and what that rests on; nothing for what is not to be used."""
    if one.left <= 0:
        yield "None is left."
    elif one.lasting:
        lasting = one.lasting
        soonest = _years(lasting.soonest)
        drawn = f"Drawn on {_times(lasting.draws)} in {lasting.years:.1f} years"
        if lasting.likely is None or lasting.latest is None:
            yield f"{drawn}: no end in sight, and {ONE_SIDED} that it lasts {soonest} or more."
            return
        yield (
            f"{drawn}: at that rate it lasts {_years(lasting.likely)} more. So small a count also "
            f"agrees with anything from {soonest} to {_years(lasting.latest)} ({IN_TEN})."
        )


def _times(draws: int) -> str:
    return {0: "never", 1: "once", 2: "twice"}.get(draws, f"{draws} times")


def _years(years: float) -> str:
    if years < 1:
        return "under a year"
    shown = f"{years:.0f}"
    return f"about {shown} year{'' if shown == '1' else 's'}"


def stock_as_json(found: Sequence[LotAccount], *, on: date) -> dict[str, Any]:
    """The lots as plain data, givers and conditions among it."""
    return {"as_of": on.isoformat(), "lots": [_as_data(one) for one in found]}


def _as_data(one: LotAccount) -> dict[str, Any]:
    return {
        "id": one.lot.id,
        "what": one.lot.what,
        "purpose": one.lot.purpose.value,
        "owes_a_decision": one.owes_a_decision,
        "counted": one.counted.isoformat(),
        "count": one.lot.count,
        "drawn": [_draw(draw) for draw in one.drawn],
        "reserved": [_draw(draw) for draw in one.reserved],
        "left": one.left,
        "free": one.free,
        "last_of_its_kind": one.is_last_of_its_kind,
        "conditions": one.lot.conditions,
        "from": one.lot.giver,
        "lasts": _lasting(one.lasting) if one.lasting else None,
    }


def _draw(draw: Draw) -> dict[str, Any]:
    day = draw.day.isoformat() if draw.day else None
    return {"decision": draw.decision, "count": draw.count, "ended": day}


def _lasting(lasting: Lasting) -> dict[str, Any]:
    """Years to two decimals; null where no end is in sight."""
    years = {
        "soonest": lasting.soonest,
        "likely": lasting.likely,
        "latest": lasting.latest,
        "observed_years": lasting.years,
    }
    shown = {name: None if value is None else round(value, 2) for name, value in years.items()}
    return {**shown, "draws": lasting.draws, "confidence": "9/10"}
