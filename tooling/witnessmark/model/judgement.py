"""The judgement of a decision in a form that never varies, and its seal (scheme wm1).

The seal is SHA-256 over the RFC 8785 form (JSON Canonicalization Scheme, 2020) of the judgement,
with text in Unicode NFC and every number as text. Two digests: the judgement, whose change voids
an agreement, and the words, whose change is a warning. Scheme wm1 is frozen: what it covers and
how is fixed by vectors in the tests, and a later scheme stands beside it.
"""

from __future__ import annotations

import hashlib
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import Enum
from fractions import Fraction
from typing import Any, cast

from witnessmark.model.canonical import canonical
from witnessmark.model.decision import AcceptedRisk, Decision, Hazard, Waiver
from witnessmark.model.findings import Finding
from witnessmark.model.options import (
    Answer,
    Consequence,
    NoneBecause,
    NoneSigned,
    Option,
    RuledOut,
    Step,
)
from witnessmark.model.position import Pieces
from witnessmark.model.stores import Lot
from witnessmark.model.words import Aspect

SCHEME = "wm1"
Plain = Any
"""JSON-shaped values: dict, list, str, bool, None."""


@dataclass(frozen=True)
class Facts:
    """What a judgement takes from outside its own record."""

    machine: str
    kept: str
    carried_by: Mapping[Aspect, Fraction]
    scope: Mapping[str, Sequence[Pieces]]
    findings: Sequence[Finding]
    lots: Sequence[Lot]
    policy: str
    policy_digest: str


def plain(value: object) -> Plain:
    """Any value of a record as JSON with text only: numbers, dates and words as text.

    >>> plain({"cost": Decimal("1.50"), "share": Fraction(3, 4), "kept": True})
    {'cost': '1.50', 'share': '3/4', 'kept': True}
    """
    kind = value.__class__
    if kind is str:  # by far the most, so it is asked first
        return _composed(str(value))
    if value is None or kind is bool:
        return value
    if kind is dict:
        return _group(cast("dict[object, object]", value))
    if kind is tuple or kind is list:
        return [plain(member) for member in cast("Iterable[object]", value)]
    return _rarer(value)


def _rarer(value: object) -> Plain:
    """The same of kinds that only a slow question tells apart; few values come this far."""
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, str):
        return _composed(value)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, int | Decimal | Fraction):
        return str(value)
    if isinstance(value, Mapping):
        return _group(value)
    if isinstance(value, Iterable):
        return [plain(member) for member in value]
    raise TypeError(f"a record holds no {type(value).__name__}")


def _group(value: Mapping[Any, object]) -> Plain:
    return {str(plain(key)): plain(member) for key, member in value.items()}


def _composed(text: str) -> str:
    return text if text.isascii() else unicodedata.normalize("NFC", text)


def digest(value: Plain) -> str:
    """SHA-256 over the canonical form, as 64 hexadecimal digits."""
    return hashlib.sha256(canonical(value)).hexdigest()


def seal_of(judgement: Plain) -> str:
    """The seal of a judgement."""
    return f"{SCHEME}:{digest(judgement)}"


def words_seal_of(words: Plain) -> str:
    """The digest of the words."""
    return f"{SCHEME}w:{digest(words)}"


def judgement_of(decision: Decision, facts: Facts) -> Plain:
    """What the signers agreed to, less the prose."""
    return plain(
        {
            "scheme": SCHEME,
            "id": decision.id,
            "machine": facts.machine,
            "kept": facts.kept,
            "about": sorted(decision.about),
            "aim": decision.aim.what,
            "findings": [_finding(f) for f in sorted(facts.findings, key=lambda f: f.id)],
            "hazards": _hazards(decision),
            "options": [_option(o, decision) for o in sorted(decision.options, key=lambda o: o.id)],
            "worksheets": [
                {"id": s.id, "sheet": s.sheet, "given": s.given, "bears_on": sorted(s.bears_on)}
                for s in decision.worksheets
            ],
            "carried_by": facts.carried_by,
            "scope": {a: [_pieces(p) for p in here] for a, here in facts.scope.items()},
            "lots": [_lot(lot) for lot in sorted(facts.lots, key=lambda lot: lot.id)],
            "policy": {"id": facts.policy, "digest": facts.policy_digest},
            "choice": decision.choice.option if decision.choice else None,
            "waivers": [_waiver(w) for w in sorted(decision.waivers, key=lambda w: w.rule)],
            "accepted_risk": _accepted(decision.accepted_risk),
            "until": decision.until,
            **_where_set({"heard": tuple((one.role, one.by) for one in decision.heard)}),
        }
    )


