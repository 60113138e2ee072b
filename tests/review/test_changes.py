"""What a review tells of each kind of change, and what of it needs a person."""

from __future__ import annotations

from typing import Any

import pytest

from building import (
    BASE,
    DECISION,
    FINDINGS,
    GONE,
    MACHINE,
    MUSEUM,
    PEOPLE,
    POLICY,
    STORES,
    Changes,
    changed,
    done,
    plainly,
    written,
)
from reviewing import kinds, needing, on_top, review
from witnessmark.model.words import State
from witnessmark.weighing.changes.state import MOVES, passing_through

DISSENT = [{"who": "fitter", "what": "Oil is enough", "answer": "Not here"}]
LOSS = [{"what": "The old wear", "recorded_by": ["photograph"]}]
PHOTO = {"file": "photos/a.svg", "alt": "A bush in its housing", "caption": "Worn"}
SEALED = {
    "role": "collections", "by": "curator", "date": "2024-03-02",
    "seal": "wm1:" + "0" * 64, "words": "wm1w:" + "0" * 64,
}  # fmt: skip

# name: (what the base has besides, what the head changes, the kind that must be told, if a person)
CASES: dict[str, tuple[Changes, Changes, str, bool]] = {
    "a flip": ({}, {DECISION: {"options.1.answers.drops.after": "1C"}}, "flip", True),
    "a choice": ({}, {DECISION: {"choice.option": "leave"}}, "choice", True),
    "an option gone": ({}, {DECISION: {"options.2": GONE}}, "option-removed", True),
    "a hazard gone": ({}, {DECISION: {"hazards.0": GONE}}, "hazard-removed", True),
    "a dissent gone": (
        {DECISION: {"choice.dissent": DISSENT}}, {DECISION: {"choice.dissent": "none raised"}},
        "dissent-removed", True,
    ),
    "one dissent of two gone": (
        {DECISION: {"choice.dissent": [*DISSENT, {**DISSENT[0], "who": "curator"}]}},
        {DECISION: {"choice.dissent": DISSENT}}, "dissent-removed", True,
    ),
    "a loss gone": ({DECISION: {"losses": LOSS}}, {DECISION: {"losses": "none"}},
                    "loss-removed", True),
    "an agreement gone": (
        {DECISION: {"agreed": [SEALED]}}, {DECISION: {"agreed": GONE}}, "agreement-removed", True,
    ),
    "an agreement that never was": (
        {}, {DECISION: {"agreed": [SEALED]}}, "seal-void", True,
    ),
    "a must newly broken": ({}, {DECISION: {"options.1.steps.0.label": GONE}}, "rule-new", False),
    "a record for publishing": ({}, {DECISION: {"publish": True}}, "public", True),
    "a record taken back": (
        {DECISION: {"publish": True}}, {DECISION: {"publish": False}}, "private", False,
    ),
    "a picture for publishing": (
        {DECISION: {"photos": [PHOTO]}}, {DECISION: {"photos": [{**PHOTO, "public": True}]}},
        "public", True,
    ),
    "a finding for publishing": ({}, {FINDINGS: {"findings.0.public": True}}, "public", True),
    "a name for publishing": ({}, {PEOPLE: {"people.0.public_name": "A Curator"}}, "public", True),
    "money for publishing": ({}, {MUSEUM: {"shown": {"money": True}}}, "public", True),
    "a state going back": (
        {DECISION: {"state": "agreed"}}, {DECISION: {"state": "for-review"}}, "state-back", True,
    ),
    "a state going on": ({}, {DECISION: {"state": "draft"}}, "state", False),
    "a policy edited under agreement": (
        {DECISION: {"state": "agreed"}},
        {POLICY: {"weights.running.safety": "2/5", "floors.running.safety": 1}},
        "policy-edited", True,
    ),
    "a policy nobody agreed under": ({}, {POLICY: {"floors.running.safety": 1}}, "policy", False),
    "a policy and a score": (
        {},
        {POLICY: {"floors.running.safety": 1}, DECISION: {"options.0.judged.use.likely": 2}},
        "policy-and-scores", True,
    ),
    "roles of a signer": (
        {DECISION: {"agreed": [SEALED]}}, {PEOPLE: {"people.0.roles.0.from": "2010-01-01"}},
        "around", True,
    ),
    "a judged level": ({}, {DECISION: {"options.0.judged.use.likely": 2}}, "score", False),
    "a cell": ({}, {DECISION: {"options.1.answers.lifting.after": "2D"}}, "risk", False),
    "metal lost": ({}, {DECISION: {"options.1.steps.0.fate": "lost"}}, "fabric", False),
    "an undo level with a reason": (
        {}, {DECISION: {"options.1.steps.1.undo": 4, "options.1.steps.1.because": "It drops out"}},
        "undo", False,
    ),
    "an undo level without one": ({}, {DECISION: {"options.1.steps.1.undo": 4}}, "undo", True),
    "a step": ({}, {DECISION: {"options.1.steps.1.material": "steel"}}, "step", False),
    "a word": ({}, {DECISION: {"choice.because": "Since"}}, "prose", False),
    "a reason of a level": ({}, {DECISION: {"options.0.judged.use.because": "Knocks"}},
                            "prose", False),
    "a field nobody thought of": ({}, {DECISION: {"until": "2030-01-01"}}, "other", False),
    "a machine's part": ({}, {MACHINE: {"assemblies.0.parts.1.made_to": "wear"}}, "around", False),
    "a lot": ({}, {STORES: {"lots.0.conditions": "Never to be sold"}}, "around", False),
    "a finding": ({}, {FINDINGS: {"findings.0.grade": "watch"}}, "around", False),
    "a second look": ({}, {DECISION: {"look_again.date": "2030-01-01"}}, "work", False),
    "a second judgement": (
        {},
        {DECISION: {"options.0.judged.use.second":
                    [{"by": "fitter", "date": "2024-02-25", "likely": 1, "because": "Knocks"}]}},
        "option", False,
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", CASES)
def test_each_kind_of_change_is_told(name: str) -> None:
    before, changes, expected, needs = CASES[name]
    found = review(changes, before=before)
    assert expected in kinds(found)
    assert needs == (expected in needing(found))


@pytest.mark.parametrize("name", CASES)
def test_a_review_of_nothing_is_empty_whatever_the_museum_holds(name: str) -> None:
    before, changes, _, _ = CASES[name]
    there = {file: on_top(before.get(file, {}), changes.get(file, {})) for file in
             {*before, *changes}}  # fmt: skip
    assert review(before=there).is_empty


def test_another_layout_of_every_file_is_no_change() -> None:
    found = review(also={file: written(plainly(text)) for file, text in BASE.items()})
    assert (True, 0) == (found.is_empty, found.exit_code)


def test_a_moved_file_is_the_same_record() -> None:
    moved = {"winch/2024-001-another-name.yml": BASE[DECISION]}
    assert review(also=moved, without=(DECISION,)).is_empty


def test_a_record_under_another_machine_needs_a_person() -> None:
    moved = {"sister/2024-001-drum-bush.yml": BASE[DECISION]}
    assert "moved" in needing(review(also=moved, without=(DECISION,)))


def test_a_deleted_record_needs_a_person() -> None:
    assert "deleted" in needing(review(without=(DECISION,)))


def test_a_record_that_can_no_longer_be_read_needs_a_person() -> None:
    assert "unreadable" in needing(review(also={DECISION: "- a list\n"}))


def test_a_new_policy_with_a_new_record_is_a_warning() -> None:
    later = changed(BASE[DECISION], {"id": "2024-002", "policy": "2024-01"})
    policy = changed(BASE[POLICY], {"valid_from": "2024-01-01"})
    found = review(also={"winch/2024-002-x.yml": later, "policy/2024-01.yml": policy})
    assert "policy-and-scores" in needing(found)


def test_a_new_record_has_a_sheet_with_every_blank_named() -> None:
    later = changed(
        BASE[DECISION],
        {"id": "2024-002", "options.1.answers.drops": GONE, "options.0.judged.use": GONE},
    )
    (sheet,) = review(also={"winch/2024-002-x.yml": later}).new
    assert ("leave: use is not judged", "rebush: hazard drops is not answered") == sheet.blanks


def test_where_proposer_and_judge_are_one_the_sheet_says_so() -> None:
    later = changed(BASE[DECISION], {"id": "2024-002", "judged_by.by": "fitter"})
    (sheet,) = review(also={"winch/2024-002-x.yml": later}).new
    assert ("fitter proposed the record and judged in it.",) == sheet.one_hand


def test_an_option_put_in_before_breaks_and_mends_no_rule_of_the_others() -> None:
    options: list[Any] = plainly(BASE[DECISION])["options"]
    without_label = {"options.1.steps.0.label": GONE}
    faulted = plainly(changed(BASE[DECISION], without_label))["options"]
    fresh = {**options[2], "id": "fresh"}
    found = review(
        {DECISION: {"options": [fresh, *faulted]}}, before={DECISION: {"options": faulted}}
    )
    assert [] == [c.says for c in found.changes if c.kind.value == "rule-mended"]


def test_the_score_at_which_a_ranking_flips_back_is_named() -> None:
    found = review({DECISION: {"options.1.answers.drops.after": "1C"}})
    (flip,) = [change for change in found.changes if change.kind.value == "flip"]
    (cause,) = flip.remarks
    assert "safety of rebush 2 to 0 (hazard drops 2E to 1C" in cause
    assert "Flips back if safety of rebush is 2 or more." in cause


def test_a_flip_by_the_policy_alone_names_the_policy() -> None:
    weights = {"authenticity": "9/10", "safety": "1/20", "reversibility": "1/20"}
    ranges = {name: [0, 1] for name in weights}
    found = review(
        {POLICY: {"weights.running": weights, "ranges.running": ranges}},
        before={DECISION: {"options.2.misses_aim": GONE}},
    )
    flips = [change for change in found.changes if change.kind.value == "flip"]
    assert ["Cause: the policy's weights, floors or values of levels changed."] == [
        remark for change in flips for remark in change.remarks
    ]


def test_a_changed_score_tells_who_why_and_on_what() -> None:
    found = review(
        {
            DECISION: {
                "options.0.judged.use": {
                    "likely": 1, "because": "It jams", "by": "engineer", "date": "2024-02-21",
                },
                "findings": ["f-001", "f-002"],
            },
            FINDINGS: {"findings.1": {
                "id": "f-002", "date": "2024-02-21", "by": "engineer", "basis": "seen",
                "what": "It jams", "grade": "act",
            }},
        }
    )  # fmt: skip
    (use,) = [c for c in found.changes if c.field == "options.leave.judged.use"]
    assert ("3", "1", "curator, now engineer") == (use.before, use.after, use.who)
    assert ("reason now: It jams", "new evidence: f-002") == use.remarks


def test_a_level_changed_on_the_old_reason_without_evidence_says_so() -> None:
    found = review({DECISION: {"options.1.judged.technique": {
        "likely": 4, "because": "Scraped by hand"}}})  # fmt: skip
    (technique,) = [c for c in found.changes if c.field == "options.rebush.judged.technique"]
    expected = {"the reason is as before", "the range is narrower", "no new evidence"}
    assert expected <= set(technique.remarks)


def test_stock_that_is_drawn_to_the_last_needs_a_person() -> None:
    step = {"do": "fit-old-stock", "part": "drum/bush", "from": "bushes", "count": 3,
            "like": "same"}  # fmt: skip
    agreed = {"state": "agreed", "options.1.steps.1": step}
    found = review({DECISION: agreed})
    (stock,) = [change for change in found.changes if change.kind.value == "stock"]
    assert ("3", "0", True) == (stock.before, stock.after, stock.needs_a_person)


def test_what_follows_a_changed_record_is_affected() -> None:
    later = changed(BASE[DECISION], {"id": "2024-002", "follows": ["2024-001"]})
    found = review(
        {DECISION: {"choice.option": "leave"}}, also_before={"winch/2024-002-x.yml": later}
    )
    told = [c.says for c in found.changes if c.kind.value == "affected" and c.record == "2024-002"]
    assert ["It follows or departs from 2024-001."] == told


def test_work_done_elsewhere_that_moves_a_score_is_told_of_the_unchanged_record() -> None:
    work = done("2023-009", steps="[{do: remove, part: drum/shaft, fate: lost}]")
    found = review(also={"winch/2023-009-shaft.yml": work})
    told = [c for c in found.changes if c.record == "2024-001"]
    assert "affected" in {c.kind.value for c in told}


def test_no_change_in_the_museum_passes_unseen() -> None:
    """Every scalar of the decision, changed one at a time, is told."""
    unseen = []
    for path, value in _scalars(plainly(BASE[DECISION])):
        if path in {"witnessmark", "id"}:
            continue
        other = _other(value)
        if review({DECISION: {path: other}}).is_empty:
            unseen.append(path)
    assert [] == unseen


def _scalars(value: Any, path: str = "") -> list[tuple[str, Any]]:
    if isinstance(value, dict):
        return [x for name, inner in value.items() for x in _scalars(inner, f"{path}.{name}")]
    if isinstance(value, list):
        return [x for n, inner in enumerate(value) for x in _scalars(inner, f"{path}.{n}")]
    return [(path.lstrip("."), value)]


def _other(value: Any) -> Any:
    if isinstance(value, bool):
        return not value
    if isinstance(value, int):
        return value - 1 if value > 3 else value + 1
    text = str(value)
    if len(text) == 2 and text[0].isdigit():
        return f"{text[0]}{'B' if text[1] != 'B' else 'C'}"
    return f"{text[:-1]}{'1' if text[-1] != '1' else '2'}"


@pytest.mark.parametrize("state", list(State))
def test_no_state_is_left_but_by_an_allowed_move(state: State) -> None:
    # The moves as the contract lists them: draft, for-review, agreed, under-way, done in a row
    # (draft and for-review both ways), the first three to withdrawn, agreed and done to replaced.
    listed = {
        ("draft", "for-review"), ("for-review", "draft"), ("for-review", "agreed"),
        ("agreed", "under-way"), ("under-way", "done"), ("draft", "withdrawn"),
        ("for-review", "withdrawn"), ("agreed", "withdrawn"), ("agreed", "replaced"),
        ("done", "replaced"),
    }  # fmt: skip
    assert {after for before, after in listed if before == state.value} == set(MOVES[state])


@pytest.mark.parametrize("back", [("agreed", "draft"), ("done", "agreed"), ("withdrawn", "draft")])
def test_there_is_no_way_back_from_agreement(back: tuple[str, str]) -> None:
    assert passing_through(State.named(back[0]), State.named(back[1])) is None
