"""From what was written to typed records: every fault of shape at its own place, none lost."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import BaseModel

from building import BASE, DECISION, MACHINE, PEOPLE, POLICY, STORES, plainly
from witnessmark.model.decision import Decision
from witnessmark.model.diagnostics import Diagnostic, Place
from witnessmark.model.findings import Findings
from witnessmark.model.machine import Machine
from witnessmark.model.museum import Museum
from witnessmark.model.people import People
from witnessmark.model.policy import Policy
from witnessmark.model.shape import Shaped, shape
from witnessmark.model.shape_faults import fields_at
from witnessmark.model.source import read
from witnessmark.model.stores import Stores

TEXTS: dict[str, type[BaseModel]] = {
    DECISION: Decision,
    MACHINE: Machine,
    PEOPLE: People,
    POLICY: Policy,
    STORES: Stores,
}


def shaped(text: str, model: type[BaseModel] = Decision) -> Shaped[Any]:
    return shape(read("museum/winch/record.yml", text.encode()), model, record="2024-001")


def faults(text: str, model: type[BaseModel] = Decision) -> list[Diagnostic]:
    return sorted(shaped(text, model).diagnostics, key=lambda d: (d.line, d.column))


def swapped(old: str, new: str, *, file: str = DECISION) -> str:
    """A file of the base museum with one piece of its text other, everything else in its place."""
    assert BASE[file].count(old) == 1, (BASE[file].count(old), old)
    return BASE[file].replace(old, new)


def place_of(piece: str, text: str) -> Place:
    """Where a piece of text that stands once starts, counted from 1."""
    assert text.count(piece) == 1, (text.count(piece), piece)
    before = text[: text.index(piece)]
    return Place(before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1)


@pytest.mark.parametrize("file", TEXTS)
def test_a_sound_file_is_read_whole(file: str) -> None:
    found = shaped(BASE[file], TEXTS[file])
    assert found.whole
    assert found.diagnostics == ()
    assert found.dropped == ()


# What is written instead of what, where it is reported, under which code, and a piece of the words.
ONE_FAULT = {
    "unknown field": ("judged_by: {", "judgd_by: {", "judgd_by", "WM012", '"judged_by"'),
    "unknown field within": ("way_back: P", "way_bak: P", "way_bak", "WM012", '"way_back"'),
    "unknown field in a step": (
        "tin bronze, marked:",
        "tin bronze, markd:",
        "markd",
        "WM012",
        '"marked"',
    ),
    "unknown word": ("state: for-review", "state: for-reveiw", "for-reveiw", "WM075", "for-review"),
    "unknown verb": ("do: lock-out", "do: lock-ot", "lock-ot", "WM075", '"lock-out"'),
    "unknown aspect": (
        "technique: {low: 3",
        "tecnique: {low: 3",
        "tecnique",
        "WM075",
        '"technique"',
    ),
    "a day that is none": ("2024-02-11", "2024-02-31", "2024-02-31", "WM076", "calendar"),
    "a day not written so": ("2024-02-11", "11.2.2024", "11.2.2024", "WM076", "as a date"),
    "off the scale": ("{likely: 3,", "{likely: 5,", "5", "WM077", "0 to 4"),
    "bad address": ("about: [drum/bush]", "about: [drumbush]", "drumbush", "WM078", "agreed form"),
    "bad risk": ("before: 2D", "before: 7D", "7D", "WM078", '"7D"'),
    "bad id": ("- id: rebush", "- id: Re_bush", "Re_bush", "WM078", '"Re_bush"'),
    "too long an id": ("- id: rebush", f"- id: {'r' * 65}", "r" * 65, "WM078", "agreed form"),
    "a range that falls": (
        "technique: {low: 3, likely: 4",
        "technique: {low: 4, likely: 3",
        "{low: 4",
        "WM079",
        "rise",
    ),
    "a blank": ("because: Steel runs on steel in the end", 'because: ""', '""', "WM073", "blank"),
    "a list for a word": (
        "title: Lock the winch and show it standing",
        "title: [Lock the winch]",
        "[Lock",
        "WM074",
        "kind",
    ),
    "a word for a list": ("findings: [f-001]", "findings: f-001", "f-001", "WM074", "kind"),
    "a word for fields": (
        "look_again: {date: 2027-03-01}",
        "look_again: 2027",
        "2027",
        "WM074",
        "",
    ),
    "text for a number": ("undo: 1,", "undo: one,", "one", "WM074", '"one"'),
    "one of two answers": (
        "lifting: {after: 2E, because: A stand carries the drum}",
        "lifting: {because: A stand}",
        "{because: A stand}",
        "WM069",
        "`after`",
    ),
    "a fit without like": (
        "{do: fit-new, part: drum/bush, like: same,",
        "{do: fit-new, part: drum/bush,",
        "{do: fit-new",
        "WM069",
        "like",
    ),
    "an empty list": ("about: [drum/bush]", "about: []", "[]", "WM074", ""),
}


@pytest.mark.parametrize("case", ONE_FAULT)
def test_every_shape_fault_is_reported_once_at_its_own_line_and_column(case: str) -> None:
    old, new, piece, code, words = ONE_FAULT[case]
    text = swapped(old, new)
    (found,) = faults(text)
    start = place_of(new, text)
    expected = Place(start.line, start.column + new.index(piece))
    assert expected == Place(found.line, found.column)
    assert code == found.code
    assert words in found.message
    assert found.fix
    assert "2024-001" == found.record


def test_a_missing_field_is_reported_where_its_record_starts() -> None:
    text = swapped("    title: Lock the winch and show it standing\n", "")
    (found,) = faults(text)
    assert ("WM072", "options[2].title") == (found.code, found.field)
    assert "`title` is missing." == found.message
    assert place_of("id: stop\n", text) == Place(found.line, found.column)


def test_a_field_without_a_value_is_blank() -> None:
    (found,) = faults(swapped("proposed_by: fitter", "proposed_by:"))
    assert ("WM073", "`proposed_by` is blank.") == (found.code, found.message)


def test_no_spelling_is_suggested_where_two_are_about_as_near() -> None:
    text = swapped("kind: renew-like-for-like", "kind: renew")
    (found,) = faults(text)
    assert "Did you mean" not in found.message
    assert "renew-equivalent" in found.fix


def test_no_spelling_is_suggested_that_is_far_off() -> None:
    (found,) = faults(swapped("proposed_by: fitter", "proposed_by: fitter\ncolour: red"))
    assert 'There is no field called "colour" here.' == found.message


def test_a_field_is_suggested_only_where_it_may_stand() -> None:
    (found,) = faults(swapped("proposed_by: fitter", "proposed_by: fitter\nwhy_nott: x"))
    assert 'There is no field called "why_nott" here.' == found.message


def test_an_unknown_field_that_looks_like_the_reader_s_own_mark_keeps_its_place() -> None:
    text = swapped("proposed_by: fitter", "proposed_by: fitter\n<list>: x")
    (found,) = faults(text)
    assert ("WM012", 'There is no field called "<list>" here.') == (found.code, found.message)
    assert place_of("<list>", text) == Place(found.line, found.column)


def test_a_list_of_numbers_that_is_too_short_is_told_in_words() -> None:
    text = swapped("safety: [0.3, 0.6]", "safety: [0.3]", file=POLICY)
    (found,) = faults(text, Policy)
    assert ("WM074", "ranges.running.safety") == (found.code, found.field)
    assert "More values are wanted in this list." == found.message


def test_a_list_of_numbers_that_is_too_long_is_told_in_words() -> None:
    text = swapped("safety: [0.3, 0.6]", "safety: [0.3, 0.6, 0.9]", file=POLICY)
    (found,) = faults(text, Policy)
    assert ("WM074", "ranges.running.safety") == (found.code, found.field)
    assert "Write fewer values." == found.fix


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("floors:", "fabric: {worst: 2}\nfloors:"),
        ("floors:", "fabric: {table: {untouched: {last: 5/4, wear: 1}}}\nfloors:"),
        ("floors:", "fabric: {table: {untouched: {last: 1, wear: -0.1}}}\nfloors:"),
        ("floors:", "verdict: {firm_chance: 90}\nfloors:"),
    ],
)
def test_a_share_in_the_policy_lies_between_0_and_1(old: str, new: str) -> None:
    (found,) = faults(swapped(old, new, file=POLICY), Policy)
    assert ("WM074", "Write a number from 0 to 1.") == (found.code, found.fix)


def test_what_carries_the_significance_does_not_weigh_less_than_nothing() -> None:
    text = swapped("{material: 2, form: 1,", "{material: 2, form: -1,", file=MACHINE)
    (found,) = faults(text, Machine)
    assert ("WM074", "Write a number of 0 or more.") == (found.code, found.fix)


TEN_FAULTS = {
    "quesion": ("question: The", "quesion: The"),
    "2024-02-31": ("2024-02-11", "2024-02-31"),
    "findings: f-001": ("findings: [f-001]", "findings: f-001"),
    "7D": ("before: 2D", "before: 7D"),
    "2X": ("drops: {after: 2C}", "drops: {after: 2X}"),
    "undo: one": ("undo: 1,", "undo: one,"),
    "likely: 5": ("use: {likely: 3", "use: {likely: 5"),
    "fat: stored": ("fate: stored", "fat: stored"),
    "lock-ot": ("do: lock-out", "do: lock-ot"),
    "gives_upp": ("gives_up: The", "gives_upp: The"),
}


def test_ten_faults_in_one_record_are_all_reported_in_one_run() -> None:
    text = BASE[DECISION]
    for old, new in TEN_FAULTS.values():
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    lines = {place_of(piece, text).line for piece in TEN_FAULTS}
    found = faults(text)
    assert len(lines) == 10
    assert lines <= {d.line for d in found}
    # A misspelt field is also missing under its right name: two of these ten are needed ones.
    missing = {d.field for d in found if d.code == "WM072"}
    assert {"question", "choice.gives_up"} == missing
    assert 12 == len(found)


def test_what_is_left_after_the_faulty_pieces_is_read() -> None:
    found = shaped(swapped("do: lock-out", "do: lock-ot"))
    assert not found.whole
    assert found.value is not None
    assert [0, 2, 0] == [len(o.steps) for o in found.value.options]
    assert ["leave", "rebush", "stop"] == [o.id for o in found.value.options]


def test_a_faulty_list_member_does_not_shift_the_places_of_later_ones() -> None:
    text = swapped("- id: leave\n    kind: leave-as-found", "- id: leave\n    knd: leave-as-found")
    found = shaped(text)
    assert found.value is not None
    assert ["rebush", "stop"] == [o.id for o in found.value.options]
    assert ("options", 1, "title") == found.as_written(("options", 0, "title"))
    assert ("options", 2, "steps", 0, "do") == found.as_written(("options", 1, "steps", 0, "do"))
    assert place_of("A new bush to the old size", text) == found.place(("options", 0, "title"))
    assert place_of("Lock the winch and show", text) == found.place(("options", 1, "title"))


def test_two_faulty_list_members_shift_nothing_either() -> None:
    text = swapped(
        "about: [drum/bush]", "about: [drumbush, drum/bush, DRUM/shaft, drum/shaft, drum/bolts]"
    )
    found = shaped(text)
    assert found.value is not None
    assert ("drum/bush", "drum/shaft", "drum/bolts") == found.value.about
    assert [1, 3, 4] == [found.as_written(("about", n))[1] for n in range(3)]


def test_the_places_of_a_whole_record_are_those_of_the_file() -> None:
    found = shaped(BASE[DECISION])
    assert place_of("A new bush to the old", BASE[DECISION]) == found.place(("options", 1, "title"))
    expected = Place(place_of("A new bush to the old", BASE[DECISION]).line, 5)
    assert expected == found.place(("options", 1, "title"), key=True)


def test_a_file_that_holds_no_fields_gives_no_record_and_says_why() -> None:
    found = shaped("- a\n- b\n")
    assert found.value is None
    assert not found.whole
    assert found.diagnostics


def test_a_fault_of_reading_and_one_of_shape_on_one_line_are_one_report() -> None:
    (found,) = faults(swapped("use: {likely: 3,", "use: {likely: yes,"))
    assert found.line == place_of("use: {likely: 3,", BASE[DECISION]).line


def test_the_fields_that_may_stand_at_a_path_are_named_as_written() -> None:
    assert "from" in fields_at(Decision, ("options", 0, "steps", 0))
    assert "source" not in fields_at(Decision, ("options", 0, "steps", 0))
    assert ["low", "likely", "high", "because", "by", "date", "second"] == fields_at(
        Decision, ("options", 0, "judged", "form")
    )
    assert {"what", "recorded_by", "where"} <= set(fields_at(Decision, ("losses", 0)))


scalars = (
    st.none()
    | st.booleans()
    | st.integers(-9, 99)
    | st.sampled_from(["", "yes", "2C", "drum/bush"])
)
scalars |= st.text(st.characters(min_codepoint=32, max_codepoint=0x17F), max_size=8)
names = st.sampled_from(sorted(fields_at(Decision, ()))) | st.sampled_from(
    ["part", "parts", "do", "form", "[key]", "<list>", "none", "because", "after", "id", "0", ""]
)
anything = st.recursive(
    scalars, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(names, inner, max_size=4)
)
MODELS = [Decision, Machine, People, Policy, Stores, Museum, Findings]


def _sites(data: Any, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    inside: list[tuple[str | int, Any]] = []
    if isinstance(data, dict):
        inside = list(data.items())
    elif isinstance(data, list):
        inside = list(enumerate(data))
    return [path, *(site for step, value in inside for site in _sites(value, (*path, step)))]


def _with(data: Any, path: tuple[str | int, ...], value: object) -> Any:
    if not path:
        return value
    copy: Any = list(data) if isinstance(data, list) else dict(data)
    copy[path[0]] = _with(copy[path[0]], path[1:], value)
    return copy


@settings(max_examples=150)
@given(data=st.dictionaries(names, anything, max_size=6), model=st.sampled_from(MODELS))
def test_nothing_that_is_written_makes_the_reader_stop(
    data: dict[str, Any], model: type[BaseModel]
) -> None:
    found = shaped(json.dumps(data, ensure_ascii=False), model)
    assert found.whole == (not found.diagnostics)
    assert all(d.line >= 1 and d.column >= 1 and d.message and d.fix for d in found.diagnostics)


SITES = _sites(json.loads(json.dumps(plainly(BASE[DECISION]))))[1:]


@settings(max_examples=200)
@given(site=st.sampled_from(SITES), value=anything)
def test_a_sound_record_with_anything_put_anywhere_is_still_read(
    site: tuple[str | int, ...], value: object
) -> None:
    data = _with(plainly(BASE[DECISION]), site, value)
    found = shaped(json.dumps(data, ensure_ascii=False))
    assert found.whole == (not found.diagnostics)
    for d in found.diagnostics:
        assert "  " not in d.message
        assert d.code.startswith("WM")
