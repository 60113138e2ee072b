"""How much a breach weighs in each state, when it rests, and a museum's own rules.

The weights follow the project's own design: a must blocks agreement, a should is comply or explain.
"""

from __future__ import annotations

from pathlib import Path

import pytest

import witnessmark.rules
from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.model.library import Folder, Library, assemble
from witnessmark.rules.own_rules import check_own_rules
from witnessmark.rules.report import Report
from witnessmark.rules.resting import what_rests_it
from witnessmark.rules.rulebook_check import check_rules, check_rules_around, load_shipped
from witnessmark.weighing.case import work_out

BASE = Path(witnessmark.rules.__path__[0]) / "case_base"
RECORD = "shore-press/2024-002-lever-bush.yml"
POLICY = "policy/2020-01.yml"
LOOK = "look_again: {date: 2027-03-01, or_after: 200 h running}\n"
NO_LOOK = (LOOK, "")
NO_WAY_BACK = ("    way_back: Press the new bush out and the old one in; nothing is cut.\n", "")
WAIVER = """waivers:
  - rule: decision-is-looked-at-again
    because: The press is given away next month.
    approver: {approver}
    until: {until}
"""
OWN = """own_rules:
  - id: aim-names-open-days
    code: WM901
    level: must
    title: The aim names the open days
    why: This museum runs machines on open days only.
    family: running-and-standing
    scope: decision
    sources:
      - {text: Our own judgement, standing: current, confidence: own-judgement}
    holds: decision.aim.contains("open days")
    message: "{decision.id} has the aim: {decision.aim}"
    remedy: Say what the machine should do on open days.
    at: [aim, what]
    cases:
      - name: It does
        verdict: passes
        record: |
          aim: {what: Press on open days, because: It runs}
      - name: It does not
        verdict: faulted
        lines: [1]
        record: |
          aim: {what: Press, because: It runs}
"""


def museum(*changes: tuple[str, str], policy: str = "") -> Library:
    files = {p.relative_to(BASE).as_posix(): p.read_bytes() for p in BASE.rglob("*.yml")}
    text = files[RECORD].decode()
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    files[RECORD] = text.encode()
    files[POLICY] += policy.encode()
    return assemble(Folder("decisions", files))


def told(*changes: tuple[str, str], policy: str = "") -> list[Diagnostic]:
    library = museum(*changes, policy=policy)
    entry = library.by_id["2024-002"]
    assert entry.value is not None
    case = work_out(entry.value, entry.machine, library)
    return list(check_rules(case, library, load_shipped(), Report(entry.shaped, entry.id)))


def in_state(state: str) -> tuple[str, str]:
    return ("state: agreed\n", f"state: {state}\n")


def test_the_sound_record_is_silent() -> None:
    assert [] == told()


@pytest.mark.parametrize("state", ["withdrawn", "replaced"])
def test_rules_say_nothing_of_a_record_nobody_relies_on_any_more(state: str) -> None:
    assert [] == told(in_state(state), NO_LOOK)


@pytest.mark.parametrize(
    ("state", "level"),
    [
        ("draft", Level.NOTE),
        ("for-review", Level.WARNING),
        ("agreed", Level.ERROR),
    ],
)
def test_a_broken_must_weighs_by_state(state: str, level: Level) -> None:
    (found,) = told(in_state(state), NO_LOOK)
    assert ("WM190", level) == (found.code, found.level)


@pytest.mark.parametrize(
    ("state", "level"),
    [
        ("draft", Level.NOTE),
        ("for-review", Level.WARNING),
        ("agreed", Level.WARNING),
    ],
)
def test_a_broken_should_weighs_by_state(state: str, level: Level) -> None:
    (found,) = told(in_state(state), NO_WAY_BACK)
    assert ("WM122", level) == (found.code, found.level)


def rests(rule: str, *changes: tuple[str, str]) -> str | None:
    library = museum(*changes)
    decision = library.by_id["2024-002"].value
    assert decision is not None
    wanted = next(r for r in load_shipped().rules if r.id == rule)
    return what_rests_it(wanted, decision, library)


