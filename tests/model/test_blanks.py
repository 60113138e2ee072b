"""Blanks: a draft may hold them and is told what they are for; a record for review may not."""

from __future__ import annotations

import re

import pytest

from building import BASE, DECISION, MACHINE, museum
from witnessmark.model.blanks import BLANK
from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.rules.check import check
from witnessmark.rules.rulebook_check import load_shipped

DRAFT = BASE[DECISION].replace("state: for-review", "state: draft")


def found(text: str, *, file: str = DECISION) -> list[Diagnostic]:
    library = museum(also={file: text})
    checked = check(library, rulebook=load_shipped(), under=f"{library.root}/{file}")
    return list(checked.diagnostics)


def blanked(text: str, field: str) -> str:
    """The text with the first value of a field taken away."""
    emptied, count = re.subn(rf"^( *(?:- )?{field}:).*$", r"\1", text, count=1, flags=re.MULTILINE)
    assert 1 == count
    return emptied


@pytest.mark.parametrize("field", ["question", "gives_up", "before", "proposed_by"])
def test_a_blank_in_a_draft_is_a_note_and_in_a_record_for_review_an_error(field: str) -> None:
    levels = [
        {d.level for d in found(blanked(text, field)) if d.code == BLANK}
        for text in (DRAFT, BASE[DECISION])
    ]
    assert ({Level.NOTE}, {Level.ERROR}) == tuple(levels)


@pytest.mark.parametrize("field", ["question", "gives_up", "before"])
def test_no_blank_in_a_draft_leads_to_an_error_elsewhere(field: str) -> None:
    assert [] == [d for d in found(blanked(DRAFT, field)) if d.level is Level.ERROR]


def test_the_note_says_what_is_wanted_by_whom_and_shows_one() -> None:
    blank = next(d for d in found(blanked(DRAFT, "before")) if d.code == BLANK)
    assert (
        "`before` is still blank. Severity 1 to 4 and probability A to F as things stand; "
        "the safety officer fills it in, as in: 2C."
    ) == blank.message


def test_an_answer_half_begun_is_told_at_its_own_line() -> None:
    text = DRAFT.replace("drops: {after: 2C}", "drops:\n        after:")
    blank = next(d for d in found(text) if d.code == BLANK)
    assert (text.splitlines().index("        after:") + 1, "after") == (
        blank.line, blank.path[-1],
    )  # fmt: skip


def test_an_aspect_left_blank_is_explained_by_its_own_meaning() -> None:
    text = DRAFT.replace("use: {likely: 3, because: It turns but it knocks}", "use:")
    blank = next(d for d in found(text) if d.code == BLANK)
    assert "Use and function: whether it does its own work in its own way" in blank.message


def test_a_hazard_not_yet_graded_does_not_make_its_answers_point_to_nothing() -> None:
    assert "WM038" not in {d.code for d in found(blanked(DRAFT, "before"))}


def test_a_blank_outside_decisions_is_an_error_whatever_else_is_written() -> None:
    text = BASE[MACHINE].replace("what: A hand winch of 1931", "what:")
    assert {Level.ERROR} == {d.level for d in found(text, file=MACHINE) if d.code == BLANK}
