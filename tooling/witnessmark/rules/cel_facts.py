"""What is sure about the record once a condition is known to be true or false.

`option.mass != null && option.mass > 2.0` is sound because the second term counts only where the
first is true.
"""

from __future__ import annotations

from functools import reduce

from witnessmark.rules.cel_tree import Binary, Has, Index, Literal, Logic, Node, Select, Unary

Facts = frozenset[tuple[str, Node]]
"""Pairs of "there" or "not null" and the piece of the record that is so."""

NOTHING: Facts = frozenset()


def facts(condition: Node, *, when: bool) -> Facts:
    """All that is sure where the condition is true (`when`) or false."""
    match condition:
        case Unary(sign="!", operand=operand):
            return facts(operand, when=not when)
        case Logic(sign=sign, terms=terms):
            return _of_logic(sign, terms, when=when)
        case Has(select=select) if when:
            return _there(select)
        case Binary(sign="==" | "!=", left=left, right=right):
            return _of_equality(left, right, equal=(condition.sign == "==") is when)
        case Binary(sign="in", left=key, right=container) if when:
            return _of_membership(key, container)
    return NOTHING


def _of_logic(sign: str, terms: tuple[Node, ...], *, when: bool) -> Facts:
    each = [facts(term, when=when) for term in terms]
    all_hold = (sign == "&&") is when
    return reduce(frozenset.union if all_hold else frozenset.intersection, each)


def _of_equality(left: Node, right: Node, *, equal: bool) -> Facts:
    if not isinstance(right, Literal):
        left, right = right, left
    if not isinstance(right, Literal) or (right.kind == "null") is equal:
        return NOTHING
    return frozenset({("not null", left)}) if right.kind == "null" or equal else NOTHING


def _of_membership(key: Node, container: Node) -> Facts:
    found: Facts = frozenset({("there", Index(0, 0, container, key))})
    if isinstance(key, Literal) and key.kind == "text":
        found |= {("there", Select(0, 0, container, str(key.value), 0))}
    return found


def _there(select: Select) -> Facts:
    index = Index(0, 0, select.operand, Literal(0, 0, "text", select.key))
    return frozenset({("there", select), ("there", index)})
