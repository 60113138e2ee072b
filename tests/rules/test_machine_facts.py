"""What rules see of machines and findings: the way of keeping on a day, and parts singled out.

What is expected is read off the records written here; no text outside says it.
"""

from __future__ import annotations

from datetime import date

import pytest

from witnessmark.model.decision import Decision
from witnessmark.model.findings import Finding
from witnessmark.model.judgement import Facts, judgement_of, seal_of
from witnessmark.model.library import Folder, Library, assemble
from witnessmark.rules.machine_facts import finding_view, machine_view
from witnessmark.rules.quantities import check_measured

MACHINE = """
witnessmark: 1
as_of: 2020-01-01
name: Winch
what: A winch
kept:
  - {from: 2012-05-01, as: running, shows: How a load is held by hand}
  - {from: 2005-05-01, as: reserve}
significance: {statement: The last, state: As used, carried_by: {use: 1}}
assemblies:
  - id: drum
    name: Drum
    parts:
      - {id: bolts, name: Bolts, origin: in-service, made_to: last, held_by: tack-weld}
      - {id: studs, name: Studs, origin: in-service, made_to: last, held_by: wire, bears: K 7}
      - {id: hooks, name: Hooks, origin: as-built, made_to: last, handed: true}
      - {id: shaft, name: Shaft, origin: as-built, made_to: last, highly_stressed: true}
      - {id: bush, name: Bush, origin: as-built, made_to: wear, last_known: true}
"""
FINDINGS = """
witnessmark: 1
findings:
  - id: f-001
    date: 2021-01-01
    by: fitter
    part: drum/shaft
    basis: measured
    what: The shaft is worn.
    grade: watch
    measurement: 0.2 mm
    limit: LIMIT
"""
FINDING = {
    "id": "f-001",
    "date": "2021-01-01",
    "by": "fitter",
    "basis": "measured",
    "what": "Worn",
    "grade": "act",
}
DECISION = {
    "witnessmark": 1,
    "id": "2024-001",
    "title": "A winch",
    "question": "What now?",
    "aim": {"what": "Hold.", "because": "It is used."},
    "about": ["drum/shaft"],
    "policy": "2020-01",
    "state": "draft",
    "opened": "2024-01-01",
    "proposed_by": "fitter",
}


def library(limit: str = "0.5 mm") -> Library:
    files = {"winch/machine.yml": MACHINE, "winch/findings.yml": FINDINGS.replace("LIMIT", limit)}
    return assemble(Folder("museum", {name: text.encode() for name, text in files.items()}))


@pytest.mark.parametrize(
    ("day", "kept", "since", "shows"),
    [
        (date(1999, 1, 1), "reserve", "2005-05-01", ""),
        (date(2012, 4, 30), "reserve", "2005-05-01", ""),
        (date(2012, 5, 1), "running", "2012-05-01", "How a load is held by hand"),
        (date.max, "running", "2012-05-01", "How a load is held by hand"),
    ],
)
def test_the_way_of_keeping_is_that_of_the_day(
    day: date, kept: str, since: str, shows: str
) -> None:
    view = machine_view(library(), "winch", day)
    assert (kept, since, shows) == (view["kept"], view["kept_since"], view["running_shows"])


def test_parts_are_singled_out_by_what_machine_yml_says_of_them() -> None:
    view = machine_view(library(), "winch", date.max)
    assert ["drum/bolts"] == view["tacked"]
    assert ["drum/studs"] == view["bearing_marks"]
    assert ["drum/hooks"] == view["handed"]
    assert ["drum/shaft"] == view["highly_stressed"]
    assert ["drum/bush"] == view["last_known"]


def test_a_finding_knows_what_its_part_was_made_to_do() -> None:
    museum = library()
    (finding,) = museum.findings_of("winch")
    assert "last" == finding_view(finding, machine="winch", library=museum)["made_to"]


def test_a_finding_on_the_whole_machine_names_no_such_thing() -> None:
    finding = Finding.model_validate(FINDING)
    assert "" == finding_view(finding, machine="winch", library=library())["made_to"]


def test_a_limit_is_a_number_with_a_unit() -> None:
    assert [] == list(check_measured(library()))
    (told,) = check_measured(library("half"))
    assert ("WM071", 12) == (told.code, told.line)


def seal(**more: str) -> str:
    facts = Facts(
        machine="winch",
        kept="running",
        carried_by={},
        scope={},
        findings=(Finding.model_validate(FINDING | more),),
        lots=(),
        policy="2020-01",
        policy_digest="00",
    )
    return seal_of(judgement_of(Decision.model_validate(DECISION), facts))


@pytest.mark.parametrize(
    "more", [{"limit": "0.5 mm"}, {"limit_from": "Handbook"}, {"cause": "Run dry"}]
)
def test_limit_and_cause_of_a_finding_are_part_of_what_is_agreed(more: dict[str, str]) -> None:
    assert seal() != seal(**more)
