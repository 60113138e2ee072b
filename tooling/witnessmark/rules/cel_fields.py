"""Checks an expression against the described shape of the record, before any rule runs.

CEL itself looks a field up only when a rule runs, and its logic takes an error for an answer
wherever the other term decides (cel-spec, langdef, "Logical Operators": `r.nope > 1 || true` is
true). A misspelt field could so hide for ever. Here every field, closed word, possible null and
mixing of kinds is looked at once, when the rule book loads.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from difflib import SequenceMatcher
from typing import TYPE_CHECKING

from witnessmark.rules.cel_facts import NOTHING, Facts, facts
from witnessmark.rules.cel_functions import GLOBALS, METHODS
from witnessmark.rules.cel_grammar import ExpressionFault, parse
from witnessmark.rules.cel_shapes import (
    ANY,
    BOOL,
    DOUBLE,
    INT,
    NULL,
    TEXT,
    Shape,
    fields_of,
    joined,
    shape_of,
)
from witnessmark.rules.cel_tree import (
    Binary,
    Call,
    Has,
    Index,
    Listing,
    Literal,
    Logic,
    Macro,
    Name,
    Node,
    Pairs,
    Select,
    Ternary,
    Unary,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

_LITERALS = {"int": INT, "double": DOUBLE, "bool": BOOL, "null": NULL}
_TAKES = {
    "sized": ("text", "list", "map"),
    "scalar": ("text", "int", "double"),
    "spelt": ("text", "int", "bool"),
}
_CLEAR = 0.7
_LEAD = 0.08
"""How like a known name a misspelling must be, and by how much the best must lead.

Common practice, no source.
"""


@dataclass(frozen=True, slots=True)
class FieldFault:
    """One thing a record cannot answer; `column` counts the expression's characters from 1."""

    message: str
    column: int


@dataclass(frozen=True, slots=True)
class _Scope:
    """The variables that can be named at a place in an expression, and what is sure there."""

    variables: Mapping[str, Shape]
    known: Facts = NOTHING

    def sure_of(self, found: Facts) -> _Scope:
        return replace(self, known=self.known | found)

    def with_variable(self, name: str, shape: Shape) -> _Scope:
        return replace(self, variables={**self.variables, name: shape})


def check_fields(
    expression: str,
    *,
    variables: Mapping[str, type],
    gives: tuple[str, ...] = ("bool",),
    known: Facts = NOTHING,
) -> list[FieldFault]:
    """All in the expression that a record of the described shape cannot answer, in order.

    `variables` are the names an expression may use with the types that describe them; `gives` the
    kinds its answer may have; `known` what is sure because another condition was asked first.
    """
    try:
        tree = parse(expression)
    except ExpressionFault as fault:
        return [FieldFault(fault.message, fault.column)]
    walk = _Walk(expression)
    scope = _Scope({name: shape_of(annotation) for name, annotation in variables.items()}, known)
    walk.needed(tree, scope, kinds=gives, by="the answer")
    return sorted(set(walk.faults), key=lambda fault: (fault.column, fault.message))


def clear_spelling(word: str, *, among: Iterable[str]) -> str | None:
    """The one known word this was meant to be, or None where there is no clear winner."""
    scored = sorted(
        ((SequenceMatcher(None, word, known).ratio(), known) for known in among), reverse=True
    )
    if not scored or scored[0][0] < _CLEAR:
        return None
    return scored[0][1] if len(scored) == 1 or scored[0][0] - scored[1][0] >= _LEAD else None


def _asked(word: str, among: Iterable[str]) -> str:
    meant = clear_spelling(word, among=sorted(among))
    return (
        f"; did you mean {meant}?" if meant else f"; known are {', '.join(sorted(among)) or 'none'}"
    )


