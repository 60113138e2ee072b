"""Which files of a museum may be mended by the tool, and which are left alone."""

from __future__ import annotations

import pytest

from building import BASE, DECISION, FINDINGS, POLICY, folder
from witnessmark.model.library import Folder, assemble
from witnessmark.rules.check import check
from witnessmark.rules.correcting import Mending, mend, told
from witnessmark.rules.rulebook_check import load_shipped

SLIP = ("misses_aim:", "mises_aim:")
SIGNED = 'agreed:\n  - {role: collections, by: curator, date: 2024-03-01, seal: "-", words: "-"}\n'


def slipped(*changes: tuple[str, str], file: str = DECISION, also: str = "") -> Folder:
    text = BASE[file]
    for before, after in changes:
        assert before in text
        text = text.replace(before, after, 1)
    return folder(also={file: text + also})


def mending(museum: Folder, *, under: str = "") -> Mending:
    return mend(museum, rulebook=load_shipped(), under=under)


@pytest.mark.parametrize("state", ["draft", "for-review", "darft"])
def test_a_record_still_written_is_mended(state: str) -> None:
    (one,) = mending(slipped(SLIP, ("state: for-review", f"state: {state}"))).files
    assert "    misses_aim: It" in one.after.text


@pytest.mark.parametrize(
    "state", ["agreed", "under-way", "done", "withdrawn", "replaced", "agred", "finished"]
)
def test_a_record_that_is_or_may_be_agreed_is_never_touched(state: str) -> None:
    found = mending(slipped(SLIP, ("state: for-review", f"state: {state}")))
    assert () == found.files
    assert ["museum/winch/2024-001-drum-bush.yml"] == [file for file, _ in found.closed]


def test_a_record_with_one_signature_is_never_touched() -> None:
    assert () == mending(slipped(SLIP, also=SIGNED)).files


def test_a_part_that_is_clearly_meant_is_named() -> None:
    (one,) = mending(slipped(("about: [drum/bush]", "about: [drum/bsh]"))).files
    assert BASE[DECISION] == one.after.text


def test_a_measurement_with_a_comma_is_mended_in_the_log() -> None:
    (one,) = mending(slipped(("0.74 mm", "0,74 mm"), file=FINDINGS)).files
    assert BASE[FINDINGS] == one.after.text


def test_a_policy_under_which_something_was_agreed_is_left_alone() -> None:
    museum = slipped(("floors:", "flors:"), file=POLICY)
    agreed = BASE[DECISION].replace("for-review", "agreed")
    assert 1 == len(mending(museum).files)
    files = {**museum.files, DECISION: agreed.encode()}
    assert () == mending(Folder("museum", files)).files


def test_only_what_lies_under_the_path_is_mended() -> None:
    assert () == mending(slipped(SLIP), under="museum/sister").files


def test_a_draft_gets_its_blanks_and_a_record_for_review_does_not() -> None:
    title = ("title: Why we made a new bush for the drum\n", "")
    assert () == mending(slipped(title)).files
    (one,) = mending(slipped(title, ("state: for-review", "state: draft"))).files
    assert one.after.text.endswith("\ntitle:\n")


def test_a_finding_that_can_be_mended_says_so_and_others_do_not() -> None:
    library = assemble(slipped(SLIP, ("likely: 3,", "likely: 7,")))
    found = told(check(library, rulebook=load_shipped()), library).diagnostics
    by_code = {one.code: one.fix for one in found}
    assert by_code["WM012"].endswith("`witnessmark fix 2024-001` does this for you.")
    assert "witnessmark fix" not in by_code["WM077"]


def test_a_fix_that_shows_lines_says_first_that_the_tool_does_it() -> None:
    library = assemble(slipped(("title: Leave the bush", "title: Leave: the bush")))
    found = told(check(library, rulebook=load_shipped()), library).diagnostics
    (fix,) = [one.fix for one in found if one.code == "WM004"]
    assert fix.startswith("`witnessmark fix 2024-001` does this for you. By hand: title: >-\n")


def test_a_finding_in_an_agreed_record_promises_nothing() -> None:
    library = assemble(slipped(SLIP, ("state: for-review", "state: agreed")))
    found = told(check(library, rulebook=load_shipped()), library).diagnostics
    assert not [one for one in found if "witnessmark fix" in one.fix]
