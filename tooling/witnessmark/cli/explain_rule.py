"""A rule in a terminal, from the same data as its page: why, sources, cases, remedy, where kept."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from witnessmark.cli.printing import folded, plural, render_paragraph, visible
from witnessmark.rules.cases import complaints
from witnessmark.rules.families import BY_ID
from witnessmark.rules.followed import Followed, Place
from witnessmark.rules.rule import Case, CaseVerdict, Rule, RuleLevel, Source

_REST = {
    True: "Yes: with a reason, a name and an end, never by the person who proposed the decision.",
    False: "No. Nobody may waive this rule.",
}
_ADVICE = "It is advice: comply, or write the reason under `explained`."
_HEADINGS = {
    Followed.BROKEN: "Not kept, and no reason is written down",
    Followed.WAIVED: "Waived",
    Followed.EXPLAINED: "Explained",
    Followed.KEPT: "Kept",
}


def render_rule(rule: Rule) -> Iterator[str]:
    """The lines that explain a rule by itself."""
    family = BY_ID.get(rule.family)
    yield f"{rule.code} {rule.id} ({_level(rule)})"
    yield render_paragraph(rule.title, indent="  ")
    yield f"  Family: {family.title if family else rule.family}. Asked of: {rule.scope.definition}"
    yield from _section("Why", [rule.why])
    yield from _section("Sources", [_source(source) for source in rule.sources])
    yield f"\n  Applies {_when(rule)}"
    yield f"\n  Is kept when\n    {visible(rule.holds)}"
    yield from _cases("Passes", rule, CaseVerdict.PASSES)
    yield from _cases("Is faulted", rule, CaseVerdict.FAULTED)
    yield ""
    yield from folded(f"To mend it: {rule.remedy}", first="  ", rest="    ")
    is_advice = rule.level is RuleLevel.SHOULD
    yield from _section("May it rest?", [_ADVICE if is_advice else _REST[rule.waivable]])


def render_places(places: Iterable[Place]) -> Iterator[str]:
    """Where a museum keeps, breaks, waives or explains a rule, what asks for attention first."""
    found = list(places)
    yield "\n  In this museum"
    if not found:
        yield "    No record here is one that this rule asks about."
    for followed, heading in _HEADINGS.items():
        here = [place for place in found if place.followed is followed]
        reasons = [place for place in here if place.because]
        if here and not reasons:
            names = ", ".join(place.name for place in here)
            yield from folded(f"{heading} ({len(here)}): {names}", first="    ", rest="      ")
        elif here:
            yield f"    {heading} ({plural(len(here), 'time')})"
            for place in reasons:
                yield from folded(f"{place.name}, {place.because}", first="      ", rest="        ")


def _level(rule: Rule) -> str:
    if rule.level is RuleLevel.SHOULD:
        return rule.level.value
    return f"{rule.level.value}, {'may be waived' if rule.waivable else 'may never be waived'}"


def _when(rule: Rule) -> str:
    """Expressions are shown as written, never folded, so that they can be copied."""
    return "always" if rule.when == "true" else f"when\n    {visible(rule.when)}"


def _section(title: str, texts: Iterable[str]) -> Iterator[str]:
    yield f"\n  {title}"
    yield from (render_paragraph(text, indent="    ") for text in texts)


def _source(source: Source) -> str:
    return f"{source.cited}: {source.standing.value}, {source.confidence.value}"


def _cases(title: str, rule: Rule, verdict: CaseVerdict) -> Iterator[str]:
    for case in rule.cases:
        if case.verdict is verdict:
            yield f"\n  {title}: {visible(case.name)}"
            yield from _lines(case)
            if verdict is CaseVerdict.FAULTED:
                yield from _says(case, rule)


def _lines(case: Case) -> Iterator[str]:
    """The case as written, its lines counted, `>` before each that is complained of."""
    for number, text, is_marked in case.marked_lines:
        yield f"  {'>' if is_marked else ' '}{number:>4} | {visible(text)}"


def _says(case: Case, rule: Rule) -> Iterator[str]:
    for line, message in complaints(case.record, rule=rule):
        where = f"of line {line}" if line else "of what is left out"
        yield from folded(f"says, {where}: {message}", first="    ", rest="      ")
