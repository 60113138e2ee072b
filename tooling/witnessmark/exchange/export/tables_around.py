"""The tables of old parts, agreements, rules, where rules rest, and precedents."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.exchange.export.columns import (
    MUSEUM,
    Link,
    Row,
    Table,
    day,
    text,
    whole,
    yes_no,
)
from witnessmark.exchange.export.published import Decision, Published
from witnessmark.exchange.export.tables_decisions import DECISION, OF_DECISION, OF_PART
from witnessmark.exchange.export.tables_machines import MACHINE, OF_MUSEUM, page
from witnessmark.model.words import Fate


def _old_parts(published: Published) -> Iterator[Row]:
    for decision in published.decisions:
        for number, old in enumerate(decision.old_parts, start=1):
            yield (
                *(published.name, decision.id, number, old.machine, old.address, old.name),
                *(old.count, old.day, old.origin.value if old.origin else None, old.label),
                *(old.fate.value if old.fate else None, old.fate is Fate.DISPLAYED, old.now_in),
            )


def _agreements(published: Published) -> Iterator[Row]:
    for decision in published.decisions:
        for a in decision.agreed:
            yield published.name, decision.id, a.role.value, a.by, a.day, a.seal


def _rules(published: Published) -> Iterator[Row]:
    for r in published.museum.rules:
        yield (
            *(published.name, r.id, r.code, r.level, r.waivable, r.title, r.why, r.family),
            *(r.scope, r.when, r.holds, r.remedy, r.policy, page(published, f"rules/{r.id}/")),
        )


def _exceptions(published: Published) -> Iterator[Row]:
    for decision in published.decisions:
        start = (published.name, decision.id)
        for note in decision.rules.waived:
            yield (*start, note.rule, "waived", note.because, note.approver, note.until)
        for note in decision.rules.explained:
            yield (*start, note.rule, "explained", note.because, note.approver, note.until)
        for rule in decision.rules.broken:
            yield (*start, rule, "broken", None, None, None)


def _precedents(published: Published) -> Iterator[Row]:
    for decision in published.decisions:
        for earlier, how, because in _earlier(decision):
            yield published.name, decision.id, earlier, how, because


def _earlier(decision: Decision) -> Iterator[tuple[str, str, str | None]]:
    yield from ((p.decision, p.how, p.because) for p in decision.precedents)
    if decision.replaces:
        yield decision.replaces, "replaces", None


OLD_PARTS = Table(
    name="old_parts",
    means="One row for what came off a machine under a decision, or will. Never a place in store.",
    columns=(
        MUSEUM,
        DECISION,
        whole("number", "Its number within the decision, from 1."),
        MACHINE,
        text("part", "The address of the place where it sat."),
        text("name", "What it is called."),
        whole("count", "How many pieces."),
        day("came_off", "The last day of the work; empty while it is only planned."),
        text("origin", "Where it comes from; museum-made is no original. Empty while planned."),
        text("label", "Its label, which names it for ever in the museum."),
        text("fate", "What became of it: stored, displayed, study or lost."),
        yes_no("can_be_seen", "True where it is kept where visitors can see it."),
        text("now_in", "The machine it sits in now, where another machine took it."),
    ),
    key=("museum", "decision", "number"),
    links=(OF_DECISION, OF_PART),
    rows=_old_parts,
)
AGREEMENTS = Table(
    name="agreements",
    means="One row an agreement under a decision.",
    columns=(
        MUSEUM,
        DECISION,
        text("role", "The role in which it was given."),
        text("by", "Who gave it, by title."),
        day("agreed", "When."),
        text("seal", "The start of the seal, to compare by eye."),
    ),
    key=("museum", "decision", "role"),
    links=(OF_DECISION,),
    rows=_agreements,
)
RULES = Table(
    name="rules",
    means="One row a rule that the museum's decisions are held against.",
    columns=(
        MUSEUM,
        text("rule", "The rule's id: the sentence that should be true."),
        text("code", "Its code."),
        text("level", "must, or should, which may be explained."),
        yes_no("can_be_waived", "False for a rule that no waiver can lift."),
        text("title", "Its title."),
        text("why", "Why there is such a rule."),
        text("family", "The family it belongs to."),
        text("scope", "What it looks at."),
        text("applies_when", "When it applies, in the Common Expression Language."),
        text("holds", "What must be true then, in the Common Expression Language."),
        text("remedy", "What puts it right."),
        text("policy", "The policy that sets it, where it is the museum's own."),
        text("page", "The full address of its page."),
    ),
    key=("museum", "rule"),
    links=(OF_MUSEUM,),
    rows=_rules,
)
EXCEPTIONS = Table(
    name="exceptions",
    means="One row a rule that a decision does not follow.",
    columns=(
        MUSEUM,
        DECISION,
        text("rule", "The rule."),
        text("how", "waived and explained give a reason; broken has none yet."),
        text("because", "The reason."),
        text("approver", "Who approved a waiver, by title."),
        day("until", "When a waiver ends."),
    ),
    key=("museum", "decision", "rule", "how"),
    links=(OF_DECISION, Link(("museum", "rule"), "rules", ("museum", "rule"))),
    rows=_exceptions,
)
PRECEDENTS = Table(
    name="precedents",
    means="One row an earlier decision that a decision names. It may be one that is not shown.",
    columns=(
        MUSEUM,
        DECISION,
        text("earlier", "The earlier decision's id."),
        text("how", "follows, departs-from or replaces."),
        text("because", "Why it is departed from."),
    ),
    key=("museum", "decision", "earlier", "how"),
    links=(OF_DECISION,),
    rows=_precedents,
)
