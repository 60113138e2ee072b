"""Fields that records got after seals were given: absent they change no seal, present they count.

That an older seal must stay equal is the project's own contract; no text outside says it.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

import witnessmark.rules
from witnessmark.model.decision import Decision
from witnessmark.model.judgement import Facts, judgement_of
from witnessmark.model.prose import words_of
from witnessmark.model.shape import shape
from witnessmark.model.source import read

TRACTOR = Path(witnessmark.rules.__path__[0]) / "case_base/dune-tractor/2023-003-summer-service.yml"
FACTS = Facts("dune-tractor", "running", {}, {}, (), (), "2020-01", "digest")
CRUSH = "{id: crush, what: The tractor comes down on the fitter,"
STEP = "lubricant: oil, what: Mineral oil of the handbook's grade"
LOOK = "look_again: {date: 2026-03-01}\n"
BARE = "what: Mineral oil of the handbook's grade"


def sealed(text: str) -> Any:
    shaped = shape(read("case", text.encode()), Decision)
    assert shaped.whole, shaped.diagnostics
    assert shaped.value is not None
    return judgement_of(shaped.value, FACTS)


def words(text: str) -> Any:
    data = read("case", text.encode()).data
    assert isinstance(data, dict)
    return words_of(data)


def changed(old: str, new: str) -> str:
    text = TRACTOR.read_text()
    assert old in text
    return text.replace(old, new)


def test_a_hazard_and_an_option_without_them_are_sealed_as_ever() -> None:
    judgement = sealed(changed(STEP, BARE))
    assert {"id", "what", "when", "who", "before"} == set(judgement["hazards"][0])
    assert {"do", "parts", "what"} == set(judgement["options"][1]["steps"][0])
    assert "temporary" not in judgement["options"][1]
    assert "heard" not in judgement


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (CRUSH, f"{CRUSH} kind: pressure,"),
        (CRUSH, f"{CRUSH} found: unknown,"),
        (CRUSH, f"{CRUSH} part: springing/struts,"),
        (CRUSH, f"{CRUSH} survey: {{by: Surveyor, date: 2023-04-02, ref: Note 6}},"),
        (CRUSH, f"{CRUSH} made_safe: {{energy: 2 kJ, how: Blocked up, tested_by: Engineer}},"),
        (STEP, STEP.replace("oil,", "grease,")),
        (STEP, f"over: finished-floor, {STEP}"),
        (STEP, f"carried_on: carrier, {STEP}"),
        (STEP, f"rubber_left: 9 mm, {STEP}"),
        (STEP, f"comes_off_with: white spirit, {STEP}"),
        ("    title: Oil the axle\n", "    title: Oil the axle\n    temporary: true\n"),
        ("losses: none\n", "losses: none\nheard: [{by: curator, role: objector, what: No.}]\n"),
    ],
)
def test_what_they_say_is_under_the_seal(old: str, new: str) -> None:
    assert sealed(changed(old, new)) != sealed(TRACTOR.read_text())


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (STEP, f"suits: As on the card, {STEP}"),
        (STEP, f"residue: It is drained first, {STEP}"),
        (STEP, f"inspected: Bright and straight, {STEP}"),
        (STEP, f"conditions_met: As they asked, {STEP}"),
        (STEP, f"leaves: A tag in the bore, {STEP}"),
        ("interests: none declared\n", ""),
        ("conditions_kept: Nothing is welded", "conditions_kept: Nothing much is welded"),
        (LOOK, "replaces_because: It broke.\n" + LOOK),
    ],
)
def test_their_sentences_are_words_and_leave_the_seal_alone(old: str, new: str) -> None:
    text = changed(old, new)
    assert sealed(text) == sealed(TRACTOR.read_text())
    assert words(text) != words(TRACTOR.read_text())


def test_what_work_took_and_what_was_measured_change_no_seal() -> None:
    # DESIGN, section 7: neither digest covers work and look_again; that outcomes are outside too
    # follows from the fields that the seal names.
    text = TRACTOR.read_text(encoding="utf-8")
    more = f"{text}work: {{started: 2024-01-01, hours: 12, cost: 90, done_by: in-house}}\n"
    looked = more.replace(LOOK, LOOK.replace("}", ", measure: Play, expects: [1 mm, 2 mm]}"))
    assert looked != more
    assert (sealed(text), words(text)) == (sealed(looked), words(looked))
