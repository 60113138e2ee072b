"""Every field has a note that says what it means, and tells truly what the public may see."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any, get_args, get_type_hints

import pytest
from pydantic import BaseModel

import canary_museum as canary
from publish.test_private_by_default import PUBLIC, ROOTS, fields_of_tokens
from rendered_site import site_of
from witnessmark.model.field_notes import CHOICES, NOTES, is_public, note_of
from witnessmark.model.fields import Written

LISTED = frozenset(" ".join(PUBLIC).split())
SHOWN_BY_NAME = """
    AcceptedRisk.by Assembly.id Decision.about Decision.proposed_by Decision.departs_from
    Finding.part JudgedBy.by Judged.by OnParts.part OnParts.parts Outcome.by Part.id Signature.by
    SignedNone.by Step.part Step.parts Consequence.part Consequence.parts UsedSheet.bears_on
    Waiver.approver
"""
"""Ids for which the site shows the name or title of what they stand for, never the id."""


def _models_in(kind: Any) -> Iterator[type[Written]]:
    if isinstance(kind, type) and issubclass(kind, Written):
        yield kind
    for inner in get_args(kind):
        yield from _models_in(inner)


def _gather() -> dict[type[BaseModel], dict[str, list[type[Written]]]]:
    found: dict[type[BaseModel], dict[str, list[type[Written]]]] = {}
    waiting = list(ROOTS)
    while waiting:
        model = waiting.pop()
        kinds = get_type_hints(model, include_extras=True)
        found[model] = {name: list(_models_in(kinds[name])) for name in model.model_fields}
        waiting += [one for inner in found[model].values() for one in inner if one not in found]
    return found


MODELS = _gather()
FIELDS = [(model, name) for model in MODELS for name in model.model_fields]


def _written(model: type[BaseModel], name: str) -> str:
    return model.model_fields[name].alias or name


def _is_public(model: type[BaseModel], name: str) -> bool:
    return is_public(note_of(model, _written(model, name)))


@pytest.mark.parametrize(("model", "name"), FIELDS)
def test_every_field_has_a_note_with_an_example(model: type[BaseModel], name: str) -> None:
    note = note_of(model, _written(model, name))
    assert note.startswith(("Public. ", "Private. "))
    meaning, _, example = (
        note.removeprefix("Public. ").removeprefix("Private. ").partition("Example: ")
    )
    assert (True, True) == (len(meaning.strip()) >= 20, bool(example or "Example" in note)), note


def test_no_note_is_left_over_from_a_field_that_is_gone() -> None:
    known = {"witnessmark"}
    for model, name in FIELDS:
        known |= {f"{one.__name__}.{_written(model, name)}" for one in model.__mro__}
    assert set() == set(NOTES) - known


def test_no_meaning_of_a_bare_word_is_left_over() -> None:
    known = {f"{model.__name__}.{_written(model, name)}" for model, name in FIELDS}
    known |= {_written(model, name) for model, name in FIELDS}
    assert set() == set(CHOICES) - known


def test_a_text_that_the_site_may_show_is_called_public() -> None:
    called = {f"{model.__name__}.{name}" for model, name in FIELDS if _is_public(model, name)}
    assert set() == LISTED - called


def test_a_text_that_the_site_may_not_show_is_called_private() -> None:
    of_texts = {where for fields in fields_of_tokens().values() for where in fields}
    called = {f"{model.__name__}.{name}" for model, name in FIELDS if _is_public(model, name)}
    assert set() == (called & of_texts) - LISTED - set(SHOWN_BY_NAME.split())


def test_what_is_called_public_holds_something_public() -> None:
    held = [(model, name, inner) for model in MODELS for name, inner in MODELS[model].items()]
    empty = {
        f"{model.__name__}.{name}"
        for model, name, inner in held
        if inner
        and _is_public(model, name)
        and not any(_is_public(one, part) for one in inner for part in one.model_fields)
    }
    assert set() == empty


def test_what_is_called_private_holds_nothing_public() -> None:
    held = [(model, name, inner) for model in MODELS for name, inner in MODELS[model].items()]
    hidden = {
        f"{model.__name__}.{name}"
        for model, name, inner in held
        if inner
        and not _is_public(model, name)
        and any(_is_public(one, part) for one in inner for part in one.model_fields)
    }
    assert set() == hidden


def _days(value: object, where: str = "") -> Iterator[tuple[str, date]]:
    if isinstance(value, date):
        yield where, value
    elif isinstance(value, dict):
        for inner in value.values():
            yield from _days(inner, where)
    elif isinstance(value, tuple | list):
        for inner in value:
            yield from _days(inner, where)
    elif isinstance(value, BaseModel):
        for name in type(value).model_fields:
            yield from _days(getattr(value, name), f"{type(value).__name__}.{name}")


def test_days_are_called_as_the_site_shows_them() -> None:
    # Only days that one field alone holds can tell whether it was that field that was shown.
    fields: dict[date, set[str]] = {}
    for record in canary.records(canary.library()):
        for where, day in _days(record):
            fields.setdefault(day, set()).add(where)
    alone = {day: next(iter(where)) for day, where in fields.items() if len(where) == 1}
    site = "\n".join(str(text) for text in site_of(canary.library()).values())
    shown = {where for day, where in alone.items() if day.isoformat() in site}
    called = {
        where
        for where in alone.values()
        for model, name in FIELDS
        if f"{model.__name__}.{name}" == where and _is_public(model, name)
    }
    assert len(alone) >= 10
    assert shown - {"Museum.demo_as_of"} == called  # the canary's site is of that very day
