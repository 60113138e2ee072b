"""One file of a museum as plain values, with the place of every value and every reading problem.

YAML is read strictly: words mean what the YAML 1.2 core schema and every careful reader agree on,
and what is likely to be a slip is reported in plain words while the rest of the file is still read.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import lru_cache

import yaml
from yaml.nodes import MappingNode, Node, ScalarNode

from witnessmark.model import source_codes as codes
from witnessmark.model.build import Builder, NodeSlip, Path, Plain, child, deepest, placed_nodes
from witnessmark.model.diagnostics import Diagnostic, Place, field_name
from witnessmark.model.hygiene import Slip, Text, conflicts, decode, shown
from witnessmark.model.mend import (
    MOST_MENDS,
    Mend,
    is_cut_short,
    line_of,
    lost_text,
    mended,
    restored,
    unreadable,
)
from witnessmark.model.nodes import (
    MOST_DEPTH,
    MOST_NODES,
    Fault,
    Walk,
    compose,
    need_libyaml,
    walk,
    wants_walk,
)
from witnessmark.model.shortcuts import without_shortcuts

MOST_BYTES = 262_144  # a long decision is about 20 KB; beyond this it is some other file
_MOST_PATHS = 50  # slips of a text that are given their field's name; each costs a look at the tree
_REMARK = re.compile("#[^\r\n]*")
_COMMENT = re.compile(r"[ \t]+(#[^\r\n]*)")
# Causes whose mend is a guess at what was meant, so that a later fault may stem from them.
_LEADING = frozenset((codes.TAB, codes.HARD_SPACE, codes.CONFLICT, codes.UNCLOSED, codes.INDENT))
_UNSURE = _LEADING | {codes.UNREADABLE, codes.NOT_UTF8, codes.CONTROL}


@dataclass(frozen=True)
class Spot:
    """Where one value stands in a text, counted in characters from 0, and how it is written.

    `column` is where the group that holds it starts; `in_braces` is true inside { } or [ ].
    """

    start: int
    end: int
    style: str
    column: int
    in_braces: bool


@dataclass(frozen=True)
class Document:
    """One file as read: its text, its values and what stood in the way.

    `data` is None where nothing usable could be read. The node tree is not kept: places are found
    by composing the text again, since few files ever need one.
    """

    file: str
    text: str
    data: Plain
    problems: tuple[Diagnostic, ...]
    _working: str = field(default="", repr=False, compare=False)

    def place(self, path: Path, *, key: bool = False) -> Place:
        """Where the deepest part of the path that exists starts; with key, its own name's start."""
        root = _tree(self._working)
        if root is None:
            return Place(1, 1)
        name, node = deepest(root, path)
        return _mark_place((name if key and name is not None else node).start_mark)

    def span(self, path: Path) -> tuple[Place, Place]:
        """Where the deepest part of the path that exists starts and ends."""
        root = _tree(self._working)
        if root is None:
            return Place(1, 1), Place(1, 1)
        _, node = deepest(root, path)
        return _mark_place(node.start_mark), _mark_place(node.end_mark)

    def spot(self, path: Path, *, key: bool = False) -> Spot | None:
        """How the value at a path, or with key its name, is written; None where there is none."""
        root = _tree(self._working)
        if root is None or len(self._working) != len(self.text):
            return None
        in_braces, parent, node, name = False, root, root, None
        for step in path:
            found = child(node, step)
            if found is None:
                return None
            parent, (name, node) = node, found
            in_braces = in_braces or bool(getattr(parent, "flow_style", False))
        wanted = name if key else node
        if wanted is None:
            return None
        style = wanted.style or "" if isinstance(wanted, ScalarNode) else "group"
        start, end = wanted.start_mark.index, wanted.end_mark.index
        return Spot(start, end, style, parent.start_mark.column, in_braces)