def _finding(finding: Finding) -> Plain:
    younger = {"limit": finding.limit, "limit_from": finding.limit_from, "cause": finding.cause}
    return {
        "id": finding.id,
        "date": finding.date,
        "by": finding.by,
        "part": finding.part,
        "basis": finding.basis,
        "what": finding.what,
        "grade": finding.grade,
        "measurement": finding.measurement,
        "instrument": finding.instrument,
        **_where_set(younger),
    }


def _hazards(decision: Decision) -> Plain:
    if isinstance(decision.hazards, NoneSigned):
        return {"none": decision.hazards.none.by}
    return [_hazard(hazard) for hazard in sorted(decision.hazards, key=lambda h: h.id)]


def _hazard(hazard: Hazard) -> Plain:
    return {
        "id": hazard.id,
        "what": hazard.what,
        "when": hazard.when,
        "who": sorted(hazard.who),
        "before": hazard.before,
        **_where_set(_hazard_found(hazard)),
    }


def _hazard_found(hazard: Hazard) -> Mapping[str, Plain]:
    survey, safe = hazard.survey, hazard.made_safe
    return {
        "kind": hazard.kind,
        "parts": hazard.addresses,
        "found": hazard.found,
        "survey": {"by": survey.by, "date": survey.date, "ref": survey.ref} if survey else None,
        "made_safe": {"energy": safe.energy, "tested_by": safe.tested_by} if safe else None,
    }


def _where_set(given: Mapping[str, Plain]) -> Mapping[str, Plain]:
    """What was written of these fields; a field younger than a seal must not change it by name."""
    return {name: value for name, value in given.items() if value not in (None, ())}


def _option(option: Option, decision: Decision) -> Plain:
    none_follows = isinstance(option.consequences, NoneBecause)
    return {
        "id": option.id,
        "kind": option.kind,
        "steps": [_step(step) for step in option.steps],
        "consequences": "none" if none_follows else _consequences(option.listed_consequences),
        "answers": {name: _answer(answer) for name, answer in option.answers.items()},
        "relies_on": sorted(option.relies_on),
        "judged": {aspect: _judged(option, aspect, decision) for aspect in option.judged},
        "unaffected": sorted(aspect.value for aspect in option.unaffected),
        "not_applicable": sorted(aspect.value for aspect in option.not_applicable),
        "ruled_out": _ruled_out(option.ruled_out),
        "misses_aim": option.misses_aim is not None,
        **({"not_scored": True} if option.not_scored else {}),
        **({"temporary": True} if option.temporary else {}),
    }


def _ruled_out(shut: RuledOut | None) -> Plain:
    return {"by": shut.by, "ref": shut.ref} if shut else None


def _step(step: Step) -> Plain:
    given = {
        "do": step.do,
        "parts": step.addresses,
        "count": step.count,
        "fate": step.fate,
        "labels": step.all_labels,
        "place": step.place,
        "like": step.like,
        "from": step.source,
        "what": step.what,
        "material": step.material,
        "drawing": step.drawing,
        "made_by": step.made_by,
        "marked": step.marked,
        "pattern": step.pattern,
        "copied_marks": step.copied_marks,
        "undo": step.undo,
        "lubricant": step.lubricant,
        "over": step.over,
        "carried_on": step.carried_on,
        "rubber_left": step.rubber_left,
        "comes_off_with": step.comes_off_with,
    }
    return _where_set(given)


def _consequences(consequences: Sequence[Consequence]) -> Plain:
    return [
        {"parts": c.addresses, "becomes": c.becomes, "count": c.count, "undo": c.undo}
        for c in consequences
    ]


def _answer(answer: Answer) -> Plain:
    orders = [control.order for control in answer.controls]
    return {"after": answer.after, "none": answer.none is not None, "controls": orders}


def _judged(option: Option, aspect: Aspect, decision: Decision) -> Plain:
    judged, shared = option.judged[aspect], decision.judged_by
    return {
        "low": judged.lowest,
        "likely": judged.likely,
        "high": judged.highest,
        "by": judged.by or (shared.by if shared else None),
        "date": judged.date or (shared.date if shared else None),
    }


def _pieces(pieces: Pieces) -> Plain:
    return {
        "count": pieces.count,
        "origin": pieces.origin,
        "made_to": pieces.made_to,
        "can_be_made": pieces.can_be_made,
        "last_known": pieces.last_known,
    }


def _lot(lot: Lot) -> Plain:
    return {"id": lot.id, "count": lot.count, "origin": lot.origin, "can_be_made": lot.can_be_made}


def _waiver(waiver: Waiver) -> Plain:
    return {"rule": waiver.rule, "approver": waiver.approver, "until": waiver.until}


def _accepted(risk: AcceptedRisk | None) -> Plain:
    if risk is None:
        return None
    return {"by": risk.by, "role": risk.role, "until": risk.until, "option": risk.option}
