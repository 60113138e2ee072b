"""Museums for tests: one small sound museum, changed by dotted path, as values or on disk.

`changes` says per file what is other than in the base, by dotted path, where a number is a place in
a list, one past the end adds a member, and GONE takes out what stands there:

    museum(changes={DECISION: {"options.1.steps.0.fate": "lost", "aim": GONE}})

`also` gives whole further files as text, or replaces files of the base.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from pathlib import Path
from types import MappingProxyType
from typing import Any, Final

import yaml

from witnessmark.model.decision import Decision
from witnessmark.model.library import Folder, Library, assemble
from witnessmark.model.options import Option
from witnessmark.model.position import Pieces
from witnessmark.model.source import read
from witnessmark.model.words import MadeTo, Origin
from witnessmark.weighing.case import Case, work_out

Changes = Mapping[str, Mapping[str, object]]
NOTHING: Final[Mapping[str, Any]] = MappingProxyType({})
GONE: Final = object()
"""Stands in `changes` for what is to be taken out."""

ROOT = "museum"
DECISION_ID = "2024-001"
DECISION = "winch/2024-001-drum-bush.yml"
MACHINE = "winch/machine.yml"
DONOR = "sister/machine.yml"
FINDINGS = "winch/findings.yml"
POLICY = "policy/2023-04.yml"
PEOPLE = "people.yml"
STORES = "stores.yml"
MUSEUM = "museum.yml"

BASE: Final[Mapping[str, str]] = MappingProxyType(
    {
        MUSEUM: """\
witnessmark: 1
name: The Museum of the Test Bench
place: Upstairs
""",
        PEOPLE: """\
witnessmark: 1
people:
  - {id: curator, title: Curator, roles: [{role: collections, from: 2020-01-01}]}
  - {id: engineer, title: Engineer, roles: [{role: engineering, from: 2020-01-01}]}
  - {id: safety-officer, title: Safety officer, roles: [{role: safety, from: 2020-01-01}]}
  - {id: trustee, title: Trustee, roles: [{role: governing, from: 2020-01-01}]}
  - {id: fitter, title: Fitter, roles: [{role: workshop, from: 2020-01-01}]}
""",
        STORES: """\
witnessmark: 1
as_of: 2020-01-01
places:
  - {id: store-a, name: Store A}
lots:
  - id: bushes
    what: Drum bushes, never fitted
    count: 3
    origin: as-built
    made_to: wear
    can_be_made: false
    pattern: Plaster cast
    purpose: spares
    who: curator
    when: 2020-01-01
    because: Kept to be fitted
    place: store-a
""",
        POLICY: """\
witnessmark: 1
valid_from: 2023-04-01
weights:
  running: {authenticity: 0.35, safety: 0.40, reversibility: 0.25}
  on-display: {authenticity: 0.50, safety: 0.20, reversibility: 0.30}
ranges:
  running: {authenticity: [0.2, 0.5], safety: [0.3, 0.6], reversibility: [0.1, 0.4]}
floors:
  running: {safety: 2}
""",
        MACHINE: """\
witnessmark: 1
as_of: 2020-01-01
name: The winch
what: A hand winch of 1931
kept: [{from: 2015-01-01, as: running}]
significance:
  statement: The last winch of the old yard
  state: As it worked in its last season
  carried_by: {material: 2, form: 1, use: 2, technique: 1}
assemblies:
  - id: drum
    name: Drum
    parts:
      - {id: bush, name: Drum bush, origin: as-built, made_to: wear, mass: 4 kg, can_be_made: true}
      - {id: shaft, name: Drum shaft, origin: as-built, made_to: last, mass: 30 kg}
      - {id: bolts, name: Bolts, origin: in-service, made_to: last, count: 24, can_be_made: true}
      - {id: barrel, name: Barrel, origin: as-built, made_to: last, last_known: true}
      - {id: felt, name: Felt ring, origin: as-built, made_to: be-used-up}
      - {id: guard, name: Guard, origin: museum-made, made_to: last}
  - id: frame
    name: Frame
    parts:
      - {id: left, name: Left cheek, origin: as-built, made_to: last}
      - {id: right, name: Right cheek, origin: as-built, made_to: last}
