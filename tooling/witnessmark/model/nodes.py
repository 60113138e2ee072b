"""YAML text to a tree of nodes by libyaml, and a guarded walk that says first what is in it."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

import yaml
from yaml._yaml import CParser
from yaml.events import (
    AliasEvent,
    CollectionEndEvent,
    CollectionStartEvent,
    DocumentStartEvent,
    Event,
    NodeEvent,
)
from yaml.nodes import Node

from witnessmark.errors import WitnessmarkError

MOST_DEPTH = 32
MOST_NODES = 20_000
# Up to here libyaml's recursive composer is safe on the smallest usual thread stack (512 KB).
_OPENERS_UNWALKED = 500
# Anchors, aliases and tags stand where a value starts: after a sign, or first on a line.
_ANCHOR_LIKE = re.compile(r"(?:^|[-:?,\[\]{}])[ \t]*[&*!]", re.MULTILINE)
_DASHES_UNWALKED = 300  # "- - - x" opens a level each on one line; indents alone cannot get far


class _Composer(CParser):
    """libyaml's composer without PyYAML's own typing of words, which is slow and YAML 1.1."""

    def resolve(self, kind: object, value: object, implicit: object) -> None:
        """Leave every word untyped."""

    def descend_resolver(self, parent: object, index: object) -> None:
        """Nothing: no typing by path."""

    def ascend_resolver(self) -> None:
        """Nothing: no typing by path."""


@dataclass(frozen=True)
class Fault:
    """libyaml's own complaint, with both of its places counted in characters from 0."""

    context: str
    problem: str
    start: int
    at: int


@dataclass
class Walk:
    """What a first pass over the text meets; filled while walking, so not frozen."""

    fault: Fault | None = None
    too_deep: int | None = None
    too_many: int | None = None
    second: int | None = None
    anchors: list[tuple[int, str]] = field(default_factory=list)
    aliases: list[tuple[int, str]] = field(default_factory=list)
    tags: list[int] = field(default_factory=list)
    nodes: int = 0
    depth: int = 0
    documents: int = 0

    @property
    def is_over(self) -> bool:
        """True when walking on would cost more than it tells."""
        stops = (self.too_deep, self.too_many, self.second)
        return any(stop is not None for stop in stops)


def need_libyaml() -> None:
    """Nothing, where PyYAML was built with libyaml.

    Raises:
        WitnessmarkError: PyYAML is the slow build, which also places faults elsewhere.

    """
    if not yaml.__with_libyaml__:
        raise WitnessmarkError(
            "The YAML reader on this computer was built without libyaml.",
            remedy="Install PyYAML from a ready-made wheel: pip install --force-reinstall pyyaml.",
        )


def compose(text: str) -> Node | None:
    """The tree of the one document in the text; call it on text known to be safe to compose."""
    root: Node | None = _Composer(text).get_single_node()
    return root


def wants_walk(text: str) -> bool:
    """True when the text might hold anchors, tags, or more levels and values than are read."""
    openers = text.count("[") + text.count("{")
    if openers > _OPENERS_UNWALKED or text.count("- ") + text.count("? ") > _DASHES_UNWALKED:
        return True
    if len(text) > MOST_NODES:
        separators = sum(text.count(sign) for sign in ",\n-?:")
        if 2 * (separators + openers) > MOST_NODES:
            return True
    return any(sign in text for sign in "&*!") and _ANCHOR_LIKE.search(text) is not None


def walk(text: str) -> Walk:
    """What a first pass over the events meets, up to the first fault; never deep, never long."""
    seen = Walk()
    parser = _Composer(text)
    try:
        while not seen.is_over and parser.check_event():
            _note(seen, parser.get_event())
    except yaml.YAMLError as error:
        seen.fault = fault_of(error)
    return seen


def fault_of(error: yaml.YAMLError) -> Fault:
    """Libyaml's complaint as plain values."""
    if not isinstance(error, yaml.MarkedYAMLError) or error.problem_mark is None:
        return Fault("", str(error).partition("\n")[0], 0, 0)
    at = error.problem_mark.index
    start = error.context_mark.index if error.context_mark else at
    return Fault(error.context or "", error.problem or "", start, at)


def _note(seen: Walk, event: Event | None) -> None:
    index = event.start_mark.index if event and event.start_mark else 0
    if isinstance(event, CollectionEndEvent):
        seen.depth -= 1
    elif isinstance(event, DocumentStartEvent):
        seen.documents += 1
        if seen.documents > 1:
            seen.second = index
    elif isinstance(event, NodeEvent):
        _note_node(seen, event, index)


def _note_node(seen: Walk, event: NodeEvent, index: int) -> None:
    seen.nodes += 1
    if seen.nodes > MOST_NODES:
        seen.too_many = index
    name = event.anchor or ""
    if isinstance(event, AliasEvent):
        seen.aliases.append((index, name))
        return
    if name:
        seen.anchors.append((index, name))
    if getattr(event, "tag", None):
        seen.tags.append(index)
    if isinstance(event, CollectionStartEvent):
        seen.depth += 1
        if seen.depth > MOST_DEPTH:
            seen.too_deep = index
