"""One record as its public copy: each field dropped, kept, or told by a public name."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal
from enum import Enum
from fractions import Fraction
from types import MappingProxyType
from typing import Any

from pydantic import BaseModel

from witnessmark.model.decision import Decision, Departs
from witnessmark.model.field_notes import is_public, note_of
from witnessmark.model.machine import Photo
from witnessmark.model.options import Step
from witnessmark.model.words import Do
from witnessmark.publish.shown_names import Names

Plain = Any
"""Data that YAML holds as it is: mappings, lists, text, whole numbers, true and false."""

_EMPTY: tuple[object, ...] = (None, [], {})


def number(value: Fraction) -> int | str:
    """An exact number: whole, or as a fraction in text.

    >>> number(Fraction(3)), number(Fraction(7, 20))
    (3, '7/20')
    """
    return value.numerator if value.denominator == 1 else str(value)


@dataclass(frozen=True, kw_only=True)
class Copier:
    """Makes public copies of one museum's records.

    `listed` are the decisions that may be named, `pictures` the addresses of pictures on the site;
    `machine` is the machine whose parts are meant, `hazards` the number of each hazard by its id.
    """

    names: Names
    listed: frozenset[str]
    pictures: frozenset[str]
    has_money: bool
    has_hours: bool
    machine: str = ""
    hazards: Mapping[str, str] = field(default_factory=dict)

    def at(self, machine: str) -> Copier:
        """The same for records of one machine."""
        return replace(self, machine=machine)

    def record(self, record: BaseModel | None) -> dict[str, Plain]:
        """The public fields of a record as they were written."""
        if record is None:
            return {}
        if isinstance(record, Decision):
            ids = [hazard.id for hazard in record.listed_hazards]
            numbers = {name: f"hazard-{n}" for n, name in enumerate(ids, start=1)}
            return replace(self, hazards=numbers)._fields(record)
        return self._fields(record)

    def _fields(self, record: BaseModel) -> dict[str, Plain]:
        model, found = type(record), {}
        for name, info in model.model_fields.items():
            if name in record.model_fields_set:
                written = info.alias or name
                told = self._field(record, written, getattr(record, name))
                if told not in _EMPTY:
                    found[written] = told
        return found

    def _field(self, record: BaseModel, written: str, value: object) -> Plain:
        model = type(record)
        names = (f"{one.__name__}.{written}" for one in model.__mro__)
        teller = next((_TELLERS[name] for name in names if name in _TELLERS), None)
        by_name = teller is not None and f"{model.__name__}.{written}" in _PRIVATE_IN_WORDS
        if not by_name and not is_public(note_of(model, written)):
            return None
        return teller(self, record, value) if teller else self.plain(value)

    def plain(self, value: object) -> Plain:
        """Any value of a record as plain data, the records in it copied."""
        if value is None or isinstance(value, bool | int):
            return value
        if isinstance(value, BaseModel):
            return self.record(value)
        if isinstance(value, Enum):
            return str(value.value)
        if isinstance(value, str):
            return value
        if isinstance(value, Fraction):
            return number(value)
        if isinstance(value, Decimal):
            return str(value)
        if isinstance(value, date):
            return value.isoformat()
        if isinstance(value, Mapping):
            return {str(self.plain(key)): self.plain(one) for key, one in value.items()}
        if isinstance(value, tuple | list):
            return [told for one in value if (told := self.plain(one)) not in _EMPTY]
        raise TypeError(f"a record holds no {type(value).__name__}")


Teller = Callable[[Copier, Any, Any], Plain]
"""From the copier, the record and the field's value to what the public may hold of it."""


def _person(copier: Copier, _: object, value: str) -> Plain:
    return copier.names.person(value)


def _in_words(copier: Copier, _: object, value: str | tuple[str, ...]) -> Plain:
    """Who a free text names, where that is a role or somebody with one; else nothing."""
    if isinstance(value, str):
        return copier.names.in_words(value)
    return [told for one in value if (told := copier.names.in_words(one))]


