"""Exports as the tests look at them: the demo's published data, its files and its graph."""

from __future__ import annotations

import warnings
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import cache
from importlib.resources import files
from pathlib import Path

import rdflib

from rendered_site import AS_OF, DEMO
from witnessmark.exchange.export import Published, export_files, read_published
from witnessmark.model.library import Library, assemble
from witnessmark.publish import public_museum
from witnessmark.publish.public_json import public_files
from witnessmark.repository.disk import read_museum
from witnessmark.repository.prepared import prepared
from witnessmark.repository.site import read_pictures
from witnessmark.rules.rulebook import RuleBook
from witnessmark.rules.rulebook_check import load_shipped

PREFIXES = """
PREFIX crm: <http://www.cidoc-crm.org/cidoc-crm/>
PREFIX prov: <http://www.w3.org/ns/prov#>
PREFIX rdfs: <http://www.w3.org/2000/01/rdf-schema#>
PREFIX wm: <https://witnessmark.example/terms#>
"""
WEB = "https://marramquay.example/"


def published_json(
    library: Library, *, book: RuleBook, pictures: Mapping[str, bytes]
) -> dict[str, bytes]:
    """The public JSON of a museum, as its site has it."""
    return public_files(
        public_museum(library, book, as_of=AS_OF, pictures=prepared(pictures, library))
    )


@cache
def demo_json() -> dict[str, bytes]:
    """The public JSON of the demo museum."""
    folder = read_museum(DEMO)
    pictures = read_pictures(DEMO, folder.names)
    return published_json(assemble(folder), book=load_shipped(), pictures=pictures)


@cache
def demo() -> Published:
    """What the demo museum publishes."""
    return read_published(demo_json())


@cache
def demo_files(*formats: str) -> dict[str, bytes]:
    """The demo's export."""
    return export_files([demo()], formats)


@contextmanager
def rdflibs_own_warnings() -> Iterator[None]:
    """Lets rdflib 7 warn about a class that its own JSON-LD reader still uses."""
    with warnings.catch_warnings():
        warnings.filterwarnings("ignore", "ConjunctiveGraph is deprecated", DeprecationWarning)
        yield


def graph_of(exported: Mapping[str, bytes]) -> rdflib.Graph:
    """The graph of all JSON-LD of an export."""
    graph = rdflib.Graph()
    with rdflibs_own_warnings():
        for path, text in sorted(exported.items()):
            if path.endswith(".jsonld"):
                graph.parse(data=text, format="json-ld")
    return graph


@cache
def demo_graph() -> rdflib.Graph:
    """The demo's graph; whoever changes it takes a copy."""
    return graph_of(demo_files("jsonld"))


@cache
def demo_folder(where: Path) -> Path:
    """The demo's tables, written into a folder."""
    for path, text in demo_files("csv", "parquet", "jsonl").items():
        (where / path).write_bytes(text)
    return where


def guide() -> str:
    """The guide of questions as it is shipped."""
    return (files("witnessmark") / "guides" / "questions.md").read_text(encoding="utf-8")
