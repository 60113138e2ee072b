"""Worksheets as the public sees them, made from what each sheet says about itself."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache
from typing import Any

from witnessmark.publish.public_decision import PublicDecision
from witnessmark.publish.public_worksheet import (
    PublicCitation,
    PublicExample,
    PublicFigure,
    PublicInput,
    PublicResult,
    PublicWorksheet,
)
from witnessmark.worksheets.describe import describe_sheet
from witnessmark.worksheets.registry import built_names, find_sheet
from witnessmark.worksheets.telling import Told, as_typed, cited, limit_in_words, ranges

BARE = "1"  # how a worksheet writes the unit of a bare number


def public_worksheets(decisions: Sequence[PublicDecision]) -> tuple[PublicWorksheet, ...]:
    """Every worksheet that can be run, by name, with the published decisions that rest on it."""
    used = {name: _users(name, decisions) for name in built_names()}
    return tuple(replace(_worksheet(name), used_in=users) for name, users in used.items())


def _users(sheet: str, decisions: Sequence[PublicDecision]) -> tuple[str, ...]:
    return tuple(d.id for d in decisions if any(used.sheet == sheet for used in d.sheets))


# Remembered because every example is reckoned anew, and a sheet never changes while we run.
@cache
def _worksheet(name: str) -> PublicWorksheet:
    told: dict[str, Any] = describe_sheet(find_sheet(name))
    cautions = told["cautions"]
    return PublicWorksheet(
        id=name,
        title=told["title"],
        tells=told["tells"],
        formula=tuple(told["formula"]),
        inputs=tuple(_input(*row) for row in told["inputs"].items()),
        results=tuple(_result(*row) for row in told["results"].items()),
        limits=tuple(limit_in_words(limit) for limit in told["limits"]),
        uncertainty=tuple(told["uncertainty"]),
        cautions=tuple(c["text"] for c in cautions if c["always"]),
        cautions_where=tuple(c["text"] for c in cautions if not c["always"]),
        sources=tuple(_citation(source) for source in told["sources"]),
        examples=tuple(_example(name, example) for example in told["examples"]),
        none_found=told["none_found"],
        used_in=(),
    )


def _input(name: str, taken: Told) -> PublicInput:
    return PublicInput(
        name=name,
        meaning=taken["meaning"],
        unit=_unit(taken.get("unit", "")),
        written=taken["written"],
        words=tuple(taken.get("words", {}).items()),
        names=tuple(taken.get("rows", ())),
        range="; ".join(_ranges(taken)),
        is_optional=taken["optional"],
        is_repeated=taken.get("repeated", False),
    )


def _ranges(taken: Told) -> Iterator[str]:
    yield from ranges(taken)
    for part in taken.get("parts", ()):
        yield f"{part['meaning']}, in {part['unit']}: {', '.join(ranges(part)) or 'any'}"


def _result(name: str, given: Told) -> PublicResult:
    return PublicResult(name=name, unit=_unit(given["unit"]), meaning=given["meaning"])


def _unit(unit: str) -> str:
    return "" if unit == BARE else unit


def _citation(source: Told) -> PublicCitation:
    return PublicCitation(cited=cited(source), standing=source["standing"], note=source["note"])


def _example(sheet: str, example: Told) -> PublicExample:
    given = example["given"]
    return PublicExample(
        title=example["title"],
        given=tuple((name, text) for name, texts in given.items() for text in _each(texts)),
        figures=tuple(_figure(*row) for row in example["results"].items()),
        source=_citation(example["source"]),
        note=example["note"],
        command=f"witnessmark worksheet run {sheet} {as_typed(given)}",
    )


def _each(texts: str | list[str]) -> list[str]:
    return [texts] if isinstance(texts, str) else texts


def _figure(name: str, figure: Told) -> PublicFigure:
    return PublicFigure(
        name=name,
        printed=figure["printed"],
        ours=figure["ours_in_that_unit"],
        is_wrong=figure["print_is_wrong"],
    )
