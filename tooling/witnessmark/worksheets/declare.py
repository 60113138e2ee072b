"""How a worksheet says what it is: inputs, results, limits, cautions, sources, examples, as data.

A sheet is one module with a pure function whose parameters and results are annotated with the
declarations below. Reading, ranges, uncertainty, verdicts and pages all come from the annotations,
so a new sheet adds no code of its own for them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import Enum
from fractions import Fraction
from typing import TypeAlias

# Exact as long as a sheet only adds, multiplies and divides; a float once a root or pi comes in.
Number: TypeAlias = Fraction | float


class Standing(Enum):
    """How far we can vouch for a source; the text says what the word means."""

    SEEN = "read in the source, or in a public copy of it"
    FROM_MEMORY = "from general knowledge; the source itself was not read"
    COMMON_PRACTICE = "common practice, no source"


class Band(Enum):
    """What the figure after a ± is; the text says how it becomes a standard uncertainty."""

    UNIFORM = "half-width of a uniform band: divided by the square root of 3"
    STANDARD = "a standard uncertainty: taken as it stands"
    EXPANDED = "an expanded uncertainty with k = 2: halved"


class Side(Enum):
    """From which side a result must keep to its limit."""

    AT_MOST = "at most"
    AT_LEAST = "at least"


@dataclass(frozen=True, kw_only=True)
class Source:
    """Where a figure or an equation comes from."""

    author: str
    title: str
    year: str
    clause: str
    standing: Standing
    note: str = ""

    def __str__(self) -> str:
        """Give the source as one line for a page or a report."""
        return f"{self.author}, {self.title}, {self.year}, {self.clause}"


@dataclass(frozen=True, kw_only=True)
class Input:
    """A measured quantity. Bounds are decimals in `unit`; the equation gets base units (SI).

    `above` is refused at and under, `refuse_low` under, `refuse_high` over it. Outside `low` to
    `high` the result carries a caution. `named` gives words that stand for a quantity, such as
    a property class; `rows` gives words that stand for a row of a table, which the equation gets
    in place of a number. `whole` is for what is counted: no parts of one, and no band. `exact`
    says what to do instead where a band is not taken. `band_of` names the input whose band this is.
    """

    unit: str
    meaning: str
    low: str | None = None
    high: str | None = None
    above: str | None = None
    refuse_low: str | None = None
    refuse_high: str | None = None
    named: Mapping[str, str] = field(default_factory=dict)
    rows: Mapping[str, object] = field(default_factory=dict)
    band: Band = Band.UNIFORM
    whole: bool = False
    exact: str = ""
    band_of: str = ""


@dataclass(frozen=True, kw_only=True)
class Choice:
    """A word of a closed list; `words` gives each with its meaning. The equation gets the word."""

    meaning: str
    words: Mapping[str, str]


@dataclass(frozen=True, kw_only=True)
class Flag:
    """True or false, as YAML writes them. The equation gets a bool."""

    meaning: str


@dataclass(frozen=True, kw_only=True)
class Designation:
    """A word of a fixed shape, such as a tolerance class. The equation gets the word."""

    meaning: str
    pattern: str
    like: str


@dataclass(frozen=True, kw_only=True)
class NamedRow:
    """The name of a row of a table. The equation gets the row."""

    meaning: str
    rows: Mapping[str, object]


@dataclass(frozen=True, kw_only=True)
class ThreadName:
    """A thread, such as 5/8 BSW. The equation gets a `Thread`."""

    meaning: str


@dataclass(frozen=True, kw_only=True)
class Each:
    """A repeated input of quantities joined by words, such as `4 m/s2 for 2.5 h`.

    The equation gets a tuple with one tuple of numbers for each time it was given.
    """

    meaning: str
    parts: tuple[Input, ...]
    joined_by: str = "for"


Kind: TypeAlias = Input | Choice | Flag | Designation | NamedRow | ThreadName | Each


@dataclass(frozen=True, kw_only=True)
class Gives:
    """A result: a number in `unit`, or a word where `unit` is empty.

    `unit_by` names an input and gives the unit for each of its words, where the unit follows one.
    `band_from` names the result that is the expanded uncertainty of this one, where the equation
    itself works it out.
    """

    unit: str
    meaning: str
    unit_by: tuple[str, Mapping[str, str]] | None = None
    band_from: str = ""


class Figures:
    """The inputs read and the results reached in one run, by name, in base units."""

    def __init__(self, values: Mapping[str, object]) -> None:
        self._values = dict(values)

    def has(self, name: str) -> bool:
        """Tell whether the input was given or the result reached."""
        return self._values.get(name) is not None

    def number(self, name: str) -> Number:
        """Give a number that the sheet knows to be there."""
        value = self._values[name]
        if isinstance(value, (Fraction, float, int)):
            return value
        raise TypeError(f"{name} is not a number")

    def value(self, name: str) -> object:
        """Give whatever stands under the name: a word, a row, a thread, or None."""
        return self._values.get(name)


@dataclass(frozen=True, kw_only=True)
class Limit:
    """Which result meets which limit, and from which side.

    `against` names an input, or works the limit out of the figures (None: no limit applies).
    `cannot_tell_when` says where meeting the limit would prove nothing, with the reason.
    """

    result: str
    side: Side
    against: str | Callable[[Figures], Number | None]
    meaning: str
    cannot_tell_when: Callable[[Figures], bool] | None = None
    cannot_tell_because: str = ""

    def bound(self, figures: Figures) -> Number | None:
        """Give the limit in base units, or None where none applies."""
        if callable(self.against):
            return self.against(figures)
        return figures.number(self.against) if figures.has(self.against) else None


@dataclass(frozen=True, kw_only=True)
class Caution:
    """What the reader must know; always, or only where `when` holds."""

    text: str
    when: Callable[[Figures], bool] | None = None


@dataclass(frozen=True, kw_only=True)
class Printed:
    """A figure as its source prints it, our figure, and how far apart rounding may put them."""

    value: str
    ours: str
    tolerance: str
    is_wrong: bool = False


@dataclass(frozen=True, kw_only=True)
class Example:
    """Someone else's worked number. `note` says what the print does not, or where it is wrong."""

    title: str
    given: Mapping[str, str | tuple[str, ...]]
    printed: Mapping[str, Printed]
    source: Source
    note: str = ""


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """One cited calculation: its equation and all that must be said about it.

    `none_found` says in words which published examples were sought in vain; it may be empty only
    where two or more stand in `examples`.
    """

    id: str
    title: str
    tells: str
    equation: Callable[..., object]
    formula: tuple[str, ...]
    sources: tuple[Source, ...]
    examples: tuple[Example, ...]
    limits: tuple[Limit, ...] = ()
    cautions: tuple[Caution, ...] = ()
    none_found: str = ""


class CannotCompute(Exception):  # noqa: N818 - what was given is at fault, not the program
    """Raised by an equation that must not give a result for what it was given."""

    def __init__(self, name: str, *, message: str, fix: str) -> None:
        super().__init__(message)
        self.name = name
        self.message = message
        self.fix = fix
