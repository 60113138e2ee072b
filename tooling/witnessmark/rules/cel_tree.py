"""The tree of an expression: what stands where.

Two pieces that say the same compare equal, wherever they stand.
"""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Node:
    """A piece of an expression, and the offsets from 0 it stands at.

    Places do not count when two nodes are compared.
    """

    start: int = field(compare=False)
    end: int = field(compare=False)

    @property
    def column(self) -> int:
        """Its first character, counted from 1."""
        return self.start + 1


@dataclass(frozen=True, slots=True)
class Literal(Node):
    """A value written out; its `kind` is part of it, so that 1, 1.0 and true differ."""

    kind: str
    value: str | int | float | bool | None


@dataclass(frozen=True, slots=True)
class Name(Node):
    """A variable."""

    name: str


@dataclass(frozen=True, slots=True)
class Select(Node):
    """`operand.key`; `mark` is the offset of the field's name."""

    operand: Node
    key: str
    mark: int = field(compare=False)


@dataclass(frozen=True, slots=True)
class Index(Node):
    """`operand[at]`."""

    operand: Node
    at: Node


@dataclass(frozen=True, slots=True)
class Call(Node):
    """`name(arguments)`, or `target.name(arguments)`."""

    name: str
    target: Node | None
    arguments: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class Has(Node):
    """`has(operand.field)`."""

    select: Select


@dataclass(frozen=True, slots=True)
class Macro(Node):
    """`over.name(variable, body)`; `mark` is the offset of the variable."""

    name: str
    over: Node
    variable: str
    body: Node
    mark: int = field(compare=False)


@dataclass(frozen=True, slots=True)
class Listing(Node):
    """`[item, ..]`."""

    items: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class Pairs(Node):
    """`{key: value, ..}`."""

    entries: tuple[tuple[Node, Node], ...]


@dataclass(frozen=True, slots=True)
class Unary(Node):
    """`!operand` or `-operand`."""

    sign: str
    operand: Node


@dataclass(frozen=True, slots=True)
class Binary(Node):
    """A comparison, `in`, or arithmetic."""

    sign: str
    left: Node
    right: Node


@dataclass(frozen=True, slots=True)
class Logic(Node):
    """Terms joined by `&&` or by `||`, in the order written."""

    sign: str
    terms: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class Ternary(Node):
    """`test ? yes : no`."""

    test: Node
    yes: Node
    no: Node


def free_names(node: Node, *, bound: frozenset[str] = frozenset()) -> frozenset[str]:
    """The variables the expression reads from its record, without those a macro makes."""
    if isinstance(node, Name):
        return frozenset() if node.name in bound else frozenset({node.name})
    if isinstance(node, Macro):
        return free_names(node.over, bound=bound) | free_names(
            node.body, bound=bound | {node.variable}
        )
    found: frozenset[str] = frozenset()
    for child in children(node):
        found |= free_names(child, bound=bound)
    return found


def children(node: Node) -> tuple[Node, ...]:
    """The nodes right under this one, in the order written."""
    match node:
        case Select(operand=operand) | Unary(operand=operand):
            return (operand,)
        case Has(select=select):
            return (select,)
        case (
            Index(operand=left, at=right)
            | Binary(left=left, right=right)
            | Macro(over=left, body=right)
        ):
            return (left, right)
        case Call(target=target, arguments=arguments):
            return arguments if target is None else (target, *arguments)
        case Listing(items=items) | Logic(terms=items):
            return items
        case Pairs(entries=entries):
            return tuple(part for entry in entries for part in entry)
        case Ternary(test=test, yes=yes, no=no):
            return (test, yes, no)
    return ()
