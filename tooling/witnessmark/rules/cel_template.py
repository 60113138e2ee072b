"""Sentences with expressions in braces: `"{part.name} leaves the machine"`.

Two braces stand for one. What is in the braces must give a text, a number or a truth, and is
checked as strictly as a rule.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from witnessmark.rules import cel
from witnessmark.rules.cel_facts import NOTHING, Facts
from witnessmark.rules.cel_fields import FieldFault, check_fields
from witnessmark.rules.cel_tokens import ExpressionFault, end_of_text

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

SHOWN = ("text", "int", "double", "bool")
"""The kinds of value that can stand in a sentence."""


@dataclass(frozen=True, slots=True)
class Hole:
    """An expression in braces; `start` is its offset in the template, from 0."""

    expression: str
    start: int


@dataclass(frozen=True, slots=True)
class Template:
    """A sentence ready to be filled in from any record."""

    text: str
    pieces: tuple[str | cel.Program, ...]

    def render(self, bound: cel.Bound) -> str:
        """The sentence for this record.

        Raises:
            RuleFault: an expression in it gave nothing that can stand in a sentence.

        """
        return "".join(
            piece if isinstance(piece, str) else spelled(piece.scalar(bound))
            for piece in self.pieces
        )

    def step(self, bound: cel.Bound) -> str | int:
        """One step of a path in the record; a whole number stays one, to count in a list."""
        if len(self.pieces) == 1 and isinstance(self.pieces[0], cel.Program):
            value = self.pieces[0].scalar(bound)
            return value if type(value) is int else spelled(value)
        return self.render(bound)


def compile_template(text: str, *, engine: cel.Engine | None = None) -> Template:
    """The template of a text.

    Raises:
        ExpressionFault: a brace has no partner, or an expression cannot be read.

    """
    pieces = (
        piece if isinstance(piece, str) else cel.compile(piece.expression, engine=engine)
        for piece in split_template(text)
    )
    return Template(text, tuple(pieces))


def check_template(
    text: str, *, variables: Mapping[str, type], known: Facts = NOTHING
) -> list[FieldFault]:
    """All in the template that a record of the described shape cannot answer.

    Columns count in the whole template.
    """
    found: list[FieldFault] = []
    try:
        holes = [piece for piece in split_template(text) if isinstance(piece, Hole)]
    except ExpressionFault as fault:
        return [FieldFault(fault.message, fault.column)]
    for hole in holes:
        faults = check_fields(hole.expression, variables=variables, gives=SHOWN, known=known)
        found += [FieldFault(fault.message, fault.column + hole.start) for fault in faults]
    return found


def split_template(text: str) -> Iterator[str | Hole]:
    """The words and the expressions of a template, in order."""
    place, words = 0, ""
    while place < len(text):
        if text[place : place + 2] in ("{{", "}}"):
            words += text[place]
            place += 2
        elif text[place] == "}":
            raise ExpressionFault(
                "a closing brace has no opening one; write }} for a brace in the sentence",
                place + 1,
            )
        elif text[place] == "{":
            end = _closing(text, place)
            if words:
                yield words
            yield Hole(text[place + 1 : end], place + 1)
            place, words = end + 1, ""
        else:
            words += text[place]
            place += 1
    if words:
        yield words


def _closing(text: str, opening: int) -> int:
    """The offset of the brace that closes the one at `opening`.

    Braces in texts and in maps of the expression do not count.
    """
    depth, place = 0, opening
    while place < len(text):
        if (after := end_of_text(text, place)) is not None:
            place = after
            continue
        depth += {"{": 1, "}": -1}.get(text[place], 0)
        if depth == 0:
            return place
        place += 1
    raise ExpressionFault(
        "an opening brace is not closed; write {{ for a brace in the sentence", opening + 1
    )


def spelled(value: str | float | bool) -> str:  # noqa: FBT001  one value of any shown kind
    """A value as it stands in a sentence: `true`, `12`, `2.5`, and `3` for 3.0.

    >>> spelled(3.0), spelled(True), spelled(2.5)
    ('3', 'true', '2.5')
    """
    if isinstance(value, bool):
        return str(value).lower()
    return str(value).removesuffix(".0") if isinstance(value, float) else str(value)
