"""What can be told of an expression at sight, without the engine: true, false, or not known.

Nearly every question a rule puts to a record is a plain one, and asking the engine costs more than
the answer. Whatever is not plain here is `NOT_KNOWN`, and the engine is asked. Nothing is decided
against a record at sight: a rule only counts as kept, or as not meant, and every breach is the
engine's own. The tests hold each answer against the engine's.

Source: the CEL specification (github.com/google/cel-spec, doc/langdef.md): "Logical operators" and
"Macros" for errors that a true or false absorbs, "Equality" for values of like types.
"""

from __future__ import annotations

import operator
from collections.abc import Callable, Mapping

from witnessmark.rules.cel_sight_calls import (
    LONGEST,
    NOT_KNOWN,
    Record,
    Sight,
    called,
    placed,
    summed,
)
from witnessmark.rules.cel_tree import (
    Binary,
    Call,
    Index,
    Listing,
    Literal,
    Logic,
    Macro,
    Name,
    Node,
    Select,
    Unary,
)

__all__ = ["NOT_KNOWN", "Sight", "at_sight"]

_ORDERS: Mapping[str, Callable[..., bool]] = {
    "<": operator.lt,
    "<=": operator.le,
    ">": operator.gt,
    ">=": operator.ge,
    "==": operator.eq,
    "!=": operator.ne,
}


def at_sight(node: Node) -> Sight:  # noqa: C901, PLR0912  one case a kind of node
    """What gives the value of an expression from a record, or NOT_KNOWN."""
    match node:
        case Literal(value=value) if value is None or isinstance(value, str | bool | int | float):
            return _always(value)
        case Name(name=name):
            return lambda record: record.get(name, NOT_KNOWN)
        case Select(operand=Name(name=name), key=key):
            return _field_of(name, key)
        case Select(operand=operand, key=key):
            return _field(at_sight(operand), key)
        case Unary(sign="!", operand=operand):
            return _negated(at_sight(operand))
        case Logic(sign=sign, terms=terms):
            return _joined([at_sight(term) for term in terms], decides=sign == "||")
        case Binary(
            sign="==" | "!=" as sign,
            left=Select(operand=Name(name=name), key=key),
            right=Literal(value=str(word)),
        ):
            return _is_word(name, key, word, same=sign == "==")
        case Binary(sign="in", left=left, right=right):
            return _among(at_sight(left), at_sight(right))
        case Binary(sign=sign, left=left, right=right) if sign in _ORDERS:
            return _compared(at_sight(left), at_sight(right), _ORDERS[sign])
        case Listing(items=items) if all(isinstance(item, Literal) for item in items):
            listed = [item.value for item in items if isinstance(item, Literal)]
            return _always(listed)
        case Binary(sign="+" | "-" as sign, left=left, right=right):
            return summed(sign, at_sight(left), at_sight(right))
        case Index(operand=operand, at=at):
            return placed(at_sight(operand), at_sight(at))
        case Call(name=name, target=target, arguments=arguments):
            owner = None if target is None else at_sight(target)
            sight = called(name, owner, tuple(at_sight(one) for one in arguments))
            return sight or _always(NOT_KNOWN)
        case Macro(name="exists" | "all" as name, over=over, variable=variable, body=body):
            return _each(at_sight(over), variable, at_sight(body), decides=name == "exists")
        case Macro(name="exists_one", over=over, variable=variable, body=body):
            return _one_of(_filtered(at_sight(over), variable, at_sight(body)))
        case Macro(name="filter", over=over, variable=variable, body=body):
            return _filtered(at_sight(over), variable, at_sight(body))
        case Macro(name="map", over=over, variable=variable, body=body):
            return _mapped(at_sight(over), variable, at_sight(body))
    return _always(NOT_KNOWN)


def _always(value: object) -> Sight:
    return lambda _: value


def _field(owner: Sight, key: str) -> Sight:
    def told(record: Record) -> object:
        group = owner(record)
        return group.get(key, NOT_KNOWN) if type(group) is dict else NOT_KNOWN

    return told


