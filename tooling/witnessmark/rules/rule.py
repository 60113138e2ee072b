"""A rule of the rule book: what a person wrote, and the same made ready to be asked of records."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Annotated

from pydantic import BeforeValidator, Field, InstanceOf, StringConstraints

from witnessmark.model.fields import Count, Flag, Id, Prose, Text, Written
from witnessmark.model.words import Word
from witnessmark.rules import cel
from witnessmark.rules.cel_grammar import parse
from witnessmark.rules.cel_sight import Sight, at_sight
from witnessmark.rules.cel_template import Template, compile_template

if TYPE_CHECKING:
    from witnessmark.rules.views import Context

Path = tuple[str | int, ...]

ALWAYS = "true"
"""What `when` says where a rule is meant of every record."""


class RuleLevel(Word):
    """How much a rule weighs."""

    MUST = "must", "Blocks agreement until it is kept or waived."
    SHOULD = "should", "Comply or explain."


class Scope(Word):
    """What one asking of a rule is about."""

    MUSEUM = "museum", "The whole museum, once."
    MACHINE = "machine", "Each machine."
    DECISION = "decision", "Each decision."
    OPTION = "option", "Each option of each decision."
    STEP = "step", "Each step of each option."
    FINDING = "finding", "Each finding of each machine."


class SourceStanding(Word):
    """Whether the edition cited is still the one in force."""

    CURRENT = "current", "The edition in force."
    SUPERSEDED = "superseded", "A later edition has taken its place."
    WITHDRAWN = "withdrawn", "Withdrawn without a successor."


class Confidence(Word):
    """How the clause is known to say this."""

    READ_IN_SOURCE = "read-in-source", "The clause was read in the text itself."
    READ_IN_TRANSLATION = "read-in-translation", "The clause was read in a translation."
    PART_READ = "part-read", "Only part of the clause, or a faithful account of it, was read."
    FROM_MEMORY = "from-memory", "Cited from memory; to be looked up."
    COMMON_PRACTICE = "common-practice", "Widely done; no text says it."
    OWN_JUDGEMENT = "own-judgement", "Our own judgement; no source says it in these words."


class CaseVerdict(Word):
    """What a rule must say of a case."""

    PASSES = "passes", "The rule finds nothing."
    FAULTED = "faulted", "The rule complains, at the lines named."


class Source(Written):
    """A text a rule rests on."""

    text: Prose
    clause: Prose | None = None
    edition: Text | None = None
    standing: SourceStanding
    confidence: Confidence

    @property
    def cited(self) -> str:
        """The text with clause and edition, as a reader looks it up."""
        numbered = self.clause and (self.clause[0].isdigit() or self.clause[0] == "(")
        clause = f", {'clause ' if numbered else ''}{self.clause}" if self.clause else ""
        return f"{self.text}{clause}{f', edition {self.edition}' if self.edition else ''}"


class Case(Written):
    """A piece of a record, and what the rule must say of it; the rule's test and its example."""

    name: Prose
    verdict: CaseVerdict
    record: Text
    lines: tuple[Count, ...] = ()

    @property
    def marked_lines(self) -> tuple[tuple[int, str, bool], ...]:
        """Each line of the record: its number, its text, and whether it is complained of."""
        rows = enumerate(self.record.splitlines(), start=1)
        return tuple((number, text, number in self.lines) for number, text in rows)


def _as_expression(value: object) -> object:
    """YAML reads a bare true as a truth; in an expression it is one all the same."""
    return str(value).lower() if isinstance(value, bool) else value


Expression = Annotated[
    str, BeforeValidator(_as_expression), StringConstraints(strip_whitespace=True, min_length=1)
]
"""A CEL expression as written."""

Code = Annotated[str, StringConstraints(pattern=r"^WM1[0-9]{2}$")]