def read(file: str, raw: bytes, *, limit: int = MOST_BYTES) -> Document:
    """A file's values and problems; never raises on what the file holds.

    Raises:
        WitnessmarkError: PyYAML was built without libyaml.

    """
    need_libyaml()
    text = decode(raw, limit=limit)
    slips = list(text.slips)
    if slips and not text.written:
        return _document(file, text, "", slips, None)
    merged = conflicts(text.working)
    slips.extend(merged.slips)
    working, root = _composed(merged.working, slips)
    data = None
    if root is not None:
        data = _built(working, root, slips, is_mended=working != merged.working)
    return _document(file, text, working, slips, data)


def _composed(text: str, slips: list[Slip]) -> tuple[str, Node | None]:
    """The text as far as it can be read and its tree; None where there is none to build on."""
    if not wants_walk(text):
        try:
            return text, _checked_root(compose(text), text, slips)
        except yaml.YAMLError:
            pass  # the slow way below finds the causes one by one
    return _mended_root(text, slips)


def _mended_root(text: str, slips: list[Slip]) -> tuple[str, Node | None]:
    """The slow way: causes found one by one, then the tree of what can be read."""
    found = mended(text)
    for mend in found.mends:
        if not _follows_from(mend, text, slips):
            slips.append(_slip(mend))
    text, seen = _first_record(found.text, slips)
    if seen.too_deep is not None or seen.too_many is not None:
        slips.append(_too_much(seen))
        return "", None
    if seen.fault is not None:
        if len(found.mends) < MOST_MENDS and not _is_explained(seen.fault, text, slips):
            slips.append(_slip(unreadable(text, seen.fault)))
        return "", None
    text = without_shortcuts(text, seen, slips)
    return text, _checked_root(compose(text), text, slips) if text else None


def _first_record(text: str, slips: list[Slip]) -> tuple[str, Walk]:
    seen = walk(text)
    if seen.second is None:
        return text, seen
    message = "a second record starts here"
    slips.append(Slip(code=codes.SECOND, index=seen.second, message=message))
    text = text[: seen.second]
    return text, walk(text)


def _follows_from(mend: Mend, text: str, slips: list[Slip]) -> bool:
    """True when something read by a guess further up, or on the line, may well be the cause."""
    start = text.rfind("\n", 0, mend.index) + 1
    end = text.find("\n", mend.index) % (len(text) + 1)
    if any(slip.code in _UNSURE and start <= slip.index <= end for slip in slips):
        return True
    is_in_brackets = mend.code == codes.COLON and not {"[", "{"}.isdisjoint(
        text[start : mend.index]
    )
    if mend.code not in (codes.INDENT, codes.UNREADABLE) and not is_in_brackets:
        return False
    return any(slip.code in _LEADING and slip.index < start for slip in slips)


def _is_explained(fault: Fault, text: str, slips: list[Slip]) -> bool:
    """True when a cause already named may well have led to this fault too."""
    line = text.count("\n", 0, fault.at)
    return any(slip.code in _UNSURE or text.count("\n", 0, slip.index) == line for slip in slips)


def _too_much(seen: Walk) -> Slip:
    if seen.too_deep is not None:
        message = f"more than {MOST_DEPTH} levels are nested here"
        return Slip(code=codes.DEEP, index=seen.too_deep, message=message)
    message = f"the file holds more than {MOST_NODES:,} values, counted up to here"
    return Slip(code=codes.MANY, index=seen.too_many or 0, message=message)


def _checked_root(root: Node | None, text: str, slips: list[Slip]) -> Node | None:
    """The root when it is a group of fields; else None, with the reason unless one is known."""
    if isinstance(root, MappingNode):
        return root
    is_word = isinstance(root, ScalarNode)
    is_empty = root is None or (isinstance(root, ScalarNode) and root.value + root.style == "")
    if is_empty and not slips:
        slips.append(Slip(code=codes.EMPTY, index=0, message="this file holds no record yet"))
    elif root is not None and not is_empty and not (slips and is_word):
        index = root.start_mark.index
        start = shown(line_of(text, index).strip())
        message = f'the file starts with "{start}"; a record starts with a field, such as `id:`'
        slips.append(Slip(code=codes.NOT_FIELDS, index=index, message=message))
    return None


