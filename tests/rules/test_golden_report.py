"""A record with four grave breaches, written by hand: each is told, and nothing else is.

The museum in golden/ is invented. Its seals are real, so the agreement fits the record: only what
was agreed is at fault. WITNESSMARK_GOLDEN=write renews the report after it was looked at.
"""

from __future__ import annotations

import os
import shutil
from datetime import date, timedelta
from pathlib import Path

from calling import DEMO, Record, call
from witnessmark.model.library import Library, assemble
from witnessmark.model.museum import Museum
from witnessmark.repository.disk import read_museum
from witnessmark.rules.facts import askings_of_decision
from witnessmark.rules.kept import what_rules_say
from witnessmark.rules.resting import waivers_by_end
from witnessmark.rules.rule import Standing
from witnessmark.rules.rulebook_check import load_shipped
from witnessmark.weighing.case import work_out

GOLDEN = Path(__file__).parent / "golden"
REPORT = GOLDEN / "report.txt"
PRESS = "press/2024-001-worn-bush.yml"
BREACHES = {
    "plating-is-known-before-wheel-or-flame": "WM155",
    "removed-part-is-kept": "WM131",
    "oil-fed-bearing-gets-oil": "WM180",
    "two-roles-agree": "WM160",
}
"""The bolts, the bush, the grease and the proposer's own signature, in the order of the file."""
EXPLAINED = (
    "explained:\n"
    "  - {rule: intervention-is-least, because: Built-up metal can never be taken off again.}\n"
)


def test_the_codes_looked_for_are_those_of_the_rules_named() -> None:
    codes = {rule.id: rule.code for rule in load_shipped().rules if rule.id in BREACHES}
    assert codes == BREACHES


def test_the_report_names_each_breach_and_nothing_else() -> None:
    told = call("check", str(GOLDEN / "museum"), "--format", "json").json["diagnostics"]
    assert list(BREACHES.values()) == [row["code"] for row in told]
    assert {"error"} == {row["level"] for row in told}


def test_the_report_reads_as_it_was_last_looked_at() -> None:
    out = call("check", str(GOLDEN / "museum")).out
    if os.environ.get("WITNESSMARK_GOLDEN") == "write":
        REPORT.write_text(out, encoding="utf-8")
    assert REPORT.read_text(encoding="utf-8") == out


def test_graver_breaches_come_before_lighter_ones_of_earlier_lines(tmp_path: Path) -> None:
    """Without its explanation the choice breaks a should, above the line of the signatures."""
    museum = tmp_path / "museum"
    shutil.copytree(GOLDEN / "museum", museum)
    record = Record(museum / PRESS)
    record.change(EXPLAINED, "")
    assert record.line_of("choice:") < record.line_of("agreed:")
    blocks = call("check", str(museum)).out.splitlines()
    heads = [line.split(":")[0] for line in blocks if line.startswith(("error ", "warning "))]
    grave = [f"error {code}" for code in BREACHES.values()]
    assert [*grave, "warning WM120", "warning WM081", "warning WM081"] == heads


def demo_museum() -> tuple[Library, Museum]:
    library = assemble(read_museum(DEMO))
    assert library.museum.value is not None
    return library, library.museum.value


def test_the_demo_shows_a_live_waiver_explained_shoulds_and_a_rule_of_its_own() -> None:
    library, museum = demo_museum()
    assert museum.demo_as_of is not None
    live = [one for one in waivers_by_end(library, on=museum.demo_as_of) if not one.has_ended]
    decisions = [entry.value for entry in library.decisions if entry.value]
    assert live
    assert sum(len(decision.explained) for decision in decisions) >= 3
    assert any(policy.own_rules for policy in library.policies.values())


def test_every_rule_that_rests_in_the_demo_would_be_broken_there() -> None:
    """A waiver or an explanation of a rule that is kept would show nothing."""
    library, _ = demo_museum()
    standings: list[Standing | None] = []
    for entry in library.decisions:
        assert entry.value is not None
        rested = [waiver.rule for waiver in entry.value.waivers]
        rested += [explained.rule for explained in entry.value.explained]
        case = work_out(entry.value, entry.machine, library)
        said = what_rules_say(load_shipped().rules, askings_of_decision(case, library))
        standings += [said.get(rule) for rule in rested]
    assert {Standing.BROKEN} == set(standings)


def test_a_waiver_of_the_demo_is_caught_on_the_day_after_its_last() -> None:
    library, _ = demo_museum()
    ends = [one.until for one in waivers_by_end(library, on=date.min)]
    assert ends
    for last in ends:
        ended = {
            day: [one.has_ended for one in waivers_by_end(library, on=day) if one.until == last]
            for day in (last, last + timedelta(days=1))
        }
        assert {False} == set(ended[last])
        assert {True} == set(ended[last + timedelta(days=1)])