""",
        DONOR: """\
witnessmark: 1
as_of: 2020-01-01
name: The sister winch
what: A hand winch of the same make
kept: [{from: 2015-01-01, as: reserve}]
significance:
  statement: It shows how the winch was made
  state: As it left the yard
  carried_by: {material: 1}
assemblies:
  - id: drum
    name: Drum
    parts:
      - {id: bush, name: Drum bush, origin: as-built, made_to: wear, count: 2, can_be_made: true}
""",
        FINDINGS: """\
witnessmark: 1
findings:
  - id: f-001
    date: 2024-01-10
    by: fitter
    part: drum/bush
    basis: measured
    what: The bush is worn past its limit
    grade: act
    measurement: 0.74 mm
    instrument: Feeler gauge
""",
        DECISION: """\
witnessmark: 1
id: 2024-001
title: Why we made a new bush for the drum
question: The bush of the drum is worn past its limit. What should carry the drum now?
aim: {what: Lift half a tonne on open days, because: The winch is kept running}
about: [drum/bush]
findings: [f-001]
policy: 2023-04
state: for-review
opened: 2024-02-11
proposed_by: fitter
judged_by: {by: curator, date: 2024-02-20}
worksheets:
  - id: clearance
    sheet: bearing-clearance
    given: {bore: 65.74 ± 0.01 mm, journal: 65.00 ± 0.01 mm, limit: 0.50 mm}
    bears_on: [drum/bush]
hazards:
  - id: drops
    what: The drum tilts and the load drops
    when: afterwards
    who: [crew]
    before: 2C
  - id: lifting
    what: The drum slips while it is lifted out
    when: doing-the-work
    who: [fitters]
    before: 2D
options:
  - id: leave
    kind: leave-as-found
    title: Leave the bush as it is
    consequences:
      - {part: drum/shaft, becomes: scored, undo: 1, because: Steel runs on steel in the end}
    answers:
      drops: {after: 2C}
      lifting: {none: Nothing is lifted}
    judged:
      use: {likely: 3, because: It turns but it knocks}
    unaffected: {form: As it was, technique: As it was, setting: In its shed, spirit: As it was}
    why_not: The shaft would be cut in the end.
  - id: rebush
    kind: renew-like-for-like
    title: A new bush to the old size
    steps:
      - {do: remove, part: drum/bush, fate: stored, label: TB-0001, place: store-a}
      - {do: fit-new, part: drum/bush, like: same, material: tin bronze, marked: 2024 on the end}
    answers:
      drops: {after: 2E, because: The clearance is as built again}
      lifting: {after: 2E, because: A stand carries the drum}
    judged:
      form: {likely: 4, because: To the old size}
      technique: {low: 3, likely: 4, high: 4, because: Scraped by hand}
    unaffected: {use: Lifts as built, setting: In its shed, spirit: As it was}
    way_back: Press it out and the old one in.
  - id: stop
    kind: stop-running
    title: Lock the winch and show it standing
    steps:
      - {do: lock-out, part: drum/shaft, what: A padlock on the brake}
    answers:
      drops: {none: Nothing is lifted}
      lifting: {none: Nothing is lifted}
    judged:
      use: {likely: 1, because: It shows a winch and not what a winch does}
    unaffected: {form: As it was, technique: As it was, setting: In its shed, spirit: Silent}
    misses_aim: It lifts nothing.
    why_not: A worn bush is no reason to stop.
choice:
  option: rebush
  because: The bush was made to be renewed and the shaft was not
  gives_up: The old bush leaves the winch
  would_change_our_mind: Bronze that cannot be had
  dissent: none raised