class WrittenRule(Written):
    """A rule as it stands in its file."""

    id: Id
    code: Code
    level: RuleLevel
    waivable: Flag = True
    title: Prose
    why: Prose
    family: Id
    scope: Scope
    sources: Annotated[tuple[Source, ...], Field(min_length=1)]
    when: Expression = ALWAYS
    holds: Expression
    message: Prose
    remedy: Prose
    at: Annotated[tuple[Text, ...], Field(min_length=1)] = ("id",)
    cases: tuple[Case, ...]


class Standing(Word):
    """What a rule says of one record."""

    NOT_APPLICABLE = "not-applicable", "The rule is not about such a record."
    HOLDS = "holds", "The record keeps the rule."
    BROKEN = "broken", "The record does not keep the rule."


@dataclass(frozen=True, slots=True)
class Verdict:
    """A rule's answer; a broken one has the sentence that says so and the path it points to."""

    standing: Standing
    message: str = ""
    at: Path = ()


NOT_APPLICABLE = Verdict(Standing.NOT_APPLICABLE)
HOLDS = Verdict(Standing.HOLDS)


@dataclass(frozen=True, eq=False)
class Asked:
    """A rule's expressions, each compiled when it is first asked for; most records ask for few."""

    written: WrittenRule
    engine: cel.Engine

    @cached_property
    def when(self) -> cel.Program | None:
        """Whether the rule is meant; None where it always is."""
        source = self.written.when
        return None if source == ALWAYS else cel.compile(source, engine=self.engine)

    @cached_property
    def holds(self) -> cel.Program:
        """Whether the record keeps the rule."""
        return cel.compile(self.written.holds, engine=self.engine)

    @cached_property
    def message(self) -> Template:
        """What a breach says."""
        return compile_template(self.written.message, engine=self.engine)

    @cached_property
    def at(self) -> tuple[Template, ...]:
        """Where a breach points to, step by step."""
        return tuple(compile_template(step, engine=self.engine) for step in self.written.at)

    @cached_property
    def when_at_sight(self) -> Sight:
        """What can be told without the engine of whether the rule is meant."""
        return at_sight(parse(self.written.when))

    @cached_property
    def holds_at_sight(self) -> Sight:
        """What can be told without the engine of whether the record keeps the rule."""
        return at_sight(parse(self.written.holds))

    def compile(self) -> None:
        """Compile all of them now.

        Raises:
            ExpressionFault: the engine refuses one.

        """
        _ = self.when, self.holds, self.message, self.at


class Rule(WrittenRule):
    """A rule ready to be asked; `rulebook.prepare` makes one, after every field was checked."""

    asked: InstanceOf[Asked] = Field(exclude=True, repr=False)

    @classmethod
    def of(cls, written: WrittenRule, *, engine: cel.Engine | None = None) -> Rule:
        """The rule of what was written, without a look at whether it is right."""
        fields = {name: getattr(written, name) for name in WrittenRule.model_fields}
        return cls(**fields, asked=Asked(written, engine or cel.first_engine()))

    def standing_at_sight(self, context: Context) -> Standing | None:
        """How the rule stands, where the engine need not be asked; of a breach it always is."""
        if (meant := self.asked.when_at_sight(context)) is not True:
            return Standing.NOT_APPLICABLE if meant is False else None
        return Standing.HOLDS if self.asked.holds_at_sight(context) is True else None

    def evaluate(self, bound: cel.Bound) -> Verdict:
        """What the rule says of a record.

        Raises:
            RuleFault: the rule gave no answer, or one that is not true or false.

        """
        asked = self.asked
        try:
            if asked.when is not None and not asked.when.decide(bound):
                return NOT_APPLICABLE
            if asked.holds.decide(bound):
                return HOLDS
            path = tuple(step.step(bound) for step in asked.at)
            return Verdict(Standing.BROKEN, asked.message.render(bound), path)
        except cel.RuleFault as fault:
            raise cel.RuleFault(f"rule {self.code} ({self.id}): {fault.message}") from fault