def _answerers(copier: Copier, _: object, value: str) -> Plain:
    return [t for one in value.split(",") if (t := copier.names.in_words(one.strip()))]


def _part(copier: Copier, _: object, value: str | None) -> Plain:
    return copier.names.part(copier.machine, value) if value else None


def _parts(copier: Copier, _: object, value: tuple[str, ...]) -> Plain:
    return list(copier.names.parts(copier.machine, value))


def _drop(*_: object) -> Plain:
    return None


def _findings(copier: Copier, _: object, value: tuple[str, ...]) -> Plain:
    found = ((name, copier.names.library.finding(copier.machine, name)) for name in value)
    return [name for name, finding in found if finding and finding.public]


def _decision_id(copier: Copier, _: object, value: str | None) -> Plain:
    return value if value in copier.listed else None


def _follows(copier: Copier, _: object, value: tuple[str, ...]) -> Plain:
    return [name for name in value if name in copier.listed]


def _departs(copier: Copier, _: object, value: tuple[Departs, ...]) -> Plain:
    return [copier.record(one) for one in value if one.decision in copier.listed]


def _photos(copier: Copier, _: object, value: tuple[Photo, ...]) -> Plain:
    return [
        copier.record(photo)
        for photo in value
        if photo.public and f"m/{copier.machine}/{photo.file}" in copier.pictures
    ]


def _hazards(copier: Copier, decision: Decision, value: object) -> Plain:
    if not isinstance(value, tuple):
        return copier.plain(value)
    return [{"id": copier.hazards[h.id], **copier.record(h)} for h in decision.listed_hazards]


def _answers(copier: Copier, _: object, value: Mapping[str, BaseModel]) -> Plain:
    known = ((copier.hazards.get(name), answer) for name, answer in value.items())
    return {name: copier.record(answer) for name, answer in known if name}


def _source(copier: Copier, step: Step, value: str | None) -> Plain:
    if value is None:
        return None
    is_stock = step.do is Do.FIT_OLD_STOCK
    return copier.names.lot(value) if is_stock else copier.names.donor(value)


def _hours(copier: Copier, _: object, value: object) -> Plain:
    return copier.plain(value) if copier.has_hours else None


def _cost(copier: Copier, _: object, value: object) -> Plain:
    return copier.plain(value) if copier.has_money else None


_PEOPLE = """
    AcceptedRisk.by Decision.proposed_by JudgedBy.by Judged.by Outcome.by Signature.by SignedNone.by
    Waiver.approver
"""
_PRIVATE_IN_WORDS: Mapping[str, Teller] = MappingProxyType(
    {
        "Elicited.who": _answerers,
        "Finding.by": _in_words,
        "Dissent.who": _in_words,
        "Work.by": _in_words,
        "Step.from": _source,
        "Effort.hours": _hours,
        "Effort.cost": _cost,
    }
)
"""Private as written; of these the site shows what they stand for, or shows them when told to."""

_TELLERS: Mapping[str, Teller] = MappingProxyType(
    {
        **dict.fromkeys(_PEOPLE.split(), _person),
        **_PRIVATE_IN_WORDS,
        "Decision.about": _parts,
        "Decision.findings": _findings,
        "Decision.follows": _follows,
        "Decision.departs_from": _departs,
        "Decision.replaces": _decision_id,
        "Decision.replaced_by": _decision_id,
        "Decision.hazards": _hazards,
        "Option.answers": _answers,
        "Finding.part": _part,
        "OnParts.part": _part,
        "OnParts.parts": _parts,
        "UsedSheet.bears_on": _parts,
        "Assembly.id": _drop,
        "Part.id": _drop,
        "Decision.photos": _photos,
        "Machine.photos": _photos,
        "Work.photos": _photos,
    }
)
"""Fields whose words are others than those written: names for ids, and nothing that is hidden."""
