"""What the public may see is a list of fields, and nothing outside it reaches any file."""

from __future__ import annotations

import re
from collections import defaultdict

import pytest
from pydantic import BaseModel

import canary_museum as canary
from rendered_site import site_of
from witnessmark.model.decision import Decision
from witnessmark.model.findings import Findings
from witnessmark.model.machine import Machine
from witnessmark.model.museum import Museum
from witnessmark.model.people import People
from witnessmark.model.policy import Policy
from witnessmark.model.stores import Stores

PUBLIC = frozenset(
    {
        "Aim.because Aim.what Answer.because Answer.none AcceptedRisk.because",
        "Assembly.id Assembly.name",
        "Choice.because Choice.gives_up Choice.would_change_our_mind Consequence.because",
        "Consequence.becomes Control.what Decision.departs_from_policy Decision.question",
        "Decision.departs_from_ranking Decision.title Departs.because Dissent.answer Dissent.what",
        "Elicited.answer Elicited.because Elicited.question Elicited.trade_off",
        "Emergency.because Explained.because Finding.instrument",
        "Finding.what Hazard.what HouseRule.because Judged.because KeptFrom.because",
        "LookAgain.or_after Loss.what",
        "Lot.what Machine.built Machine.name Machine.number Machine.what Museum.about Museum.name",
        "Museum.licence",
        "Museum.place Museum.web NoneBecause.none Option.later_cost Option.misses_aim Option.title",
        "Option.not_applicable Option.not_scored Option.unaffected Option.way_back Option.what",
        "Option.why_not Outcome.what Part.drawing Part.material Part.name Person.public_name",
        "Person.title",
        "Photo.alt Photo.caption Policy.own_rules Policy.statement Policy.title PutOff.because",
        "RuledOut.because",
        "Significance.state Significance.statement SignedNone.because Step.because Step.drawing",
        "Step.label Step.labels Step.marked Step.material Step.what UsedSheet.id Waiver.because",
        "Withheld.withheld Work.departures",
    }
)
"""Model.field of every text that may be shown: the lists of the design, and the names of things."""

ROOTS: tuple[type[BaseModel], ...] = (Museum, People, Stores, Policy, Machine, Findings, Decision)


def shown_tokens(skin: str) -> frozenset[str]:
    site = site_of(
        canary.library(),
        skin=skin,  # type: ignore[arg-type]
        pictures=canary.pictures(),
        versions=canary.versions(),
    )
    found: set[str] = set()
    for path, content in site.items():
        text = content if isinstance(content, str) else content.decode(errors="replace")
        found |= set(canary.TOKEN.findall(path)) | set(canary.TOKEN.findall(text))
    return frozenset(found)


def fields_of_tokens() -> dict[str, set[str]]:
    """Each token, with every Model.field it stands in."""
    found: dict[str, set[str]] = defaultdict(set)
    for record in canary.records(canary.library()):
        for where, text in canary.texts(record):
            for token in canary.TOKEN.findall(text):
                found[token].add(where)
    return found


@pytest.mark.parametrize("skin", ["plain", "themed"])
def test_only_fields_on_the_list_reach_the_site(skin: str) -> None:
    allowed = frozenset(" ".join(PUBLIC).split())
    fields = fields_of_tokens()
    leaks = {token: fields[token] for token in shown_tokens(skin) if not fields[token] & allowed}
    assert {} == leaks


def test_every_field_on_the_list_reaches_the_site() -> None:
    shown = shown_tokens("plain")
    fields = fields_of_tokens()
    seen = {where for token in shown for where in fields[token]}
    assert set() == set(" ".join(PUBLIC).split()) - seen


def test_the_canary_fills_every_field_of_every_model() -> None:
    filled: set[str] = set()
    models: set[type[BaseModel]] = set()

    def walk(value: object) -> None:
        if isinstance(value, BaseModel):
            models.add(type(value))
            filled.update(f"{type(value).__name__}.{name}" for name in value.model_fields_set)
            for name in type(value).model_fields:
                walk(getattr(value, name))
        elif isinstance(value, dict):
            for inner in value.values():
                walk(inner)
        elif isinstance(value, tuple | list):
            for inner in value:
                walk(inner)

    for record in canary.records(canary.library()):
        walk(record)
    assert set(ROOTS) <= models
    wanted = {
        f"{model.__name__}.{name}"
        for model in models
        for name in model.model_fields
        if not model.__name__.startswith("Fabric")  # tables of numbers, no text
    }
    assert set() == wanted - filled


NOWHERE = """
    ann ann_name bob bob_name ann_contact place place_name lot lot_giver lot_conditions
    consent_by consent_text decision_note hidden_finding_what step_note museum_contact
    2024-001_title 2024-002_title 2024-004_title 2024-006_title 2024-007_title
    withdrawn_because work_by dissent_who second_because
    told_by survey_by survey_ref safe_tested_by heard_what
    interest_who interest_what step_inspected step_conditions_met conditions_kept machine_conditions
    work_competence new_loss_because look_measure
"""


@pytest.mark.parametrize("name", NOWHERE.split())
def test_a_private_text_is_nowhere(name: str) -> None:
    assert canary.named_token(name) in fields_of_tokens()
    assert canary.named_token(name) not in shown_tokens("plain")


@pytest.mark.parametrize("number", ["4111", "4222", "91333", "91444"])
def test_money_and_hours_stay_private_until_the_museum_shows_them(number: str) -> None:
    site = site_of(canary.library())
    assert not [path for path, text in site.items() if number in str(text)]


def test_money_and_hours_are_shown_where_the_museum_says_so() -> None:
    shown = canary.MUSEUM.replace("money: false, hours: false", "money: true, hours: true")
    museum = canary.library_with("museum.yml", shown)
    page = str(site_of(museum)["d/2024-003/index.html"])
    assert ("4111 to 4222" in page, "91333 to 91444" in page) == (True, True)


@pytest.mark.parametrize("number", ["4333", "91555", "41.77", "41.66", "41.88", "41.55", "41.99"])
def test_what_the_work_took_and_what_was_measured_stay_in_the_house(number: str) -> None:
    shown = canary.MUSEUM.replace("money: false, hours: false", "money: true, hours: true")
    site = site_of(canary.library_with("museum.yml", shown))
    assert not [path for path, text in site.items() if number in str(text)]


@pytest.mark.parametrize("name", ["2024-001", "2024-002", "2024-004", "2024-006"])
def test_a_record_that_is_not_public_is_not_even_named(name: str) -> None:
    site = site_of(canary.library())
    assert not [path for path, text in site.items() if name in path or name in str(text)]


def test_a_withheld_record_shows_its_id_its_machine_and_the_reason() -> None:
    page = str(site_of(canary.library())["d/2024-007/index.html"])
    names = ("machine_name", "withheld")
    assert [canary.named_token(name) in page for name in names] == [True, True]


def test_a_picture_that_is_not_public_is_not_copied() -> None:
    site = site_of(canary.library(), pictures=canary.pictures())
    # A sketch is copied as it is, or drawn at several widths; its name comes first either way.
    copied = {re.split(r"[-.]", path)[0] for path in site if "/photos/" in path}
    assert {f"m/crane/photos/{name}" for name in ("decision", "shown", "work")} == copied
