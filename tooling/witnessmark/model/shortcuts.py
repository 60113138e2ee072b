"""Anchors, references to them and tags: reported, and taken out of a copy that can be read on."""

from __future__ import annotations

import re

from witnessmark.model import source_codes as codes
from witnessmark.model.hygiene import Slip, others
from witnessmark.model.mend import line_of, quoted, with_stand_in
from witnessmark.model.nodes import Walk, walk

# A node's properties, YAML 1.2.2 section 6.9: a tag and an anchor in either order.
_PROPERTIES = re.compile(r"(?:(?:!<[^>\s]*>|[&!][^\s,\[\]{}]*)[ \t]*)+")
_MERGE_BEFORE = re.compile(r"<<[ \t]*:[ \t]*$")


def without_shortcuts(text: str, seen: Walk, slips: list[Slip]) -> str:
    """A copy without anchors, references and tags; empty where no such copy can be read."""
    slips.extend(_slips(text, seen))
    if not (seen.anchors or seen.aliases or seen.tags):
        return text
    for index, _ in seen.aliases:
        text = with_stand_in(text, index)
    properties = sorted({*seen.tags, *(index for index, _ in seen.anchors)})
    for copy in (_blanked(text, properties), _as_text(text, properties)):
        after = walk(copy)
        if after.fault is None and not (after.anchors or after.aliases or after.tags):
            return copy
    return ""


def _slips(text: str, seen: Walk) -> list[Slip]:
    names = {name for _, name in seen.anchors}
    merged = {index for index, _ in seen.aliases if _MERGE_BEFORE.search(text[:index][-20:])}
    aliases = [index for index, name in seen.aliases if name in names and index not in merged]
    unknown = [index for index, name in seen.aliases if name not in names and index not in merged]
    found = (
        (codes.ANCHOR, [index for index, _ in seen.anchors], "anchors (&) are not used"),
        (codes.ALIAS, aliases, "references to an anchor (*) are not used"),
        (codes.TAG, seen.tags, "tags (!) are not used"),
    )
    slips = [_slip(text, code, indexes, words) for code, indexes, words in found if indexes]
    slips.extend(_slip(text, codes.START, [index], "the value starts with *") for index in unknown)
    return slips


def _slip(text: str, code: str, indexes: list[int], words: str) -> Slip:
    start = quoted(line_of(text[indexes[0] :], 0))
    message = f'{words}, as in "{start}"{others(text, indexes)}'
    return Slip(code=code, index=indexes[0], message=message)


def _blanked(text: str, indexes: list[int]) -> str:
    for index in indexes:
        match = _PROPERTIES.match(text, index)
        if match:
            text = text[:index] + " " * len(match[0]) + text[match.end() :]
    return text


def _as_text(text: str, indexes: list[int]) -> str:
    for index in indexes:
        text = with_stand_in(text, index)
    return text
