"""A tree of YAML nodes to plain values, in one pass, with what is doubtful set down on the way."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from decimal import Decimal
from enum import Enum
from functools import lru_cache
from sys import intern
from typing import Final, NamedTuple

from yaml.nodes import MappingNode, Node, ScalarNode

from witnessmark.model import source_codes as codes
from witnessmark.model.diagnostics import Level
from witnessmark.model.hygiene import hidden_in, hidden_slip
from witnessmark.model.mend import quoted, restored
from witnessmark.model.nodes import MOST_DEPTH
from witnessmark.model.scalars import (
    DOUBTFUL,
    LONGEST_DOUBTFUL,
    NOT_NUMBERS,
    NUMBER_STARTS,
    WORDS,
    OutOfReachError,
    Scalar,
    plain,
)

Plain = dict[str, "Plain"] | list["Plain"] | str | int | Decimal | bool | None
Path = tuple[str | int, ...]
_SHORT = 24  # words of closed lists, ids, people and parts come back in every record
_COLON_STUCK = re.compile(r"[\w-]+:\S+")


class _Doubt(Enum):
    """Stands in place of a word that a slip is to be set down of."""

    DOUBTED = "doubted"


_DOUBTED: Final = _Doubt.DOUBTED


class NodeSlip(NamedTuple):
    """A doubt about one node of the tree."""

    node: Node
    code: str
    message: str
    fix: str | None = None
    level: Level | None = None


class Builder:
    """Builds values from nodes; `slips` grows while it does, so one builder serves one file."""

    def __init__(self, *, is_mended: bool = False) -> None:
        self.slips: list[NodeSlip] = []
        self._is_mended = is_mended

    def value(self, node: Node, depth: int = 0) -> Plain:
        """The node's value: a dict, a list, or what its word stands for."""
        if node.__class__ is ScalarNode:
            return self._scalar(node)
        if depth >= MOST_DEPTH:
            self._add(node, codes.DEEP, f"more than {MOST_DEPTH} levels are nested here")
            return None
        if node.__class__ is MappingNode:
            return self._mapping(node, depth + 1)
        return [self.value(child, depth + 1) for child in node.value]

    def _scalar(self, node: ScalarNode) -> Scalar:
        text: str = node.value
        if node.style == "":
            value = _word(text) if len(text) < _SHORT else _judged(text)
            return self._doubt(node, text) if value is _DOUBTED else value
        if node.style == '"':
            self._hidden(node, text)
        return _kept(text)

    def _mapping(self, node: MappingNode, depth: int) -> dict[str, Plain]:
        built: dict[str, Plain] = {}
        is_flow = node.flow_style
        was_bare = False
        for key, child in node.value:
            is_plain = key.__class__ is ScalarNode and key.style == ""
            name = (_plain_name(key.value) if is_plain else None) or self._name(key)
            if name is None:
                continue
            is_bare = is_flow and not child.value and _is_bare(key, child)
            if name in built:
                self._twice(node, key, name)
            elif child.__class__ is ScalarNode and not is_bare:
                built[name] = self._scalar(child)
            elif not is_bare:
                built[name] = self.value(child, depth)
            elif not was_bare:
                self._bare(key, name)
            was_bare = is_bare
        return built

    def _name(self, key: Node) -> str | None:
        """A field's name as text; None where the field cannot be kept."""
        if key.__class__ is not ScalarNode:
            self._add(key, codes.KEY, "the name of a field is a group of values, not a word")
            return None
        name: str = key.value
        if key.style == "":
            if name == "<<":
                self._add(key, codes.MERGE, 'a merge key ("<<") stands here')
                return None
            if name[:1] in NUMBER_STARTS or name in WORDS or _is_doubtful(name):
                self._name_doubt(key, name)
        elif key.style == '"':
            self._hidden(key, name)
        # The same few names stand in every record: one text each, or half the memory goes for them.
        return intern(name if name.isascii() else unicodedata.normalize("NFC", name))

    def _name_doubt(self, key: Node, name: str) -> None:
        try:
            is_text = isinstance(plain(name), str) and not _is_doubtful(name)
        except OutOfReachError:
            is_text = False
        if not is_text:
            self._add(key, codes.KEY, f'the name "{quoted(name)}" is not text to every reader')

    def _doubt(self, node: Node, text: str) -> str:
        """The word as it is kept, with the slip that is to be set down of it."""
        if text.lower() in NOT_NUMBERS:
            self._add(node, codes.NUMBER, f"{text} is not a number that can be kept")
        elif _is_doubtful(text):
            self._add(node, codes.YES_NO, f'some readers take "{text}" for true or false')
        else:
            message = f"{quoted(text)} is longer or larger than a number is kept"
            self._add(node, codes.NUMBER, message)
        return _kept(text)

    def _hidden(self, node: Node, text: str) -> None:
        char = hidden_in(restored(text) if self._is_mended else text)
        if char is not None:
            slip = hidden_slip(char, index=0)
            self._add(node, slip.code, slip.message, level=slip.level)

    def _twice(self, node: MappingNode, key: Node, name: str) -> None:
        first = next(other for other, _ in node.value if _written(other) == restored(name))
        lines = (first.start_mark.line + 1, key.start_mark.line + 1)
        message = f'"{quoted(name)}" is written twice, on lines {lines[0]} and {lines[1]}'
        if lines[0] == lines[1]:
            message = f'"{quoted(name)}" is written twice on this line'
        self._add(key, codes.TWICE, message)

    def _bare(self, key: Node, name: str) -> None:
        message = f'"{quoted(name)}" stands inside {{ }} as a name without a value'
        fix = "Put a space after the colon." if _COLON_STUCK.fullmatch(name) else None
        self._add(key, codes.NO_VALUE, message, fix=fix)

    def _add(
        self,
        node: Node,
        code: str,
        message: str,
        *,
        fix: str | None = None,
        level: Level | None = None,
    ) -> None:
        self.slips.append(NodeSlip(node, code, message, fix, level))