def test_an_explained_should_rests() -> None:
    explained = "explained: [{rule: undo-is-described, because: See the drawing.}]\n" + LOOK
    changes = NO_WAY_BACK, (LOOK, explained)
    assert [] == told(*changes)
    assert rests("undo-is-described", *changes) == "Explained: See the drawing."


def test_a_must_is_not_explained_away() -> None:
    explained = "explained: [{rule: decision-is-looked-at-again, because: We will not.}]\n"
    (found,) = told((LOOK, explained))
    assert Level.ERROR is found.level


def test_a_should_explained_under_another_name_is_still_a_warning() -> None:
    explained = "explained: [{rule: intervention-is-least, because: No.}]\n" + LOOK
    (found,) = told(NO_WAY_BACK, (LOOK, explained))
    assert Level.WARNING is found.level


def test_a_valid_waiver_lets_a_must_rest_and_says_who_why_and_until() -> None:
    waiver = WAIVER.format(approver="trustee", until="2025-03-01")
    assert [] == told((LOOK, waiver))
    said = "Waived by trustee until 2025-03-01: The press is given away next month."
    assert said == rests("decision-is-looked-at-again", (LOOK, waiver))


@pytest.mark.parametrize(
    ("approver", "until", "said"),
    [
        ("fitter", "2025-03-01", "fitter proposed the decision"),
        ("curator", "2025-03-01", "curator did not hold the role governing on 2024-03-05."),
        ("nobody", "2025-03-01", "nobody did not hold the role governing on 2024-03-05."),
        ("trustee", "2027-01-01", "the policy lets it run until 2026-03-05 at most."),
        ("trustee", "2024-03-04", "it ended on 2024-03-04"),
    ],
)
def test_a_waiver_that_does_not_count_leaves_the_error_and_says_why(
    approver: str, until: str, said: str
) -> None:
    (found,) = told((LOOK, WAIVER.format(approver=approver, until=until)))
    assert Level.ERROR is found.level
    assert said in found.message


def test_a_rule_that_nobody_may_waive_rests_for_nobody() -> None:
    waiver = WAIVER.format(approver="trustee", until="2025-03-01")
    waiver = waiver.replace("decision-is-looked-at-again", "risk-is-above-the-floor")
    risky = ("{after: 2E, because: The new bush has the clearance of the drawing}", "{after: 1C}")
    (found,) = [d for d in told(risky, (LOOK, waiver + LOOK)) if d.code == "WM151"]
    assert Level.ERROR is found.level
    assert found.message.endswith("Its waiver does not count: nobody may waive this rule.")


RENEWED_ANSWER = "{after: 2E, because: The new bush has the clearance of the drawing}"
BEYOND = """worksheets:
  - id: clearance
    sheet: bearing-clearance
    given: {bore: 50.74 mm, journal: 50.00 mm, limit: 0.50 mm}
    bears_on: [lever-gear/bush]
"""


def below_the_floor(*changes: tuple[str, str]) -> str:
    """What WM151 says of the record with a worksheet beyond its limit on its bush."""
    (found,) = [d for d in told((LOOK, BEYOND + LOOK), *changes) if d.code == "WM151"]
    return found.message


def test_a_hazard_below_the_floor_is_not_blamed_on_a_worksheet_about_the_old_part() -> None:
    message = below_the_floor((RENEWED_ANSWER, "{after: 2C}"))
    assert "the worst risk it leaves is serious" in message
    assert "worksheet" not in message


@pytest.mark.parametrize(
    ("left", "said"),
    [
        ("4E", "a worksheet beyond its limit (clearance) holds its safety down"),
        ("2C", "the worst risk it leaves is serious"),
    ],
)
def test_a_worksheet_is_blamed_only_while_no_hazard_is_as_bad(left: str, said: str) -> None:
    answer = ("      slip: {after: 2C}", f"      slip: {{after: {left}}}")
    assert said in below_the_floor(("option: renew", "option: leave"), answer)


def test_a_breach_stands_at_its_line_in_the_file_with_why_and_remedy() -> None:
    every = told(("fate: stored, label: SP-0001, ", "fate: lost, "), ("losses: none", LOSS))
    (found,) = [one for one in every if one.level is Level.ERROR]
    lines = (BASE / RECORD).read_text().splitlines()
    line = next(n for n, text in enumerate(lines, 1) if "fate: stored" in text)
    assert ("WM131", line, f"decisions/{RECORD}", "2024-002") == (
        found.code,
        found.line,
        found.file,
        found.record,
    )
    assert "options[2].steps[0].fate" == found.field
    assert found.why
    assert found.fix


