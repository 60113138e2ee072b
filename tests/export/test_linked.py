"""The graph as other programs read it: rdflib, pyshacl, and the published vocabularies."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

import pyshacl
import pytest
import rdflib
from rdflib import RDF, RDFS, XSD, Literal, URIRef
from rdflib.namespace import PROV

from exported import PREFIXES, WEB, demo, demo_files, demo_graph, graph_of
from witnessmark.exchange.export.linked import linked_decision

CRM = "http://www.cidoc-crm.org/cidoc-crm/"
WM = rdflib.Namespace("https://witnessmark.example/terms#")
LIST = Path(__file__).with_name("crm_terms.tsv")


@cache
def crm_terms() -> dict[str, tuple[str, str, str, str]]:
    """Each term of CIDOC CRM 7.1: sort, what it stands under, domain and range."""
    lines = LIST.read_text(encoding="utf-8").splitlines()
    rows = [line.split("\t") for line in lines if not line.startswith("#")]
    return {row[0]: (row[1], row[2], row[3], row[4]) for row in rows}


@cache
def above(term: str) -> frozenset[str]:
    """A class and all that it stands under."""
    parents = crm_terms().get(term, ("", "", "", ""))[1].split("|")
    return frozenset({term}).union(*(above(parent) for parent in parents if parent))


def used(base: str) -> set[str]:
    """Every term of a vocabulary in the graph, wherever it stands."""
    terms = {term for triple in demo_graph() for term in triple if isinstance(term, URIRef)}
    return {str(term).removeprefix(base) for term in terms if str(term).startswith(base)}


def validate(graph: rdflib.Graph) -> tuple[bool, str]:
    shapes = rdflib.Graph().parse(data=demo_files("jsonld")["shapes.ttl"], format="turtle")
    conforms, _, text = pyshacl.validate(graph, shacl_graph=shapes)
    return conforms, text


def test_every_crm_term_is_a_term_of_cidoc_crm() -> None:
    assert set() == used(CRM) - set(crm_terms())


def test_every_prov_term_is_a_term_of_prov_o() -> None:
    # rdflib 7 carries PROV-O (W3C, 2013) as a closed namespace.
    known = {str(term).removeprefix(str(PROV)) for term in PROV.__annotations__}
    assert set() == used(str(PROV)) - known


def test_every_term_of_our_own_is_told_with_what_it_means() -> None:
    graph = demo_graph()
    untold = {term for term in used(str(WM)) if not graph.value(WM[term], RDFS.label)}
    assert set() == untold


def test_every_crm_property_keeps_its_domain_and_range() -> None:
    graph, wrong = demo_graph(), set()
    classes = {
        thing: {c for t in graph.objects(thing, RDF.type) for c in above(str(t).removeprefix(CRM))}
        for thing in set(graph.subjects())
    }
    for subject, name, value in graph:
        term = str(name).removeprefix(CRM)
        if not str(name).startswith(CRM):
            continue
        _, _, domain, range_ = crm_terms()[term]
        if domain not in classes[subject]:
            wrong.add((term, "domain", domain, str(subject)))
        if range_.startswith("E") and range_ not in classes.get(value, set()):
            wrong.add((term, "range", range_, str(value)))
        if not range_.startswith("E") and not isinstance(value, Literal):
            wrong.add((term, "literal", range_, str(value)))
    assert set() == wrong


def test_the_check_of_domains_sees_a_breach() -> None:
    assert "E39_Actor" not in above("E22_Human-Made_Object")
    assert "E18_Physical_Thing" in above("E22_Human-Made_Object")


def test_the_graph_keeps_to_its_shapes() -> None:
    assert (True, "") == (validate(demo_graph())[0], "")


OPTION = URIRef(f"{WEB}d/2025-006/#option-leave")
WORK = URIRef(f"{WEB}d/2024-003/#work")
SWAP = URIRef(f"{WEB}d/2024-003/#swap-1")
SCORE = URIRef(f"{WEB}d/2024-003/#score-rebush-use")
WAIVER = URIRef(f"{WEB}d/2025-006/#waived-new-part-is-marked-and-dated")
DECISION = URIRef(f"{WEB}d/2024-003/#decision")


def crm(name: str) -> URIRef:
    return URIRef(f"{CRM}{name}")


@pytest.mark.parametrize(
    ("subject", "name", "value", "message"),
    [
        (OPTION, RDF.type, crm("E11_Modification"), "A plan is a design, never an event."),
        (OPTION, RDF.type, PROV.Activity, "A plan is a design, never an event."),
        (SCORE, PROV.qualifiedAssociation, Literal("me"), "A score has one scorer"),
        (SCORE, crm("P140_assigned_attribute_to"), WORK, "A score is of one option."),
        (DECISION, RDFS.label, Literal("Another title"), "A decision has one title."),
    ],
)
def test_a_planted_fault_breaks_its_shape(
    subject: URIRef, name: URIRef, value: URIRef | Literal, message: str
) -> None:
    graph = rdflib.Graph()
    graph += demo_graph()
    assert (subject, None, None) in graph
    graph.add((subject, name, value))
    conforms, text = validate(graph)
    assert (False, True) == (conforms, message in text)


@pytest.mark.parametrize(
    ("subject", "name", "message"),
    [
        (SWAP, crm("P9_consists_of"), "In a swap something comes out."),
        (SWAP, crm("P9_consists_of"), "A removal belongs to work that was done."),
        (WORK, crm("P4_has_time-span"), "Work that was done has a time-span."),
        (WAIVER, crm("P141_assigned"), "A waiver lets one rule rest."),
        (WAIVER, WM.until, "A waiver ends on a day."),
        (SCORE, crm("P141_assigned"), "A score assigns one level"),
        (DECISION, crm("P14_carried_out_by"), "Somebody agreed to a decision."),
    ],
)
def test_what_is_left_out_breaks_its_shape(subject: URIRef, name: URIRef, message: str) -> None:
    graph = rdflib.Graph()
    graph += demo_graph()
    assert (subject, name, None) in graph
    graph.remove((subject, name, None))
    conforms, text = validate(graph)
    assert (False, True) == (conforms, message in text)


def test_a_level_beyond_the_scale_breaks_its_shape() -> None:
    graph = rdflib.Graph()
    graph += demo_graph()
    level = graph.value(SCORE, crm("P141_assigned"))
    assert level is not None
    graph.set((level, crm("P90b_has_upper_value_limit"), Literal("5", datatype=XSD.decimal)))
    assert not validate(graph)[0]


def test_a_swap_is_one_modification_with_a_removal_and_an_addition() -> None:
    found: Any = demo_graph().query(
        f"""{PREFIXES} SELECT ?class WHERE {{
          <{SWAP}> a crm:E11_Modification ; crm:P9_consists_of ?part . ?part a ?class
          FILTER (STRSTARTS(STR(?class), STR(crm:)))
        }} ORDER BY ?class"""
    )
    assert ["E79_Part_Addition", "E80_Part_Removal"] == [str(r[0]).removeprefix(CRM) for r in found]


@pytest.mark.parametrize("name", ["2025-006", "2026-006", "2023-004"])
def test_work_that_has_not_ended_is_no_event(name: str) -> None:
    # 2025-006 is under way, 2026-006 and 2023-004 are agreed; none has ended.
    graph = graph_of({"one.jsonld": demo_files("jsonld")[f"decisions/{name}.jsonld"]})
    events = [crm("E11_Modification"), crm("E80_Part_Removal"), crm("E79_Part_Addition")]
    assert [] == [e for e in (*events, crm("E12_Production")) if (None, RDF.type, e) in graph]


def test_a_part_from_a_donor_is_taken_from_one_machine_and_added_to_the_other() -> None:
    found: Any = demo_graph().query(
        f"""{PREFIXES} SELECT ?giver ?taker WHERE {{
          ?out a crm:E80_Part_Removal ; crm:P113_removed ?piece ; crm:P112_diminished ?giver .
          ?in a crm:E79_Part_Addition ; crm:P111_added ?piece ; crm:P110_augmented ?taker .
          ?giver a wm:Machine . ?taker a wm:Machine
        }}"""
    )
    machines = [f"{WEB}m/sister-dragline/#machine", f"{WEB}m/dragline/#machine"]
    assert [machines] == [[str(value) for value in row] for row in found]


def test_a_computed_score_names_the_program_and_no_person() -> None:
    score = URIRef(f"{WEB}d/2024-003/#score-rebush-material")
    graph = demo_graph()
    taken = graph.value(score, PROV.qualifiedAssociation)
    assert (None, WM.program) == (
        graph.value(score, crm("P14_carried_out_by")),
        graph.value(taken, PROV.agent),
    )


def test_no_file_asks_for_a_context_from_elsewhere() -> None:
    texts = {p: t for p, t in demo_files("jsonld").items() if p.endswith(".jsonld")}
    assert {dict} == {type(json.loads(text)["@context"]) for text in texts.values()}


def test_one_decision_alone_is_the_same_as_in_the_export() -> None:
    decision = next(d for d in demo().decisions if d.id == "2024-003")
    assert demo_files("jsonld")["decisions/2024-003.jsonld"] == linked_decision(decision, demo())
