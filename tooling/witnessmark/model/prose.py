"""The words of a decision, wherever they stand: what the second digest covers."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from witnessmark.model.judgement import plain

WORDS = frozenset(
    {
        "title", "question", "because", "what", "gives_up", "would_change_our_mind", "dissent",
        "losses", "why_not", "way_back", "later_cost", "answer", "none", "unaffected",
        "not_applicable", "misses_aim", "not_scored", "departs_from_ranking", "departs_from_policy",
        "note", "withdrawn_because",
    }
)  # fmt: skip
"""Fields that hold sentences for people; whatever stands under one of them is words throughout."""

OUTSIDE = frozenset(
    {
        "agreed", "reckoned", "state", "look_again", "work", "photos", "outcome", "publish",
        "replaced_by", "withdrawn_because", "thanks", "consent",
    }
)  # fmt: skip
"""Top-level fields that may change after agreement without touching what was agreed."""


def words_of(record: Mapping[str, Any]) -> Any:  # noqa: ANN401  JSON-shaped
    """Every sentence of a record, in its own shape, list members by id where they have one."""
    inside = {name: value for name, value in record.items() if name not in OUTSIDE}
    return _words(inside) or {}


def _words(value: object) -> Any:  # noqa: ANN401  JSON-shaped
    if isinstance(value, Mapping):
        found = {
            name: plain(member) if name in WORDS else _words(member)
            for name, member in value.items()
        }
        return {name: member for name, member in found.items() if member not in (None, {}, [])}
    if isinstance(value, list):
        return _words({_key(member, index): member for index, member in enumerate(value)})
    return None


def _key(member: object, index: int) -> str:
    name = member.get("id") if isinstance(member, Mapping) else None
    return str(name) if name else f"{index:03d}"
