"""A record with four grave breaches, written by hand: each is told, and nothing else is.

The museum in golden/ is invented. Its seals are real, so the agreement fits the record: only what
was agreed is at fault. WITNESSMARK_GOLDEN=write renews the report after it was looked at.
"""

from __future__ import annotations

import os
from pathlib import Path

from calling import DEMO, call
from witnessmark.model.library import assemble
from witnessmark.repository.disk import read_museum
from witnessmark.rules.resting import waivers_by_end

GOLDEN = Path(__file__).parent / "golden"
REPORT = GOLDEN / "report.txt"
BREACHES = {
    "plating-is-known-before-wheel-or-flame": "WM155",
    "removed-part-is-kept": "WM131",
    "oil-fed-bearing-gets-oil": "WM180",
    "two-roles-agree": "WM160",
}


def test_the_report_names_each_breach_and_nothing_else() -> None:
    told = call("check", str(GOLDEN / "museum"), "--format", "json").json["diagnostics"]
    assert sorted(BREACHES.values()) == sorted(row["code"] for row in told)
    assert {"error"} == {row["level"] for row in told}


def test_the_report_reads_as_it_was_last_looked_at() -> None:
    out = call("check", str(GOLDEN / "museum")).out
    if os.environ.get("WITNESSMARK_GOLDEN") == "write":
        REPORT.write_text(out, encoding="utf-8")
    assert REPORT.read_text(encoding="utf-8") == out


def test_the_demo_shows_a_live_waiver_explained_shoulds_and_a_rule_of_its_own() -> None:
    library = assemble(read_museum(DEMO))
    museum = library.museum.value
    assert museum is not None
    assert museum.demo_as_of is not None
    live = [one for one in waivers_by_end(library, on=museum.demo_as_of) if not one.has_ended]
    decisions = [entry.value for entry in library.decisions if entry.value]
    assert live
    assert sum(len(decision.explained) for decision in decisions) >= 3
    assert any(policy.own_rules for policy in library.policies.values())


def test_a_waiver_that_has_run_out_is_caught() -> None:
    library = assemble(read_museum(DEMO))
    ends = {waiver.until for e in library.decisions if e.value for waiver in e.value.waivers}
    after = max(ends).replace(year=max(ends).year + 1)
    assert all(one.has_ended for one in waivers_by_end(library, on=after))