def _field_of(name: str, key: str) -> Sight:
    """A field of a variable: by far the most asked."""

    def told(record: Record) -> object:
        group = record.get(name)
        return group.get(key, NOT_KNOWN) if type(group) is dict else NOT_KNOWN

    return told


def _is_word(name: str, key: str, word: str, *, same: bool) -> Sight:
    """Whether a field of a variable is a word written out, or is not: most comparisons."""

    def told(record: Record) -> object:
        group = record.get(name)
        value = group.get(key, NOT_KNOWN) if type(group) is dict else NOT_KNOWN
        if type(value) is str:
            return (value == word) is same
        return not same if value is None else NOT_KNOWN

    return told


def _negated(term: Sight) -> Sight:
    def told(record: Record) -> object:
        value = term(record)
        return not value if isinstance(value, bool) else NOT_KNOWN

    return told


def _joined(terms: list[Sight], *, decides: bool) -> Sight:
    """`||` is true with the first true term, `&&` false with the first false one."""

    def told(record: Record) -> object:
        answer: object = not decides
        for term in terms:
            value = term(record)
            if value is decides:
                return decides
            if value is not (not decides):
                answer = NOT_KNOWN
        return answer

    return told


def _each(over: Sight, variable: str, body: Sight, *, decides: bool) -> Sight:
    """`exists` is true with the first that is, `all` false with the first that is not."""

    def told(record: Record) -> object:
        rows = over(record)
        if not isinstance(rows, list) or len(rows) > LONGEST:
            return NOT_KNOWN
        answer: object = not decides
        inside = dict(record) if rows else {}
        for row in rows:
            inside[variable] = row
            value = body(inside)
            if value is decides:
                return decides
            if value is not (not decides):
                answer = NOT_KNOWN
        return answer

    return told


def _filtered(over: Sight, variable: str, body: Sight) -> Sight:
    def told(record: Record) -> object:
        rows = over(record)
        if not isinstance(rows, list) or len(rows) > LONGEST:
            return NOT_KNOWN
        kept = [(row, body({**record, variable: row})) for row in rows]
        known = all(isinstance(value, bool) for _, value in kept)
        return [row for row, value in kept if value] if known else NOT_KNOWN

    return told


def _mapped(over: Sight, variable: str, body: Sight) -> Sight:
    def told(record: Record) -> object:
        rows = over(record)
        if not isinstance(rows, list) or len(rows) > LONGEST:
            return NOT_KNOWN
        made = [body({**record, variable: row}) for row in rows]
        return NOT_KNOWN if any(value is NOT_KNOWN for value in made) else made

    return told


def _one_of(kept: Sight) -> Sight:
    def told(record: Record) -> object:
        rows = kept(record)
        return len(rows) == 1 if isinstance(rows, list) else NOT_KNOWN

    return told


def _among(sought: Sight, listed: Sight) -> Sight:
    def told(record: Record) -> object:
        value, rows = sought(record), listed(record)
        if not isinstance(value, str) or not isinstance(rows, list) or len(rows) > LONGEST:
            return NOT_KNOWN
        return value in rows if all(isinstance(row, str) for row in rows) else NOT_KNOWN

    return told


def _compared(left: Sight, right: Sight, order: Callable[..., bool]) -> Sight:
    """Two texts by their characters, two numbers by size; truths and null are equal or not."""
    is_equality = order in (operator.eq, operator.ne)

    def told(record: Record) -> object:
        one, other = left(record), right(record)
        if type(one) is str and type(other) is str:
            return order(one, other)
        if type(one) in (int, float) and type(other) in (int, float):
            return order(one, other)
        if not is_equality:
            return NOT_KNOWN
        if one is None or other is None:
            known = one is not NOT_KNOWN and other is not NOT_KNOWN
            return order(one is None, other is None) if known else NOT_KNOWN
        return order(one, other) if type(one) is bool and type(other) is bool else NOT_KNOWN

    return told
