"""Advice that a policy switches off or holds as binding, and waivers by their end.

That no must may be switched off is the project's own plan; no text outside says it.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

import witnessmark.rules
from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.model.library import Folder, Library, assemble
from witnessmark.rules.check import check
from witnessmark.rules.house_rules import book_under, why_off
from witnessmark.rules.kept import rules_for
from witnessmark.rules.resting import waivers_by_end
from witnessmark.rules.rule import RuleLevel
from witnessmark.rules.rulebook_check import load_shipped

BASE = Path(witnessmark.rules.__path__[0]) / "case_base"
RECORD = "shore-press/2024-002-lever-bush.yml"
POLICY = "policy/2020-01.yml"
NO_WAY_BACK = ("    way_back: Press the new bush out and the old one in; nothing is cut.\n", "")
OFF = "rules_off:\n  - rule: undo-is-described\n    because: Our drawings show it.\n"
HELD = "held_as_must:\n  - rule: undo-is-described\n    because: We were caught out once.\n"
WAIVER = (
    "  - {rule: no-action-is-appraised, because: A reason., approver: trustee, until: 2025-03-01}\n"
)
LATER = "  - {rule: losses-are-listed, because: A reason., approver: trustee, until: 2025-09-01}\n"
LOOK = "look_again: {date: 2027-03-01, or_after: 200 h running}\n"


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
    """What the check says, less the seals, which the base museum only pretends to have."""
    found = check(museum(*changes, policy=policy), rulebook=load_shipped()).diagnostics
    return [one for one in found if one.code in {"WM122", "WM094", "WM095"}]


def test_a_should_that_the_policy_switches_off_is_not_asked() -> None:
    assert ["WM122"] == [one.code for one in told(NO_WAY_BACK)]
    assert [] == told(NO_WAY_BACK, policy=OFF)


def test_a_should_held_as_a_must_is_an_error_in_a_settled_record() -> None:
    assert [Level.WARNING] == [one.level for one in told(NO_WAY_BACK)]
    assert [Level.ERROR] == [one.level for one in told(NO_WAY_BACK, policy=HELD)]


def test_a_should_held_as_a_must_is_not_explained_away() -> None:
    explained = "explained: [{rule: undo-is-described, because: See the drawing.}]\n" + LOOK
    changes = NO_WAY_BACK, (LOOK, explained)
    assert [] == told(*changes)
    assert ["WM122"] == [one.code for one in told(*changes, policy=HELD)]


def test_an_explanation_of_a_rule_that_is_off_still_names_a_rule() -> None:
    explained = "explained: [{rule: undo-is-described, because: See the drawing.}]\n" + LOOK
    assert [] == told(NO_WAY_BACK, (LOOK, explained), policy=OFF)


@pytest.mark.parametrize(
    ("policy", "said"),
    [
        ("rules_off: [{rule: undo-is-descibed, because: A reason.}]\n", "undo-is-described"),
        ("rules_off: [{rule: no-such-thing-at-all, because: A reason.}]\n", "The book has no rule"),
        ("rules_off: [{rule: hazards-are-answered, because: A reason.}]\n", "cannot be switched"),
        ("rules_off: [{rule: losses-are-listed, because: A reason.}]\n", "cannot be switched off"),
        ("rules_off: [{rule: undo-is-described}]\n", "no reason is given"),
        ("held_as_must: [{rule: undo-is-described}]\n", "no reason is given"),
        ("held_as_must: [{rule: losses-are-listed, because: A reason.}]\n", "needs no holding"),
        (OFF + HELD, "is named twice"),
    ],
)
def test_a_fault_of_what_the_policy_says_stands_at_its_line(policy: str, said: str) -> None:
    (found,) = told(policy=policy)
    lines = (BASE / POLICY).read_text().count("\n")
    wrong = [n for n, text in enumerate(policy.splitlines(), 1) if "rule:" in text][-1]
    assert ("WM095", f"decisions/{POLICY}", lines + wrong) == (found.code, found.file, found.line)
    assert said in found.message


@pytest.mark.parametrize(
    "policy",
    [
        "rules_off: [{rule: undo-is-described}]\n",
        "rules_off: [{rule: losses-are-listed, because: A reason.}]\n",
    ],
)
def test_an_entry_with_a_fault_switches_nothing_off(policy: str) -> None:
    book = load_shipped().rules
    assert book == book_under("2020-01", museum(policy=policy), book=book)


def test_of_two_entries_for_one_rule_the_stricter_counts() -> None:
    library = museum(policy=OFF + HELD)
    kept = {rule.id: rule for rule in book_under("2020-01", library, book=load_shipped().rules)}
    assert RuleLevel.MUST is kept["undo-is-described"].level


def test_the_reason_for_switching_off_is_at_hand() -> None:
    rule = next(one for one in load_shipped().rules if one.id == "undo-is-described")
    assert "Our drawings show it." == why_off(rule, "2020-01", museum(policy=OFF))
    assert why_off(rule, "2020-01", museum()) is None


def test_what_pages_are_made_from_is_the_book_as_the_policy_keeps_it() -> None:
    book = load_shipped().rules
    kept = {rule.id for rule in rules_for("2020-01", museum(policy=OFF), book=book)}
    assert {"undo-is-described"} == {rule.id for rule in book} - kept


def test_an_own_rule_may_not_take_the_id_of_one_of_the_book() -> None:
    policy = "own_rules: [{id: losses-are-listed}]\n"
    said = [one.message for one in told(policy=policy)]
    assert "losses-are-listed is the id of a rule of the book." in said


def test_waivers_are_listed_by_their_end() -> None:
    library = museum((LOOK, "waivers:\n" + LATER + WAIVER + LOOK))
    found = waivers_by_end(library, on=date(2025, 6, 1))
    assert [("no-action-is-appraised", True), ("losses-are-listed", False)] == [
        (one.rule, one.has_ended) for one in found
    ]


def test_the_last_day_of_a_waiver_still_counts() -> None:
    library = museum((LOOK, "waivers:\n" + WAIVER + LOOK))
    (on_it,) = waivers_by_end(library, on=date(2025, 3, 1))
    (after,) = waivers_by_end(library, on=date(2025, 3, 2))
    assert (False, True) == (on_it.has_ended, after.has_ended)


def test_a_draft_has_no_waiver_that_anybody_relies_on() -> None:
    changes = (LOOK, "waivers:\n" + WAIVER + LOOK), ("state: agreed\n", "state: draft\n")
    assert () == waivers_by_end(museum(*changes), on=date(2025, 6, 1))


def test_a_waiver_that_ran_out_since_is_no_fault_of_the_record() -> None:
    changes = (LOOK, "waivers:\n" + WAIVER + LOOK)
    codes = {one.code for one in check(museum(changes), rulebook=load_shipped()).diagnostics}
    assert "WM089" not in codes
