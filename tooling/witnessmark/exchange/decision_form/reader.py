"""Reading the answers of one form against one museum, with everything unclear told by line."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TypeVar

from witnessmark.exchange.decision_form.fields import label_of
from witnessmark.exchange.decision_form.reading import Answer, ReadForm
from witnessmark.exchange.decision_form.told import Told
from witnessmark.exchange.decision_form.values import UnclearError
from witnessmark.model.library import Library
from witnessmark.model.machine import Machine
from witnessmark.model.meant import meant, part_names
from witnessmark.model.words import Word

T = TypeVar("T")


@dataclass
class Reader:
    """One form being read against one museum; what has to be said is gathered on the way."""

    read: ReadForm
    library: Library
    told: list[Told] = field(default_factory=list)

    def text(self, section: str, key: str) -> str:
        """What was written for a field, nothing where it was left blank."""
        found = self.read.given(section, key)
        return found.text if found else ""

    def value(self, section: str, key: str, read: Callable[[str], T], *, blank: T) -> T:
        """What a field means; where that is unclear it is said, and the blank stands for it."""
        found = self.read.given(section, key)
        if found is None:
            return blank
        try:
            return read(found.text)
        except UnclearError as unclear:
            self.stop(found, section, key, unclear)
            return blank

    def stop(self, found: Answer, section: str, key: str, unclear: UnclearError) -> None:
        """Say what is unclear, and write nothing until it is mended."""
        label = label_of(section, key)
        self.told.append(
            Told(
                line=found.line,
                what=f"{label}: {unclear.what}",
                why="The record is reckoned with it, and nothing is guessed.",
                fix=unclear.fix,
            )
        )

    def missing(self, section: str, key: str, fix: str) -> None:
        """Say that a field which is needed was left blank."""
        found = self.read.answers.get((section, key))
        self.told.append(
            Told(
                line=found.line if found else len(self.read.lines) or 1,
                what=f"{label_of(section, key)} is not filled in.",
                why="Without it nobody can tell what the record is about.",
                fix=fix,
            )
        )


def one_of(names: Mapping[str, str], what: str) -> Callable[[str], str]:
    """A reader of names: the id that is meant among these."""

    def read(text: str) -> str:
        found = meant(text, names)
        if found is None:
            listed = "; ".join(names.values())
            raise UnclearError(f'there is no {what} "{text}".', f"Write one of these: {listed}.")
        return found

    return read


def word_of(words: type[Word], what: str) -> Callable[[str], str]:
    """A reader of closed words, also where blanks stand for hyphens or a slip was made."""
    names = {word.value: word.value.replace("-", " ") for word in words}

    def read(text: str) -> str:
        found = meant(text, names)
        if found is None:
            listed = "; ".join(f"{w.value} ({w.definition.rstrip('.')})" for w in words)
            raise UnclearError(f'"{text}" is no {what}.', f"Write one of: {listed}.")
        return found

    return read


def parts_of(machine: Machine) -> Callable[[str], tuple[str, ...]]:
    """A reader of part names with commas or `and` between them."""
    names = part_names(machine)

    def read(text: str) -> tuple[str, ...]:
        whole = meant(text, names)
        if whole:
            return (whole,)
        pieces = [p.strip() for p in text.replace(" and ", ",").replace(";", ",").split(",")]
        single = one_of(names, "part")
        return tuple(dict.fromkeys(single(piece) for piece in pieces if piece))

    return read
