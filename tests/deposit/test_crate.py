"""The RO-Crate description, read by the rocrate library and by rdflib without the network."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
import rdflib
import rocrate
from rdflib.compare import graph_diff, to_isomorphic
from rocrate.rocrate import ROCrate

from depositing import Made
from witnessmark.exchange.deposit.crate import CONTEXT, EXPANDED, FOLDERS, METADATA, PROFILE

SHIPPED = Path(rocrate.__file__).parent / "data" / "ro-crate.jsonld"
"""The context that the rocrate library carries (of version 1.1 or later; terms are only added)."""


@pytest.fixture(params=["public", "sealed"])
def deposit(request: pytest.FixtureRequest) -> Made:
    found = request.getfixturevalue(request.param)
    assert isinstance(found, Made)
    return found


def crate_of(deposit: Made) -> dict[str, Any]:
    found = json.loads(deposit.text(f"data/{METADATA}"))
    assert isinstance(found, dict)
    return found


def entities(deposit: Made) -> dict[str, dict[str, Any]]:
    return {entity["@id"]: entity for entity in crate_of(deposit)["@graph"]}


def test_the_library_reads_it_and_finds_every_file_in_its_place(deposit: Made) -> None:
    crate = ROCrate(str(deposit.data))
    listed = [entity.id for entity in crate.data_entities]
    assert len(listed) > 20
    assert [] == [name for name in listed if not (deposit.data / name).exists()]


def test_it_says_which_version_it_keeps_to(deposit: Made) -> None:
    # RO-Crate 1.2, Metadata Descriptor: conformsTo and @context name the version.
    descriptor = entities(deposit)[METADATA]
    assert (CONTEXT, PROFILE) == (crate_of(deposit)["@context"], descriptor["conformsTo"]["@id"])
    assert "./" == descriptor["about"]["@id"]


@pytest.mark.parametrize("word", ["name", "description", "datePublished", "license"])
def test_the_root_has_what_the_specification_asks_for(deposit: Made, word: str) -> None:
    # RO-Crate 1.2, Root Data Entity, direct properties.
    assert entities(deposit)["./"][word]


def test_the_terms_are_those_of_the_museum_and_a_sealed_one_has_none(
    public: Made, sealed: Made
) -> None:
    licence = "https://creativecommons.org/licenses/by/4.0/"
    found = [entities(made)["./"]["license"]["@id"] for made in (public, sealed)]
    assert [licence, "#not-for-publication"] == found


def test_every_part_is_described_and_every_description_is_a_part(deposit: Made) -> None:
    known = entities(deposit)
    parts = {part["@id"] for part in known["./"]["hasPart"]}
    described = {name for name, e in known.items() if e["@type"] in {"File", "Dataset"}} - {"./"}
    assert described == parts


def test_every_folder_of_the_payload_is_told(deposit: Made) -> None:
    there = {path.name for path in deposit.data.iterdir() if path.is_dir()}
    told = {name.strip("/") for name, e in entities(deposit).items() if e["@type"] == "Dataset"}
    assert there == told - {"."}
    assert there <= set(FOLDERS)


def test_each_decision_is_named_with_its_title(public: Made) -> None:
    named = entities(public)["records/quay-crane/2024-003.yml"]
    wanted = "Decision 2024-003: Why we made new bronze bushes instead of fitting roller bearings"
    assert (wanted, {"@id": "#machine-quay-crane"}) == (named["name"], named["about"])


@pytest.mark.filterwarnings(
    "ignore:ConjunctiveGraph is deprecated:DeprecationWarning"
)  # rdflib's own
def test_the_expanded_form_says_the_same_as_the_form_with_a_context(deposit: Made) -> None:
    # The context shipped with the library stands in for the address, so nothing is fetched.
    context = json.loads(SHIPPED.read_text(encoding="utf-8"))["@context"]
    used = {"@context": context, "@graph": crate_of(deposit)["@graph"]}
    base = "https://example.org/deposit/"
    with_context = rdflib.Graph().parse(data=json.dumps(used), format="json-ld", publicID=base)
    expanded = rdflib.Graph().parse(
        data=deposit.text(f"data/{EXPANDED}"), format="json-ld", publicID=base
    )
    assert len(expanded) > 100
    _, only_here, only_there = graph_diff(to_isomorphic(expanded), to_isomorphic(with_context))
    assert ([], []) == (sorted(only_here), sorted(only_there))


def test_the_expanded_form_names_no_context(deposit: Made) -> None:
    assert "@context" not in deposit.text(f"data/{EXPANDED}")