losses: none
look_again: {date: 2027-03-01}
""",
    }
)


class _Plainly(yaml.SafeDumper):
    """Writes decimals as they stand, and never one value as a reference to another."""

    def ignore_aliases(self, data: Any) -> bool:  # noqa: ARG002  PyYAML's own signature
        return True


def _decimal(dumper: yaml.SafeDumper, value: Decimal) -> yaml.ScalarNode:
    return dumper.represent_scalar("tag:yaml.org,2002:float", str(value))


_Plainly.add_representer(Decimal, _decimal)


def written(data: object) -> str:
    """Plain data as YAML text, in the order given."""
    return yaml.dump(data, Dumper=_Plainly, sort_keys=False, allow_unicode=True, width=1000)


def plainly(text: str) -> Any:
    """The plain data of a YAML text; a text that cannot be read is a slip of the test."""
    document = read("text.yml", text.encode())
    assert () == document.problems
    return document.data


def changed(text: str, changes: Mapping[str, object]) -> str:
    """A YAML text with other values at dotted paths."""
    data = plainly(text)
    for path, value in changes.items():
        _put(data, path.split("."), value)
    return written(data)


def _put(data: Any, path: list[str], value: object) -> None:
    here = data
    for step in path[:-1]:
        here = here[int(step)] if isinstance(here, list) else here.setdefault(step, {})
    last = int(path[-1]) if isinstance(here, list) else path[-1]
    if value is GONE:
        del here[last]
    elif isinstance(here, list) and last == len(here):
        here.append(value)
    else:
        here[last] = value


def folder(
    *,
    changes: Changes = NOTHING,
    also: Mapping[str, str] = NOTHING,
    without: tuple[str, ...] = (),
) -> Folder:
    """The base museum with some things other, as the disk layer would have found it."""
    texts = {**BASE, **also}
    for file, there in changes.items():
        texts[file] = changed(texts[file], there)
    files = {file: text.encode() for file, text in texts.items() if file not in without}
    return Folder(ROOT, files)


def museum(
    *,
    changes: Changes = NOTHING,
    also: Mapping[str, str] = NOTHING,
    without: tuple[str, ...] = (),
) -> Library:
    """The base museum with some things other, read."""
    return assemble(folder(changes=changes, also=also, without=without))


def on_disk(
    where: Path,
    *,
    changes: Changes = NOTHING,
    also: Mapping[str, str] = NOTHING,
    without: tuple[str, ...] = (),
) -> Path:
    """The base museum with some things other, written below a folder; gives the museum's folder."""
    root = where / ROOT
    for file, content in folder(changes=changes, also=also, without=without).files.items():
        path = root / file
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    return root


def decision_in(library: Library, name: str = DECISION_ID) -> Decision:
    """One decision of a museum, which has to be readable."""
    value = library.by_id[name].value
    assert value is not None, library.by_id[name].shaped.diagnostics
    return value


def case_in(library: Library, name: str = DECISION_ID) -> Case:
    """One decision of a museum worked out."""
    return work_out(decision_in(library, name), library.by_id[name].machine, library)


def done(
    name: str,
    *,
    steps: str,
    ended: str = "2023-06-30",
    state: str = "done",
    about: str = "drum/bush",
) -> str:
    """A short record of work that was done; `steps` is YAML, a list in one line or several."""
    as_done = plainly(f"as_done:\n{_indented(steps)}")["as_done"]
    return changed(
        BASE[DECISION],
        {
            "id": name,
            "about": [about],
            "state": state,
            "work": {
                "started": "2023-06-01",
                "ended": ended,
                "by": ["Fitter"],
                "as_done": as_done,
                "departures": "none",
            },
        },
    )


def _indented(text: str) -> str:
    return "".join(f"  {line}\n" for line in text.strip().splitlines())


def option(text: str) -> Option:
    """An option of a short YAML text; id, kind and title may be left out."""
    data = {"id": "one", "kind": "repair", "title": "One"} | (plainly(text) if text.strip() else {})
    return Option.model_validate(data)


def pieces(
    *,
    made_to: MadeTo = MadeTo.WEAR,
    count: int = 1,
    origin: Origin = Origin.AS_BUILT,
    can_be_made: bool | str = True,
    last_known: bool = False,
    name: str = "A part",
) -> Pieces:
    """Like pieces of one place, originals made to wear where nothing else is said."""
    return Pieces(
        count=count,
        name=name,
        origin=origin,
        made_to=made_to,
        can_be_made=can_be_made,
        last_known=last_known,
    )
