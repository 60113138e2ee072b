"""The form a seal is taken of: frozen vectors of scheme wm1, and what its plain values look like.

RFC 8785 (JSON Canonicalization Scheme, 2020): for data that is text throughout and ASCII only, its
form is that of Python's json with sorted keys, no blanks and no escapes beyond those JSON needs, so
the standard library serves as the second opinion here.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from building import pieces, plainly
from witnessmark.model.decision import Decision
from witnessmark.model.findings import Finding
from witnessmark.model.judgement import Facts, digest, judgement_of, plain, seal_of, words_seal_of
from witnessmark.model.prose import words_of
from witnessmark.model.stores import Lot
from witnessmark.model.words import Aspect, MadeTo, Origin

SHORT = """\
witnessmark: 1
id: 2024-003
title: Oil again
question: Oil or grease?
aim: {what: Turn the drum, because: It runs}
about: [drum/bush]
policy: 2023-04
state: draft
opened: 2024-02-11
proposed_by: fitter
hazards: {none: {by: curator, because: It stands}}
options:
  - {id: oil, kind: service, title: Oil}
"""
LONG = """\
witnessmark: 1
id: 2024-004
title: A new bush
question: What should carry the drum?
aim: {what: Turn the drum, because: It runs}
about: [drum/shaft, drum/bush]
findings: [f-002, f-001]
policy: 2023-04
state: for-review
opened: 2024-02-11
until: 2030-01-01
proposed_by: fitter
judged_by: {by: curator, date: 2024-02-20}
worksheets:
  - {id: play, sheet: bearing-clearance, given: {bore: 65.74 mm}, bears_on: [drum/shaft, drum/bush]}
hazards:
  - {id: drops, what: It drops, when: afterwards, who: [public, crew], before: 2C}
options:
  - id: rebush
    kind: renew-like-for-like
    title: A new bush
    steps:
      - {do: remove, part: drum/bush, fate: stored, label: TB-1, place: store-a}
      - {do: fit-new, part: drum/bush, like: same, material: bronze, marked: On the end, undo: 3}
    consequences: {none: Nothing else is touched}
    answers: {drops: {after: 2E, because: New, controls: [{order: redesign, what: A new bush}]}}
    relies_on: [play]
    judged: {form: {low: 3, likely: 4, because: As built}}
    unaffected: {use: As built, spirit: As it was}
    misses_aim: It does not turn
    ruled_out: {by: owner, because: Not theirs}
  - id: leave
    kind: leave-as-found
    title: Leave it
    consequences: [{part: drum/shaft, becomes: scored, undo: 1, because: Dry}]
choice:
  {option: rebush, because: Best, gives_up: Wear, would_change_our_mind: Rust, dissent: none raised}
waivers: [{rule: a-rule, because: Why, approver: trustee, until: 2025-01-01}]
accepted_risk: {by: trustee, role: governing, until: 2025-01-01, because: Why}
"""
FINDING = {
    "id": "f-001",
    "date": "2024-01-10",
    "by": "fitter",
    "part": "drum/bush",
    "basis": "measured",
    "what": "Worn",
    "grade": "act",
    "measurement": "0.74 mm",
}
LOT = {"id": "bushes", "what": "Bushes", "count": 3, "origin": "as-built", "can_be_made": False}

# Computed once, when the scheme was fixed. A seal that no longer comes out so is another scheme.
SHORT_SEAL = "wm1:223686f60b6cbab1f505b07897ff0d32b4e27a94ce842bc0783cd2adcdcbc797"
LONG_SEAL = "wm1:5738306aa0a13b74bd2f0d2a8f0dee61666b31fc7b4b62fbb9cfc083deeec620"
LONG_WORDS = "wm1w:546e3afe6258a9a3eed67944c214037b7d9fae4571dfa639e40114a23d7845fe"


def decision(text: str) -> Decision:
    return Decision.model_validate(plainly(text))


def facts(**other: Any) -> Facts:
    given: dict[str, Any] = {
        "machine": "winch",
        "kept": "running",
        "carried_by": {Aspect.USE: Fraction(2), Aspect.MATERIAL: Fraction(1, 2)},
        "scope": {"drum/bush": (pieces(),)},
        "findings": (),
        "lots": (),
        "policy": "2023-04",
        "policy_digest": "00",
    }
    return Facts(**(given | other))


LONG_FACTS = facts(
    scope={
        "drum/shaft": (pieces(made_to=MadeTo.LAST, last_known=True, can_be_made="unknown"),),
        "drum/bush": (pieces(count=2), pieces(origin=Origin.MUSEUM_MADE)),
    },
    findings=(Finding.model_validate(FINDING),),
    lots=(Lot.model_validate(LOT),),
)


def outside(value: object) -> str:
    """SHA-256 over the standard library's JSON."""
    text = json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()


def test_the_short_record_has_the_seal_it_was_given_when_the_scheme_was_fixed() -> None:
    assert SHORT_SEAL == seal_of(judgement_of(decision(SHORT), facts()))


def test_the_long_record_has_the_seal_it_was_given_when_the_scheme_was_fixed() -> None:
    assert LONG_SEAL == seal_of(judgement_of(decision(LONG), LONG_FACTS))


