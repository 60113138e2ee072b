"""A new machine: its parts as somebody writes them in one line each, and the file's text."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from textwrap import indent

from witnessmark.errors import UnknownNameError
from witnessmark.model.block_style import prose, word
from witnessmark.model.new_decision import slug
from witnessmark.model.words import Kept, MadeTo, Origin

MODELINE = "# yaml-language-server: $schema=../schema/machine.schema.json\n"
_MASS = re.compile(r"[0-9][0-9.,]* ?(kg|g|t|tonne|lb)")
_KNOWN_FROM = "known from "
HOW_A_PART_IS_WRITTEN = (
    "ASSEMBLY / PART, then commas and what you know: as-built, in-service, museum-made or unknown; "
    "made to last, wear or be-used-up; a count; a mass; the material. As in: "
    "Ram / Guide bushes, as-built, wear, 2, bronze"
)


@dataclass(frozen=True, kw_only=True)
class NewPart:
    """One part as somebody described it in a line."""

    assembly: str
    name: str
    origin: Origin = Origin.UNKNOWN
    made_to: MadeTo = MadeTo.LAST
    count: int = 1
    mass: str = ""
    material: str = ""
    known_from: str = ""


@dataclass(frozen=True, kw_only=True)
class NewMachine:
    """A machine as it is to be entered."""

    name: str
    what: str
    built: str
    day: date
    kept: Kept
    decided: str
    shows: str
    look_again: date
    statement: str
    state: str
    parts: tuple[NewPart, ...]


def part_in(line: str) -> NewPart:
    """The part that a line describes.

    >>> part_in("Ram / Guide bushes, as-built, wear, 2, bronze").count
    2

    Raises:
        UnknownNameError: it does not say which assembly and which part.
    """
    whole, *rest = [piece.strip() for piece in line.split(",")]
    assembly, stroke, name = (piece.strip() for piece in whole.partition("/"))
    if not stroke or not slug(assembly) or not slug(name):
        raise UnknownNameError(
            f'"{line}" does not say which assembly and which part.',
            remedy=f"Write {HOW_A_PART_IS_WRITTEN}.",
        )
    part = NewPart(assembly=assembly, name=name)
    for piece in filter(None, rest):
        part = _knowing(part, piece)
    return part


def _knowing(part: NewPart, piece: str) -> NewPart:
    """The part with what one piece of the line says, by what it looks like; else its material."""
    plain = piece.lower().removeprefix("made to ").replace(" ", "-")
    if plain in set(Origin):
        return replace(part, origin=Origin.named(plain))
    if plain in set(MadeTo):
        return replace(part, made_to=MadeTo.named(plain))
    if piece.isdecimal() and int(piece):
        return replace(part, count=int(piece))
    if _MASS.fullmatch(piece):
        return replace(part, mass=piece)
    if piece.lower().startswith(_KNOWN_FROM):
        return replace(part, known_from=piece[len(_KNOWN_FROM) :])
    return replace(part, material=", ".join(filter(None, (part.material, piece))))


def machine_text(machine: NewMachine) -> str:
    """The machine's file in block style, with a comment where somebody has to think."""
    return "\n".join([*_head(machine), *_value(machine), *_assemblies(machine.parts)]) + "\n"


def _head(machine: NewMachine) -> Iterator[str]:
    """From the first line to how it is kept."""
    yield f"{MODELINE}# As it stood on one day. Never edited for a decision: what changed since is"
    yield "# reckoned from the decisions. Correct it when you learn more about that day."
    yield f"witnessmark: 1\nas_of: {machine.day}\nname: {word(machine.name)}"
    yield prose("what", machine.what)
    if machine.built:
        yield f"built: {_text(machine.built)}"
    yield "# How it is kept, and since when; add a line here when that changes.\nkept:"
    yield _member("\n".join(_kept(machine)), depth=2)


def _value(machine: NewMachine) -> Iterator[str]:
    """Why it matters, and the line under which the assemblies stand."""
    yield "# Why it matters, and the state against which every option is judged.\nsignificance:"
    yield indent(prose("statement", machine.statement), "  ")
    yield indent(prose("state", machine.state), "  ")
    yield "  # What carries its value, and how much each counts beside the others: material, form,"
    yield "  # use, technique, setting, spirit. Talk it over and change it.\n  carried_by:"
    yield from (f"    {name}: {weight}" for name, weight in _carried_by(machine).items())
    yield "assemblies:"


def _member(rows: str, *, depth: int) -> str:
    """One member of a list, a dash before its first row and the others set in as far."""
    return f"{' ' * depth}- {indent(rows, ' ' * (depth + 2)).lstrip()}"


def _text(text: str) -> str:
    """A word that stays text where it looks like a number, such as a year."""
    return f'"{text}"' if text.isdecimal() else word(text)


def _kept(machine: NewMachine) -> Iterator[str]:
    yield f"from: {machine.day}"
    yield f"as: {machine.kept.value}"
    if machine.decided:
        yield f"decided: {word(machine.decided)}"
    if machine.kept is Kept.RUNNING:
        yield f"look_again: {machine.look_again}"
    if machine.shows:
        yield f"shows: {word(machine.shows)}"


def _carried_by(machine: NewMachine) -> Mapping[str, int]:
    """A start (own judgement, no source): the metal first, and use where it runs."""
    running = {"material": 2, "form": 1, "use": 2, "technique": 1}
    return running if machine.kept is Kept.RUNNING else {"material": 2, "form": 1}


def _assemblies(parts: Sequence[NewPart]) -> Iterator[str]:
    by_assembly: dict[str, list[NewPart]] = {}
    names: dict[str, str] = {}
    for part in parts:
        key = slug(part.assembly)
        names.setdefault(key, part.assembly)
        by_assembly.setdefault(key, []).append(part)
    for key, members in by_assembly.items():
        yield f"  - id: {key}\n    name: {word(names[key])}\n    parts:"
        taken: list[str] = []
        for part in members:
            taken.append(_free(slug(part.name), taken))
            yield indent("\n".join(_part(part, taken[-1])), "        ").replace(
                "        ", "      - ", 1
            )


def _free(name: str, taken: Sequence[str]) -> str:
    tries = (name if number == 1 else f"{name}-{number}" for number in range(1, len(taken) + 2))
    return next(one for one in tries if one not in taken)


def _part(part: NewPart, name: str) -> Iterator[str]:
    yield f"id: {name}"
    yield f"name: {word(part.name)}"
    yield f"origin: {part.origin.value}"
    yield f"made_to: {part.made_to.value}"
    if part.known_from:
        yield f"made_to_known_from: {word(part.known_from)}"
    if part.count != 1:
        yield f"count: {part.count}"
    if part.mass:
        yield f"mass: {word(part.mass)}"
    if part.material:
        yield f"material: {word(part.material)}"
