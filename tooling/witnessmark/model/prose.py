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
        "note", "withdrawn_because", "forecloses", "leaves_out", "adds_up_to", "interchange",
        "care", "suits", "residue", "inspected", "conditions_met", "leaves",
        "says", "how", "conditions_kept", "interests", "replaces_because",
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

_NOTHING: tuple[object, ...] = (None, {}, [])


def words_of(record: Mapping[str, Any]) -> Any:  # noqa: ANN401  JSON-shaped
    """Every sentence of a record, in its own shape, list members by id where they have one.

    Second judgements are left out, as they are from the seal: nobody agreed to them, and they may
    be added afterwards (`model.options.SecondJudged` says why).
    """
    inside = {name: value for name, value in record.items() if name not in OUTSIDE}
    if isinstance(options := inside.get("options"), list):
        inside["options"] = [_without_second(option) for option in options]
    return _words(inside) or {}


def _without_second(option: object) -> object:
    """An option as written, less the second judgements of its aspects."""
    judged = option.get("judged") if isinstance(option, Mapping) else None
    if not isinstance(option, Mapping) or not isinstance(judged, Mapping):
        return option
    first = {
        aspect: {name: part for name, part in value.items() if name != "second"}
        if isinstance(value, Mapping)
        else value
        for aspect, value in judged.items()
    }
    return {**option, "judged": first}


def _words(value: object) -> Any:  # noqa: ANN401  JSON-shaped
    if value.__class__ is dict or isinstance(value, Mapping):
        found = {}
        for name, member in value.items():
            if member.__class__ is str and name not in WORDS:  # most of a record
                continue
            words = plain(member) if name in WORDS else _words(member)
            if words or words not in _NOTHING:
                found[name] = words
        return found
    if isinstance(value, list):
        return _words({_key(member, index): member for index, member in enumerate(value)})
    return None


def _key(member: object, index: int) -> str:
    name = member.get("id") if isinstance(member, Mapping) else None
    return str(name) if name else f"{index:03d}"