def test_the_words_of_the_long_record_have_their_digest() -> None:
    assert LONG_WORDS == words_seal_of(words_of(plainly(LONG)))


def test_the_judgement_of_the_short_record_is_this_text() -> None:
    """Written out by hand from the contract, so that form and content are both fixed."""
    text = (
        '{"about":["drum/bush"],"accepted_risk":null,"aim":"Turn the drum",'
        '"carried_by":{"material":"1/2","use":"2"},"choice":null,"findings":[],'
        '"hazards":{"none":"curator"},"id":"2024-003","kept":"running","lots":[],'
        '"machine":"winch","options":[{"answers":{},"consequences":[],"id":"oil","judged":{},'
        '"kind":"service","misses_aim":false,"not_applicable":[],"relies_on":[],"ruled_out":null,'
        '"steps":[],"unaffected":[]}],"policy":{"digest":"00","id":"2023-04"},'
        '"scheme":"wm1","scope":{"drum/bush":[{"can_be_made":true,"count":"1","last_known":false,'
        '"made_to":"wear","origin":"as-built"}]},"until":null,"waivers":[],"worksheets":[]}'
    )
    assert SHORT_SEAL == "wm1:" + hashlib.sha256(text.encode("ascii")).hexdigest()


@pytest.mark.parametrize(("text", "given"), [(SHORT, facts()), (LONG, LONG_FACTS)])
def test_the_standard_library_reckons_the_same_seal(text: str, given: Facts) -> None:
    judgement = judgement_of(decision(text), given)
    assert "wm1:" + outside(judgement) == seal_of(judgement)


def test_the_standard_library_reckons_the_same_digest_of_the_words() -> None:
    words = words_of(plainly(LONG))
    assert "wm1w:" + outside(words) == words_seal_of(words)


ascii_text = st.text(st.characters(min_codepoint=32, max_codepoint=126), max_size=12)
text_data = st.recursive(
    st.none() | st.booleans() | ascii_text,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(ascii_text, inner, max_size=4),
)


@given(text_data)
def test_any_ascii_data_has_the_digest_the_standard_library_gives(value: object) -> None:
    assert outside(value) == digest(value)


def _leaves(value: object) -> list[object]:
    if isinstance(value, dict):
        return [leaf for member in value.values() for leaf in _leaves(member)]
    if isinstance(value, list):
        return [leaf for member in value for leaf in _leaves(member)]
    return [value]


def test_a_judgement_holds_no_number() -> None:
    leaves = _leaves(judgement_of(decision(LONG), LONG_FACTS))
    assert {str, bool, type(None)} == {type(leaf) for leaf in leaves}


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (Decimal("1.50"), "1.50"),
        (Fraction(3, 4), "3/4"),
        (Fraction(2), "2"),
        (7, "7"),
        (True, True),
        (None, None),
        (date(2024, 2, 29), "2024-02-29"),
        (Origin.AS_BUILT, "as-built"),
        ("Cafe\u0301", "Caf\u00e9"),
        ({"Cafe\u0301": ("a", 1)}, {"Caf\u00e9": ["a", "1"]}),
    ],
)
def test_every_value_becomes_plain_text(value: object, expected: object) -> None:
    assert expected == plain(value)


def test_what_no_record_holds_is_not_sealed() -> None:
    with pytest.raises(TypeError, match="a record holds no object"):
        plain(object())


def test_sets_are_sorted_and_steps_keep_their_order() -> None:
    judgement = judgement_of(decision(LONG), LONG_FACTS)
    assert ["drum/bush", "drum/shaft"] == judgement["about"]
    assert ["leave", "rebush"] == [one["id"] for one in judgement["options"]]
    assert ["crew", "public"] == judgement["hazards"][0]["who"]
    assert ["spirit", "use"] == judgement["options"][1]["unaffected"]
    assert ["remove", "fit-new"] == [step["do"] for step in judgement["options"][1]["steps"]]


def test_low_and_high_are_sealed_as_they_are_read() -> None:
    judged = judgement_of(decision(LONG), LONG_FACTS)["options"][1]["judged"]["form"]
    expected = {"low": "3", "likely": "4", "high": "4", "by": "curator", "date": "2024-02-20"}
    assert expected == judged


def sentences(record: Mapping[str, Any]) -> list[object]:
    return _leaves(words_of(record))


def test_the_words_are_every_sentence_and_no_figure() -> None:
    found = sentences(plainly(LONG))
    assert {"A new bush", "What should carry the drum?", "It runs", "Best", "Dry"} <= set(found)
    assert {"none raised", "Nothing else is touched", "As built", "It does not turn"} <= set(found)
    assert {"2C", "drum/bush", "rebush", "curator", "2024-02-11"}.isdisjoint(found)


@pytest.mark.parametrize("field", ["agreed", "reckoned", "state", "look_again", "work", "outcome"])
def test_what_comes_after_agreement_is_outside_the_words(field: str) -> None:
    record = plainly(LONG)
    later = record | {field: [{"what": "Something", "because": "Later"}]}
    assert words_of(record) == words_of(later)


def test_a_record_without_words_has_an_empty_set_of_them() -> None:
    assert {} == words_of({"id": "2024-003"})
