"""Old decisions from a list: drafts with what is known, and every blank named."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

from witnessmark.exchange.incoming.cells import LeftOutError, refuse_shape, typed
from witnessmark.exchange.incoming.table import Row
from witnessmark.exchange.incoming.taking import BLANKS, Bench, Placed
from witnessmark.model.blank_to_fill import guidance
from witnessmark.model.block_style import block_text
from witnessmark.model.decision import Decision
from witnessmark.model.files import DECISION_FILE
from witnessmark.model.new_decision import slug

FIELDS = (
    "machine", "title", "question", "aim", "aim_because", "about", "findings", "policy", "opened",
    "proposed_by", "note",
)  # fmt: skip
MODELINE = "# yaml-language-server: $schema=../schema/decision.schema.json\n"
BEFORE_ANY = "No policy of this museum was valid on that day; the oldest is named."


def lay_decision(bench: Bench, row: Row, given: Mapping[str, str]) -> Placed:
    """One old decision as a draft of its own, with the next free number of its year.

    Nothing is agreed by being brought in: agreement is two people under a seal, now or never.

    Raises:
        LeftOutError: machine, title or day are missing, or a record says the same already.
    """
    machine, title = given.get("machine", ""), given.get("title", "")
    if machine not in bench.library.machine_files:
        raise LeftOutError(f'There is no machine "{machine}" here.')
    if not title or not given.get("opened"):
        raise LeftOutError("An old decision needs a `title` and the day it was `opened`.")
    values = typed(given, order=bench.found.order)
    _refuse_twice(bench, machine, values)
    name = _next_id(bench, str(values["opened"])[:4])
    fields = _fields(bench, name, row, values)
    blanks = tuple(_blanks(fields))
    notes = {field: guidance(Decision, (), field) for field in blanks}
    text = f"{MODELINE}{block_text(fields, notes=notes)}\n"
    refuse_shape(text, Decision, but=BLANKS)
    file = f"{machine}/{name}-{slug(title) or 'brought-in'}.yml"
    bench.texts[file] = text
    return Placed(file, (), f"{file}", blanks)


def _fields(bench: Bench, name: str, row: Row, values: Mapping[str, Any]) -> dict[str, Any]:
    policy, departs = _policy(bench, values)
    told = f"Brought in from {bench.source}, row {row.number}."
    fields = {
        "witnessmark": 1,
        "id": name,
        "title": values["title"],
        "question": values.get("question"),
        "aim": _aim(values),
        "about": values.get("about"),
        "findings": values.get("findings"),
        "policy": policy,
        "departs_from_policy": departs,
        "state": "draft",
        "opened": values["opened"],
        "proposed_by": values.get("proposed_by"),
        "note": f"{values['note']} {told}" if values.get("note") else told,
    }
    may_lack = {"findings", "departs_from_policy"}
    return {field: one for field, one in fields.items() if one is not None or field not in may_lack}


def _aim(values: Mapping[str, Any]) -> dict[str, Any] | None:
    if not (values.get("aim") or values.get("aim_because")):
        return None
    return {"what": values.get("aim"), "because": values.get("aim_because")}


def _blanks(fields: Mapping[str, Any]) -> Iterator[str]:
    for name, value in fields.items():
        if value is None or (isinstance(value, dict) and None in value.values()):
            yield name


def _policy(bench: Bench, values: Mapping[str, Any]) -> tuple[str | None, str | None]:
    """The policy named, or the newest valid on the day, or the oldest with the reason."""
    dated = sorted((str(one.valid_from), name) for name, one in bench.library.policies.items())
    valid = [name for day, name in dated if day <= str(values["opened"])]
    if values.get("policy"):
        return values["policy"], None
    if valid:
        return valid[-1], None
    return (dated[0][1], BEFORE_ANY) if dated else (None, None)


def _next_id(bench: Bench, year: str) -> str:
    """The number after the highest of the year, those brought in before it among them."""
    taken = [name for entry in bench.library.decisions for name in (entry.id, entry.named)]
    taken += [match["id"] for file in bench.texts if (match := DECISION_FILE.fullmatch(file))]
    numbers = [int(name[5:]) for name in taken if re.fullmatch(f"{year}-[0-9]{{3}}", name)]
    number = max(numbers, default=0) + 1
    if number > 999:  # noqa: PLR2004  three digits
        raise LeftOutError(f"All numbers of {year} are taken.")
    return f"{year}-{number:03}"


def _refuse_twice(bench: Bench, machine: str, values: Mapping[str, Any]) -> None:
    same = (" ".join(str(values["title"]).split()), str(values["opened"]))
    for one in bench.library.decisions_of(machine):
        if (" ".join(one.title.split()), str(one.opened)) == same:
            raise LeftOutError(f"{one.id} has that title and day, and nothing is overwritten.")