def _judged(text: str) -> Scalar | _Doubt:
    """What an unquoted word stands for, or _DOUBTED where a slip is to be set down of it."""
    try:
        value = plain(text)
    except OutOfReachError:
        return _DOUBTED
    if value is not text:
        return value
    return _DOUBTED if _is_doubtful(text) else _kept(text)


# The same few hundred words and names stand in every record: looking one up takes a third of the
# time of judging it anew (measured on 1,000 records; 240 KB of memory).
_word = lru_cache(maxsize=2048)(_judged)


@lru_cache(maxsize=1024)
def _plain_name(name: str) -> str | None:
    """An unquoted field's name as it is kept; None where a slip may have to be set down of it."""
    is_odd = name == "<<" or name[:1] in NUMBER_STARTS or name in WORDS or _is_doubtful(name)
    return None if is_odd else _kept(name)


def _kept(text: str) -> str:
    if not text.isascii():
        text = unicodedata.normalize("NFC", text)
    return intern(text) if len(text) < _SHORT else text


def placed_nodes(root: Node, path: Path = ()) -> Iterator[tuple[Node, Path]]:
    """Every node of a tree with its path, a field's name before its value, as deep as is read."""
    yield root, path
    if len(path) > MOST_DEPTH:
        return
    if root.__class__ is MappingNode:
        for key, child in root.value:
            here = (*path, _written(key))
            yield key, here
            yield from placed_nodes(child, here)
    elif root.__class__ is not ScalarNode:
        for position, child in enumerate(root.value):
            yield from placed_nodes(child, (*path, position))


def deepest(root: Node, path: Path) -> tuple[Node | None, Node]:
    """The deepest node on a path that exists, after the node of its own name if it has one."""
    name: Node | None = None
    node = root
    for step in path:
        found = child(node, step)
        if found is None:
            break
        name, node = found
    return name, node


def child(node: Node, step: str | int) -> tuple[Node | None, Node] | None:
    """What stands under a name or a number in a node, after the node of its name if it has one."""
    if node.__class__ is MappingNode:
        pairs = ((key, child) for key, child in node.value if _written(key) == str(step))
        return next(pairs, None)
    if node.__class__ is ScalarNode or not isinstance(step, int):
        return None
    return (None, node.value[step]) if 0 <= step < len(node.value) else None


def _is_doubtful(word: str) -> bool:
    return len(word) <= LONGEST_DOUBTFUL and word.lower() in DOUBTFUL


def _is_bare(key: Node, child: Node) -> bool:
    """True for a name in braces without a colon: its empty value starts where the name ends."""
    if not isinstance(child, ScalarNode) or child.value + child.style != "":
        return False
    return bool(child.start_mark.index == key.end_mark.index)


def _written(key: Node) -> str:
    """The name as it stands in the values; empty for a name that is no text."""
    if not isinstance(key, ScalarNode):
        return ""
    return unicodedata.normalize("NFC", restored(key.value))
