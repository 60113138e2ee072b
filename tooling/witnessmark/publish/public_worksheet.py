"""What the public sees of a worksheet as a method: all of it, apart from any decision."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicInput:
    """What a worksheet takes: how it is written, and what is refused or cautioned, in words.

    `words` are the words of a closed list with their meanings, `names` those of a table's rows.
    """

    name: str
    meaning: str
    unit: str
    written: str
    words: tuple[tuple[str, str], ...]
    names: tuple[str, ...]
    range: str
    is_optional: bool
    is_repeated: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicResult:
    """What a worksheet gives; no unit for a word or a bare number."""

    name: str
    unit: str
    meaning: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicCitation:
    """A source, how far it can be vouched for, and what is to be said about it."""

    cited: str
    standing: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicFigure:
    """A figure as its source prints it, and ours in the same unit."""

    name: str
    printed: str
    ours: str
    is_wrong: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicExample:
    """A number somebody else worked out, beside ours."""

    title: str
    given: tuple[tuple[str, str], ...]
    figures: tuple[PublicFigure, ...]
    source: PublicCitation
    note: str
    command: str

    @property
    def is_wrong(self) -> bool:
        """True where a printed figure is wrong."""
        return any(figure.is_wrong for figure in self.figures)


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicWorksheet:
    """One worksheet; `used_in` are the published decisions that rest on it."""

    id: str
    title: str
    tells: str
    formula: tuple[str, ...]
    inputs: tuple[PublicInput, ...]
    results: tuple[PublicResult, ...]
    limits: tuple[str, ...]
    uncertainty: tuple[str, ...]
    cautions: tuple[str, ...]
    cautions_where: tuple[str, ...]
    sources: tuple[PublicCitation, ...]
    examples: tuple[PublicExample, ...]
    none_found: str
    used_in: tuple[str, ...]

    @property
    def command(self) -> str:
        """How to run it, with the inputs of the first example."""
        return (
            self.examples[0].command if self.examples else f"witnessmark worksheet show {self.id}"
        )
