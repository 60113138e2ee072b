"""The public JSON: what it says, and that nothing of the public model is forgotten unsaid."""

from __future__ import annotations

import json
from dataclasses import fields
from typing import Any

import pytest
import yaml

from calling import DEMO
from exported import demo_json
from witnessmark.errors import WitnessmarkError
from witnessmark.exchange.export import names_wanted, read_published
from witnessmark.publish.public import PublicMachine
from witnessmark.publish.public_decision import PublicDecision

DECISION = "d/2024-003/decision.json"
ELSEWHERE = {
    *("aim_because", "because", "gives_up", "would_change_our_mind", "dissent"),  # under choice
    *("departs_from_ranking", "accepted_risk"),  # under choice
    *("started", "ended", "done_by", "as_done", "departures"),  # under work
    *("waived", "explained", "met", "broken"),  # under rules
    *("places", "sheets", "look_after"),  # as about, worksheets, look_again
}
LEFT_OUT = {"history", "met_before", "stock"}
"""Made for the page: from versions of the file, from other decisions, from what lies in store."""


def read(path: str) -> Any:
    return json.loads(demo_json()[path])


def test_every_field_of_a_public_decision_is_written_or_left_out_on_purpose() -> None:
    named = {field.name for field in fields(PublicDecision)}
    assert named - LEFT_OUT - ELSEWHERE == named & set(read(DECISION)["decision"])


def test_every_field_of_a_public_machine_is_written() -> None:
    named = {field.name for field in fields(PublicMachine)}
    assert named == set(read("m/quay-crane/machine.json")["machine"])


def test_it_says_its_format_its_museum_its_day_and_its_page() -> None:
    found = read(DECISION)
    told = [found[name] for name in ("witnessmark_public", "kind", "as_of", "page")]
    assert [1, "decision", "2026-09-15", "d/2024-003/"] == told


def test_scores_are_the_exact_figures_that_were_signed() -> None:
    # What was reckoned when it was signed stands in the record itself.
    path = DEMO / "quay-crane" / "2024-003-slewing-bushes.yml"
    signed = yaml.safe_load(path.read_text(encoding="utf-8"))["reckoned"]["options"]
    told = {
        option["id"]: {
            one["criterion"]: [one["score"][level] for level in ("low", "likely", "high")]
            for one in option["scores"]
        }
        for option in read(DECISION)["decision"]["options"]
    }
    assert told == {
        name: {word: given[word] for word in ("authenticity", "safety", "reversibility")}
        for name, given in signed.items()
    }


def test_museum_json_names_every_other_file() -> None:
    assert set(demo_json()) == set(names_wanted(demo_json()["museum.json"]))


@pytest.mark.parametrize(
    ("before", "after", "words"),
    [
        (b'"witnessmark_public": 1', b'"witnessmark_public": 2', "in format 1"),
        (b'"kind": "decision",', b'"kind": "machine",', "public data of a decision"),
        (b'"opened": "2024-02-11"', b'"opened": "in spring"', "decision.opened"),
        (b'"machine": "quay-crane"', b'"machine": "../x"', "decision.machine"),
        (b'"likely": "', b'"likely": "9e', "an exact figure is a text"),
        (b'"decision": {', b'"decision": [', "not a JSON text"),
    ],
)
def test_data_that_is_not_in_the_format_is_named_with_its_place(
    before: bytes, after: bytes, words: str
) -> None:
    text = demo_json()[DECISION]
    assert before in text
    with pytest.raises(WitnessmarkError, match=words) as caught:
        read_published({**demo_json(), DECISION: text.replace(before, after, 1)})
    assert DECISION in str(caught.value)


def test_a_missing_file_is_named() -> None:
    found = {path: text for path, text in demo_json().items() if path != DECISION}
    with pytest.raises(WitnessmarkError, match=DECISION):
        read_published(found)


def test_a_name_that_is_not_known_is_passed_over() -> None:
    text = demo_json()[DECISION].replace(b'"id": "2024-003"', b'"younger": 1, "id": "2024-003"', 1)
    assert read_published(demo_json()) == read_published({**demo_json(), DECISION: text})
