"""The part of CEL our rules are written in, read into a tree that knows its columns.

Source: the CEL specification (github.com/google/cel-spec, doc/langdef.md), "Syntax" and "Macros".
Left out, each with its own message: bytes, unsigned numbers, messages, comments, optional
selection, chained comparisons, macros of two variables. The engine reads the whole language; this
reader exists so that every field name can be checked before a rule runs.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from witnessmark.rules.cel_functions import GLOBALS, MACROS, METHODS
from witnessmark.rules.cel_tokens import KEYWORDS, RESERVED, ExpressionFault, Token, tokens
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
    from collections.abc import Callable

__all__ = ["ExpressionFault", "parse"]

DEEPEST = 32
"""Levels of nesting; the limit of the compiled engine (measured on cel-expr-python 0.1.3)."""

_COMPARISONS = ("==", "!=", "<", "<=", ">", ">=", "in")
_WORDS = {"true": ("bool", True), "false": ("bool", False), "null": ("null", None)}
_GREATEST = 2**63 - 1


# Check, engine and free names each ask for the same tree; it is frozen, so it is shared.
@lru_cache(maxsize=1024)
def parse(source: str) -> Node:
    """The tree of the expression.

    Raises:
        ExpressionFault: it is not CEL, or it uses a part of CEL that rules leave out.

    """
    reader = _Reader(list(tokens(source)))
    tree = reader.expression()
    reader.expect_end()
    return tree


class _Reader:
    """Reads tokens by recursive descent, one method a level of precedence (langdef, "Syntax")."""

    def __init__(self, found: list[Token]) -> None:
        self._tokens = found
        self._place = 0
        self._depth = 0

    @property
    def _next(self) -> Token:
        return self._tokens[self._place]

    @property
    def _end(self) -> int:
        return self._tokens[self._place - 1].end

    def _take(self) -> Token:
        token = self._next
        self._place += 1
        return token

    def _at(self, *signs: str) -> bool:
        return self._next.kind == "sign" and self._next.value in signs

    def _skip(self, sign: str) -> bool:
        found = self._at(sign)
        self._place += found
        return found

    def _expect(self, sign: str, *, why: str) -> None:
        if not self._skip(sign):
            raise ExpressionFault(
                f"{_spelled(self._next)} stands where `{sign}` {why}", self._next.column
            )

    def _deeper(self) -> None:
        self._depth += 1
        if self._depth > DEEPEST:
            message = f"the expression is nested more than {DEEPEST} deep; make it simpler"
            raise ExpressionFault(message, self._next.column)

    def expect_end(self) -> None:
        """Refuses anything after a whole expression."""
        if self._next.kind != "end":
            message = f"{_spelled(self._next)} follows a whole expression; join them with && or ||"
            raise ExpressionFault(message, self._next.column)

    def expression(self) -> Node:
        """A whole expression, or one inside brackets."""
        self._deeper()
        test = self._either()
        if self._skip("?"):
            yes = self._either()
            self._expect(":", why="should part the two answers of `? :`")
            no = self.expression()
            test = Ternary(test.start, self._end, test, yes, no)
        self._depth -= 1
        return test

    def _either(self) -> Node:
        return self._logic("||", self._both)

    def _both(self) -> Node:
        return self._logic("&&", self._comparison)

    def _logic(self, sign: str, term: Callable[[], Node]) -> Node:
        terms = [term()]
        while self._skip(sign):
            terms.append(term())
        return terms[0] if len(terms) == 1 else Logic(terms[0].start, self._end, sign, tuple(terms))

    def _comparison(self) -> Node:
        left = self._sum()
        if not self._at_comparison():
            return left
        sign = str(self._take().value)
        right = self._sum()
        if self._at_comparison():
            message = "compare two things at a time, and join the comparisons with &&"
            raise ExpressionFault(message, self._next.column)
        return Binary(left.start, self._end, sign, left, right)

    def _at_comparison(self) -> bool:
        return self._next.kind in ("sign", "word") and self._next.value in _COMPARISONS

    def _sum(self) -> Node:
        return self._chain(("+", "-"), self._product)

    def _product(self) -> Node:
        return self._chain(("*", "/", "%"), self._unary)

    def _chain(self, signs: tuple[str, ...], operand: Callable[[], Node]) -> Node:
        left, before = operand(), self._depth
        while self._at(*signs):
            self._deeper()
            sign = str(self._take().value)
            right = operand()
            left = Binary(left.start, self._end, sign, left, right)
        self._depth = before
        return left

    def _unary(self) -> Node:
        if not self._at("!", "-"):
            return self._member()
        token = self._take()
        if token.value == "-" and self._next.kind in ("int", "double"):
            number = self._take()
            return Literal(token.start, number.end, number.kind, -number.value)  # type: ignore[operator]
        self._deeper()
        operand = self._unary()
        self._depth -= 1
        return Unary(token.start, self._end, str(token.value), operand)

    def _member(self) -> Node:
        node, before = self._primary(), self._depth
        while self._at(".", "[", ".?"):
            self._deeper()
            token = self._take()
            node = self._index(node) if token.value == "[" else self._selection(node, token)
        self._depth = before
        return node

    def _index(self, operand: Node) -> Node:
        at = self.expression()
        self._expect("]", why="should close the index")
        return Index(operand.start, self._end, operand, at)

    def _selection(self, operand: Node, dot: Token) -> Node:
        if dot.value == ".?":
            message = "`.?` is not used in rules; ask has(..) or compare with null, then use `? :`"
            raise ExpressionFault(message, dot.column)
        field = self._word("a field's or a method's name should follow the dot")
        if not self._skip("("):
            return Select(operand.start, self._end, operand, str(field.value), field.start)
        if field.value in MACROS:
            return self._macro(operand, field)
        return self._call(operand, field)

    def _word(self, expected: str) -> Token:
        token = self._take()
        if token.kind != "word" or token.value in KEYWORDS:
            raise ExpressionFault(f"{_spelled(token)} stands where {expected}", token.column)
        return token

    def _macro(self, over: Node, word: Token) -> Node:
        variable = self._word(
            f"{word.value}() should name its variable, as in {word.value}(part, ..)"
        )
        self._expect(",", why=f"should follow the variable of {word.value}()")
        body = self.expression()
        self._expect(")", why=f"should close {word.value}(variable, condition)")
        name = _unreserved(variable)
        return Macro(over.start, self._end, str(word.value), over, name, body, variable.start)

    def _call(self, target: Node | None, word: Token) -> Node:
        name = str(word.value)
        known = GLOBALS if target is None else METHODS
        if name not in known:
            message = (
                f"{name}() is not a function rules may call; they are {', '.join(sorted(known))}"
            )
            raise ExpressionFault(message, word.column)
        arguments = self._several(")", closing=f"should close {name}(..)")
        if len(arguments) != (wanted := len(known[name].takes)):
            raise ExpressionFault(
                f"{name}() takes {wanted} values here and has {len(arguments)}", word.column
            )
        start = word.start if target is None else target.start
        return Call(start, self._end, name, target, arguments)

    def _several(self, close: str, *, closing: str) -> tuple[Node, ...]:
        found: list[Node] = []
        while not self._at(close):
            found.append(self.expression())
            if not self._skip(","):
                break
            if self._at(close):
                raise ExpressionFault(
                    "nothing follows the last comma; take the comma out", self._next.column
                )
        self._expect(close, why=closing)
        return tuple(found)

    def _primary(self) -> Node:
        token = self._take()
        if token.kind in ("int", "double", "text"):
            return self._literal(token)
        if token.kind == "word":
            return self._name(token)
        opened = {"(": self._group, "[": self._listing, "{": self._pairs}.get(str(token.value))
        if token.kind != "sign" or opened is None:
            raise ExpressionFault(f"{_spelled(token)} stands where a value should", token.column)
        return opened(token)

    def _literal(self, token: Token) -> Node:
        if token.kind == "int" and token.value == _GREATEST + 1:
            raise ExpressionFault(
                f"{token.value} is too great for a whole number of 64 bits", token.column
            )
        return Literal(token.start, token.end, token.kind, token.value)

    def _name(self, token: Token) -> Node:
        if token.value in _WORDS:
            kind, value = _WORDS[str(token.value)]
            return Literal(token.start, token.end, kind, value)
        if not self._skip("("):
            return Name(token.start, token.end, _unreserved(token))
        return self._has(token) if token.value == "has" else self._call(None, token)

    def _has(self, word: Token) -> Node:
        select = self.expression()
        self._expect(")", why="should close has(..)")
        if not isinstance(select, Select):
            message = "has() asks about one field, as in has(part.mass)"
            raise ExpressionFault(message, select.column)
        return Has(word.start, self._end, select)

    def _group(self, _opening: Token) -> Node:
        inner = self.expression()
        self._expect(")", why="should close the bracket")
        return inner

    def _listing(self, opening: Token) -> Node:
        found = self._several("]", closing="should close the list")
        return Listing(opening.start, self._end, found)

    def _pairs(self, opening: Token) -> Node:
        entries: list[tuple[Node, Node]] = []
        while not self._at("}"):
            key = self.expression()
            self._expect(":", why="should follow the key")
            entries.append((key, self.expression()))
            if not self._skip(","):
                break
        self._expect("}", why="should close the map")
        return Pairs(opening.start, self._end, tuple(entries))


def _unreserved(token: Token) -> str:
    if token.value in RESERVED | KEYWORDS:
        raise ExpressionFault(
            f"{token.value} is a word of CEL itself and cannot name a value", token.column
        )
    return str(token.value)


def _spelled(token: Token) -> str:
    return "the end" if token.kind == "end" else repr(token.value)
