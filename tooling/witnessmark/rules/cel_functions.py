"""The functions a rule may call, with what each takes and gives; anything else is refused.

The list is short on purpose: both CEL engines must answer every function alike, so that one can
check the other. Standard functions are those of the CEL specification (github.com/google/cel-spec,
doc/langdef.md, "List of Standard Definitions"); the rest follow the `strings` and `lists`
extensions of its implementations.
"""

from __future__ import annotations

from dataclasses import dataclass

MACROS = ("all", "exists", "exists_one", "filter", "map")


@dataclass(frozen=True, slots=True)
class Function:
    """What a function stands `on` (before the dot), what it `takes` and what it `gives`.

    The kinds are those of `cel_shapes.Shape`, and: sized (text, list or map); scalar (text or
    number); spelt (text, whole number or truth: the engines spell decimals each in its own way);
    same (what stood before the dot); element (the list inside a list of lists); text list.
    """

    on: str | None
    takes: tuple[str, ...]
    gives: str


METHODS: dict[str, Function] = {
    "contains": Function("text", ("text",), "bool"),
    "startsWith": Function("text", ("text",), "bool"),
    "endsWith": Function("text", ("text",), "bool"),
    "matches": Function("text", ("text",), "bool"),
    "lowerAscii": Function("text", (), "text"),
    "upperAscii": Function("text", (), "text"),
    "trim": Function("text", (), "text"),
    "replace": Function("text", ("text", "text"), "text"),
    "split": Function("text", ("text",), "text list"),
    "join": Function("list", ("text",), "text"),
    "distinct": Function("list", (), "same"),
    "sort": Function("list", (), "same"),
    "flatten": Function("list", (), "element"),
    "size": Function("sized", (), "int"),
}

GLOBALS: dict[str, Function] = {
    "size": Function(None, ("sized",), "int"),
    "string": Function(None, ("spelt",), "text"),
    "int": Function(None, ("scalar",), "int"),
    "double": Function(None, ("scalar",), "double"),
}