LOSS = "losses: [{what: The old bush, recorded_by: [photograph, drawing]}]"


def test_what_follows_from_a_piece_that_could_not_be_read_is_not_told() -> None:
    found = told((LOOK, "look_again: {date: soon}\n"))
    assert [] == found


def test_a_decision_that_cannot_be_scored_is_left_to_the_record_checks() -> None:
    assert [] == told(("policy: 2020-01", "policy: 2019-01"), NO_LOOK)


def test_machines_and_findings_are_asked_too() -> None:
    library = museum()
    files = {p.relative_to(BASE).as_posix(): p.read_bytes() for p in BASE.rglob("*.yml")}
    for name, old, new in (
        ("shore-press/machine.yml", b"{material: 2, form: 1, use: 2, technique: 1}", b"{}"),
        ("shore-press/findings.yml", b"    measurement: 0.62 mm\n", b""),
    ):
        assert old in files[name]
        files[name] = files[name].replace(old, new)
    broken = assemble(Folder("decisions", files))
    assert [] == list(check_rules_around(library, load_shipped()))
    assert [("WM101", Level.ERROR, 9), ("WM102", Level.NOTE, 7)] == [
        (d.code, d.level, d.line) for d in check_rules_around(broken, load_shipped())
    ]


def test_a_museums_own_rule_is_asked_like_the_others() -> None:
    assert [] == told(policy=OWN)
    (found,) = told(("on open days", "in summer"), policy=OWN)
    assert ("WM901", Level.ERROR, 5) == (found.code, found.level, found.line)


def own_faults(old: str, new: str) -> list[tuple[str, int, str]]:
    assert old in OWN
    library = museum(policy=OWN.replace(old, new))
    start = (BASE / POLICY).read_text().count("\n")
    found = list(check_own_rules(library))
    assert {"WM095"} == {d.code for d in found}
    assert {f"decisions/{POLICY}"} == {d.file for d in found}
    return [(d.field, d.line - start, d.message) for d in found]


def test_a_field_an_own_rule_misspells_is_told_at_its_line() -> None:
    ((field, line, message),) = own_faults("holds: decision.aim.", "holds: decision.amm.")
    assert ("own_rules[0].holds", 11) == (field, line)
    assert "decision has no field amm" in message


def test_an_own_rule_without_a_field_is_told() -> None:
    ((_, line, message),) = own_faults(
        "    remedy: Say what the machine should do on open days.\n", ""
    )
    assert (2, "`remedy` is missing.") == (line, message)


def test_an_own_rule_with_a_code_of_the_book_is_told() -> None:
    ((field, line, _),) = own_faults("code: WM901", "code: WM101")
    assert ("own_rules[0].code", 3) == (field, line)


def test_an_own_rule_whose_case_does_not_come_out_is_told() -> None:
    ((field, line, message),) = own_faults(
        "record: |\n          aim: {what: Press, ",
        "record: |\n          aim: {what: Press on open days, ",
    )
    assert ("own_rules[0].cases[1]", 20) == (field, line)
    assert "the rule complains of no line, the case says lines 1" in message


def test_two_own_rules_of_one_code_are_told() -> None:
    second = OWN.partition("\n")[2].replace("aim-names-open-days", "aim-speaks")
    library = museum(policy=OWN + second)
    assert ["Another rule of the policy is called WM901."] == [
        d.message for d in check_own_rules(library)
    ]


def test_an_own_rule_that_gives_no_answer_is_a_fault_of_the_policy_not_of_the_record() -> None:
    stumbling = OWN.replace(
        'holds: decision.aim.contains("open days")',
        'holds: decision.aim.contains("open days") && decision.findings[0].basis != "told"',
    )
    told_of = told(("findings: [f-001]\n", ""), policy=stumbling)
    assert [f"decisions/{POLICY}"] == [d.file for d in told_of if d.code == "WM095"]