@dataclass(slots=True)
class _Walk:
    """One pass over a tree that gathers faults; mutable for that alone."""

    source: str
    faults: list[FieldFault] = field(default_factory=list)

    def fault(self, message: str, column: int) -> Shape:
        self.faults.append(FieldFault(message, column))
        return ANY

    def spelled(self, node: Node) -> str:
        return self.source[node.start : node.end]

    def needed(self, node: Node, scope: _Scope, *, kinds: tuple[str, ...], by: str) -> Shape:
        """The node's shape, with a fault where it is none of the kinds or may be null."""
        shape = self.shape(node, scope)
        if shape.word != "any" and shape.word not in kinds:
            wanted = " or ".join(str(Shape(kind)) for kind in kinds)
            return self.fault(
                f"{self.spelled(node)} is {shape}, and {by} must be {wanted}", node.column
            )
        if shape.nullable:
            name = self.spelled(node)
            self.fault(f"{name} may be null here; ask {name} != null first", node.column)
            return replace(shape, nullable=False)
        return shape

    def shape(self, node: Node, scope: _Scope) -> Shape:
        """The node's shape; ANY after a fault, so that one slip is told once."""
        found: Shape = getattr(self, "_" + type(node).__name__.lower())(node, scope)
        return replace(found, nullable=False) if ("not null", node) in scope.known else found

    def _literal(self, node: Literal, _scope: _Scope) -> Shape:
        return (
            Shape("text", words=frozenset({str(node.value)}))
            if node.kind == "text"
            else _LITERALS[node.kind]
        )

    def _name(self, node: Name, scope: _Scope) -> Shape:
        if node.name in scope.variables:
            return scope.variables[node.name]
        return self.fault(
            f"there is nothing called {node.name} here{_asked(node.name, scope.variables)}",
            node.column,
        )

    def _select(self, node: Select, scope: _Scope) -> Shape:
        holder = self.needed(
            node.operand, scope, kinds=("record", "map"), by="what a field is taken from"
        )
        if holder.word == "map":
            return self._held(node, holder, scope)
        if holder.record is None:
            return ANY
        return self._field(node, holder.record, scope)

    def _field(self, node: Select, record: type, scope: _Scope) -> Shape:
        known = fields_of(record)
        if node.key not in known:
            asked = _asked(node.key, known)
            return self.fault(
                f"{self.spelled(node.operand)} has no field {node.key}{asked}", node.mark + 1
            )
        found = known[node.key]
        if not found.always_there and ("there", node) not in scope.known:
            name = self.spelled(node)
            self.fault(f"{name} may be missing; ask has({name}) first", node.mark + 1)
        return found.shape

    def _held(self, node: Select | Index, holder: Shape, scope: _Scope) -> Shape:
        if ("there", node) not in scope.known:
            key = self.spelled(node.at) if isinstance(node, Index) else repr(node.key)
            name = self.spelled(node.operand)
            self.fault(
                f"{name} may hold nothing under {key}; ask {key} in {name} first", node.column
            )
        return holder.element or ANY

    def _index(self, node: Index, scope: _Scope) -> Shape:
        holder = self.needed(
            node.operand, scope, kinds=("list", "map"), by="what an index looks into"
        )
        by = "the index of a list" if holder.word == "list" else "the key of a map"
        self.needed(
            node.at, scope, kinds=("int",) if holder.word == "list" else ("text", "int"), by=by
        )
        return self._held(node, holder, scope) if holder.word == "map" else holder.element or ANY

    def _has(self, node: Has, scope: _Scope) -> Shape:
        select = node.select
        holder = self.needed(
            select.operand, scope, kinds=("record", "map"), by="what has() asks about"
        )
        if holder.record is None:
            return BOOL
        known = fields_of(holder.record)
        if select.key not in known:
            name = self.spelled(select.operand)
            self.fault(
                f"{name} has no field {select.key}{_asked(select.key, known)}", select.mark + 1
            )
        elif known[select.key].always_there:
            self.fault(
                f"{self.spelled(select)} is always there, so has() is always true", select.mark + 1
            )
        return BOOL

    def _macro(self, node: Macro, scope: _Scope) -> Shape:
        over = self.needed(
            node.over, scope, kinds=("list", "map"), by=f"what {node.name}() looks through"
        )
        if node.variable in scope.variables:
            self.fault(
                f"{node.variable} already names something here; give {node.name}() another word",
                node.mark + 1,
            )
        held = TEXT if over.word == "map" else over.element or ANY
        inner = scope.with_variable(node.variable, held)
        if node.name == "map":
            return Shape("list", element=self.shape(node.body, inner))
        self.needed(node.body, inner, kinds=("bool",), by=f"the condition of {node.name}()")
        return Shape("list", element=held) if node.name == "filter" else BOOL

    def _call(self, node: Call, scope: _Scope) -> Shape:
        signature = (GLOBALS if node.target is None else METHODS)[node.name]
        target = ANY
        if node.target is not None and signature.on is not None:
            kinds = _TAKES.get(signature.on, (signature.on,))
            target = self.needed(node.target, scope, kinds=kinds, by=f"what {node.name}() works on")
        for argument, taken in zip(node.arguments, signature.takes, strict=True):
            self.needed(
                argument, scope, kinds=_TAKES.get(taken, (taken,)), by=f"what {node.name}() takes"
            )
        return self._given(node, signature.gives, target)

    def _given(self, node: Call, gives: str, target: Shape) -> Shape:
        element = target.element or ANY
        if node.name == "join" and element.word not in ("text", "any"):
            self.fault(
                f"join() takes a list of texts, and this is a list of {element.word}", node.column
            )
        if node.name == "flatten" and element.word not in ("list", "any"):
            self.fault("flatten() takes a list of lists", node.column)
        if gives == "text list":
            return Shape("list", element=TEXT)
        return {"same": target, "element": element}.get(gives) or Shape(gives)

    def _listing(self, node: Listing, scope: _Scope) -> Shape:
        return Shape("list", element=self._together(node.items, scope))

    def _pairs(self, node: Pairs, scope: _Scope) -> Shape:
        for key, _ in node.entries:
            self.needed(key, scope, kinds=("text",), by="the key of a map")
        return Shape("map", element=self._together([value for _, value in node.entries], scope))

    def _together(self, nodes: Iterable[Node], scope: _Scope) -> Shape | None:
        whole: Shape | None = None
        for node in nodes:
            shape = self.shape(node, scope)
            joint = shape if whole is None else joined(whole, shape)
            if joint is None:
                return self.fault(f"{self.spelled(node)} is {shape} among {whole}s", node.column)
            whole = joint
        return whole

    def _unary(self, node: Unary, scope: _Scope) -> Shape:
        if node.sign == "!":
            return self.needed(node.operand, scope, kinds=("bool",), by="what ! turns round")
        return self.needed(
            node.operand, scope, kinds=("int", "double"), by="what a minus stands before"
        )

    def _logic(self, node: Logic, scope: _Scope) -> Shape:
        for term in node.terms:
            self.needed(term, scope, kinds=("bool",), by=f"a term of {node.sign}")
            scope = scope.sure_of(facts(term, when=node.sign == "&&"))
        return BOOL

    def _ternary(self, node: Ternary, scope: _Scope) -> Shape:
        self.needed(node.test, scope, kinds=("bool",), by="what stands before ?")
        yes = self.shape(node.yes, scope.sure_of(facts(node.test, when=True)))
        no = self.shape(node.no, scope.sure_of(facts(node.test, when=False)))
        found = joined(yes, no)
        return found or self.fault(
            f"? : gives {yes} or {no}; both answers must be of one kind", node.column
        )

    def _binary(self, node: Binary, scope: _Scope) -> Shape:
        if node.sign in ("==", "!="):
            return self._equality(node, scope)
        if node.sign == "in":
            return self._membership(node, scope)
        if node.sign in ("<", "<=", ">", ">="):
            return self._ordering(node, scope)
        return self._arithmetic(node, scope)

    def _equality(self, node: Binary, scope: _Scope) -> Shape:
        left, right = self.shape(node.left, scope), self.shape(node.right, scope)
        self._alike(node.left, left, node.right, right)
        return BOOL

    def _alike(self, one: Node, left: Shape, other: Node, right: Shape) -> None:
        """Faults a comparison that fails, or whose answer is known, whatever the record says."""
        if "any" in (left.word, right.word):
            return
        if "null" in (left.word, right.word):
            node, shape = (one, left) if right.word == "null" else (other, right)
            if not shape.nullable and shape.word != "null":
                self.fault(f"{self.spelled(node)} is never null here", node.column)
            return
        if left.word != right.word:
            hint = "; write the whole number with .0" if left.is_number and right.is_number else ""
            both = f"{self.spelled(one)} is {left} and {self.spelled(other)} is {right}"
            self.fault(f"{both}: they cannot be compared{hint}", one.column)
        elif left.words is not None and right.words is not None and not left.words & right.words:
            self._never_that_word(one, left.words, other, right.words)

    def _never_that_word(
        self, one: Node, left: frozenset[str], other: Node, right: frozenset[str]
    ) -> None:
        if isinstance(one, Literal):
            one, left, other, right = other, right, one, left
        asked = _asked(next(iter(right)), left) if len(right) == 1 else ""
        self.fault(f"{self.spelled(one)} is never {self.spelled(other)}{asked}", other.column)

    def _membership(self, node: Binary, scope: _Scope) -> Shape:
        sought = self.shape(node.left, scope)
        holder = self.needed(node.right, scope, kinds=("list", "map"), by="what stands after `in`")
        if isinstance(node.right, Listing):
            for item in node.right.items:
                self._alike(node.left, sought, item, self.shape(item, scope))
        elif holder.word == "map":
            self._alike(node.left, sought, node.right, TEXT)
        elif holder.element is not None:
            self._alike(node.left, sought, node.right, holder.element)
        return BOOL

    def _ordering(self, node: Binary, scope: _Scope) -> Shape:
        kinds = ("int", "double", "text")
        left = self.needed(node.left, scope, kinds=kinds, by=f"what {node.sign} compares")
        right = self.needed(node.right, scope, kinds=kinds, by=f"what {node.sign} compares")
        if "any" not in (left.word, right.word) and left.is_number is not right.is_number:
            both = f"{self.spelled(node.left)} is {left} and {self.spelled(node.right)} is {right}"
            self.fault(f"{both}: they cannot be compared", node.left.column)
        return BOOL

    def _arithmetic(self, node: Binary, scope: _Scope) -> Shape:
        kinds = {"+": ("int", "double", "text", "list"), "%": ("int",)}.get(
            node.sign, ("int", "double")
        )
        left = self.needed(node.left, scope, kinds=kinds, by=f"what {node.sign} joins")
        right = self.needed(node.right, scope, kinds=kinds, by=f"what {node.sign} joins")
        if "any" in (left.word, right.word):
            return right if left.word == "any" else left
        if left.word != right.word:
            hint = (
                "; write whole numbers with .0 or use double(..)"
                if left.is_number and right.is_number
                else ""
            )
            both = f"{self.spelled(node.left)} is {left} and {self.spelled(node.right)} is {right}"
            return self.fault(
                f"{both}: CEL does not join them by {node.sign}{hint}", node.left.column
            )
        return TEXT if left.word == "text" else joined(left, right) or left
