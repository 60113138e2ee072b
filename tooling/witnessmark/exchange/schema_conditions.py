"""What a schema says beyond each field alone, and the snippets that editors offer."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from witnessmark.model.options import FITS
from witnessmark.model.words import Do

_NAMES_A_PART = {"anyOf": [{"required": ["part"]}, {"required": ["parts"]}]}


def _where(verbs: frozenset[Do], then: dict[str, Any]) -> dict[str, Any]:
    words = sorted(verb.value for verb in verbs)
    return {
        "if": {"properties": {"do": {"enum": words}}, "required": ["do"]},
        "then": then,
    }


CONDITIONS: Mapping[str, dict[str, Any]] = MappingProxyType(
    {
        "Step": {
            **_NAMES_A_PART,
            "allOf": [
                _where(FITS, {"required": ["like"]}),
                _where(frozenset({Do.FIT_OLD_STOCK, Do.FIT_FROM_DONOR}), {"required": ["from"]}),
            ],
        },
        "Consequence": _NAMES_A_PART,
        "Answer": {"oneOf": [{"required": ["after"]}, {"required": ["none"]}]},
    }
)
"""By model, what its validators ask across fields, as far as JSON Schema can say it."""

_DECISION = {
    "label": "New decision",
    "description": "The fields that every record needs, to be filled from above to below",
    "body": {
        "witnessmark": 1,
        "id": "${1:2026-001}",
        "title": "${2:Why we ...}",
        "question": "${3:What was found, and what should be done?}",
        "aim": {"what": "${4:What it should be able to do}", "because": "${5:Why}"},
        "about": ["${6:assembly/part}"],
        "findings": ["${7:f-001}"],
        "policy": "${8:2025-01}",
        "state": "draft",
        "opened": "${9:2026-01-31}",
        "proposed_by": "${10:workshop-engineer}",
        "options": [
            {"id": "leave", "kind": "leave-as-found", "title": "${11:Leave it as it is}"},
            {"id": "${12:mend}", "kind": "${13:repair}", "title": "${14:Mend it}"},
        ],
    },
}
_FINDINGS = {
    "label": "New log of findings",
    "description": "The log of a machine with its first finding",
    "body": {
        "witnessmark": 1,
        "findings": [
            {
                "id": "f-001",
                "date": "${1:2026-01-31}",
                "by": "${2:workshop-engineer}",
                "part": "${3:assembly/part}",
                "basis": "${4:seen}",
                "what": "${5:What was found}",
                "grade": "${6:watch}",
            }
        ],
    },
}
EXAMPLES_AT_ROOT: Mapping[str, list[dict[str, Any]]] = MappingProxyType(
    {"decision": [_DECISION], "findings": [_FINDINGS]}
)
"""By kind of file, what an editor offers to write into an empty one."""
