"""Nothing private is in any export, and nothing that the site does not show."""

from __future__ import annotations

import io
from functools import cache
from importlib import import_module

import pytest

import canary_museum as canary
from exported import published_json
from rendered_site import site_of
from witnessmark.exchange.export import export_files, read_published
from witnessmark.rules.rulebook import RuleBook

parquet = import_module("pyarrow.parquet")  # it has no type stubs
FORMATS = ("csv", "jsonl", "parquet", "jsonld")


def texts_of(found: dict[str, bytes]) -> str:
    """All text of some files, Parquet's columns written out, with their paths."""
    return "\n".join(
        f"{path}\n{_parquet(content) if path.endswith('.parquet') else content.decode()}"
        for path, content in found.items()
    )


def _parquet(content: bytes) -> str:
    return str(parquet.read_table(io.BytesIO(content)).to_pylist())


@cache
def exported(form: str) -> str:
    pictures = canary.pictures()
    found = published_json(canary.library(), book=RuleBook(()), pictures=pictures)
    if form != "json":
        found = export_files([read_published(found)], [form])
    return texts_of(found)


@cache
def on_the_site() -> str:
    site = site_of(canary.library(), pictures=canary.pictures(), versions=canary.versions())
    return "\n".join(str(text) for text in site.values())


@pytest.mark.parametrize("form", ["json", *FORMATS])
def test_an_export_holds_tokens_at_all(form: str) -> None:
    assert canary.named_token("rebush_title") in exported(form)


@pytest.mark.parametrize("form", ["json", *FORMATS])
def test_an_export_holds_only_what_the_site_shows(form: str) -> None:
    shown = set(canary.TOKEN.findall(on_the_site()))
    # An assembly's id is part of every part's address, which the site shows as a name; a machine's
    # page and its export give the address itself, as DESIGN keeps it public.
    addresses = {canary.named_token("assembly")}
    assert set() == set(canary.TOKEN.findall(exported(form))) - shown - addresses


NOWHERE = """
    ann ann_name bob bob_name ann_contact place place_name lot lot_giver lot_conditions consent_by
    consent_text decision_note hidden_finding_what step_note museum_contact 2024-001_title
    2024-006_title 2024-007_title withdrawn_because work_by dissent_who step_care step_made_by
    made_by done_made_by machine_owner source_where heard_what interest_what hidden_photo_alt
"""


@pytest.mark.parametrize("form", ["json", *FORMATS])
@pytest.mark.parametrize("name", NOWHERE.split())
def test_a_private_text_is_in_no_export(name: str, form: str) -> None:
    assert canary.named_token(name) not in exported(form)


@pytest.mark.parametrize("form", ["json", *FORMATS])
@pytest.mark.parametrize("number", ["4111", "4222", "91333", "91444", "4711 mm"])
def test_money_and_hours_are_in_no_export(number: str, form: str) -> None:
    assert number not in exported(form)


@pytest.mark.parametrize("form", ["json", *FORMATS])
@pytest.mark.parametrize("name", ["2024-001", "2024-002", "2024-004", "2024-006"])
def test_a_record_that_is_not_public_is_not_even_named(name: str, form: str) -> None:
    assert name not in exported(form)