def _built(text: str, root: Node, slips: list[Slip], *, is_mended: bool) -> Plain:
    builder = Builder(is_mended=is_mended)
    data = builder.value(root)
    if slips or builder.slips:
        nodes = list(placed_nodes(root))
        slips[:_MOST_PATHS] = [_with_path(slip, nodes) for slip in slips[:_MOST_PATHS]]
        paths = {id(node): path for node, path in nodes}
        slips.extend(_node_slip(slip, paths[id(slip.node)]) for slip in builder.slips)
    if any(_may_cut(text, match) for match in _REMARK.finditer(text)):
        slips.extend(_lost_texts(text, root))
    return _restored(data) if is_mended else data


def _with_path(slip: Slip, nodes: list[tuple[Node, Path]]) -> Slip:
    """The slip with the path of the innermost value it stands in, if it stands in one."""
    within = [
        path for node, path in nodes if node.start_mark.index <= slip.index < node.end_mark.index
    ]
    return replace(slip, path=within[-1]) if within and not slip.path else slip


def _may_cut(text: str, remark: re.Match[str]) -> bool:
    """True when a comment, if it is one, might cut a text short: quick, and a wide guess."""
    before = text[text.rfind("\n", 0, remark.start()) + 1 : remark.start()]
    if not before.strip() or before[-1] not in " \t":
        return False
    return is_cut_short(f"a {before}", remark[0])


def _lost_texts(text: str, root: Node) -> Iterator[Slip]:
    """Every unquoted text that a comment seems to cut short."""
    for node, path in placed_nodes(root):
        if node.__class__ is not ScalarNode or node.style != "":
            continue
        match = _COMMENT.match(text, node.end_mark.index)
        if match and is_cut_short(text[node.start_mark.index : match.start(1)], match[1]):
            yield replace(_slip(lost_text(text, match.start(1))), path=path)


def _node_slip(slip: NodeSlip, path: Path) -> Slip:
    return Slip(
        code=slip.code,
        index=slip.node.start_mark.index,
        message=slip.message,
        fix=slip.fix,
        level=slip.level,
        path=path,
    )


def _slip(mend: Mend) -> Slip:
    return Slip(code=mend.code, index=mend.index, message=mend.message, fix=mend.fix)


def _document(file: str, text: Text, working: str, slips: list[Slip], data: Plain) -> Document:
    problems = (_diagnostic(file, text.working, slip) for slip in slips)
    ordered = sorted(problems, key=lambda problem: (problem.line, problem.column))
    return Document(file, text.written, data, tuple(ordered), working if data is not None else "")


def _diagnostic(file: str, text: str, slip: Slip) -> Diagnostic:
    cause = codes.SOURCE_CODES[slip.code]
    return Diagnostic(
        code=slip.code,
        level=slip.level or cause.level,
        file=file,
        line=text.count("\n", 0, slip.index) + 1,
        column=slip.index - text.rfind("\n", 0, slip.index),
        record=None,
        field=field_name(slip.path),
        message=restored(slip.message),
        why=cause.why,
        fix=restored(slip.fix or cause.fix),
        path=slip.path,
    )


def _restored(data: Plain) -> Plain:
    """The values with every sign back that a mend had hidden from the reader."""
    if isinstance(data, str):
        return restored(data)
    if isinstance(data, list):
        return [_restored(value) for value in data]
    if isinstance(data, dict):
        return {restored(name): _restored(value) for name, value in data.items()}
    return data


@lru_cache(maxsize=4)
def _tree(working: str) -> Node | None:
    """The tree of a text; kept for the few files last asked about, since trees are large."""
    return compose(working)


def _mark_place(mark: yaml.Mark) -> Place:
    return Place(mark.line + 1, mark.column + 1)
