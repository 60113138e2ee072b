"""Whether a rule says of its own cases what they claim it says."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.rules import cel
from witnessmark.rules.cases import CaseFault, lines_complained_of
from witnessmark.rules.rule import Case, Rule


def wrong_cases(rule: Rule) -> Iterator[tuple[int, str]]:
    """Each case that does not come out as written: its place in the list and what is wrong."""
    for number, case in enumerate(rule.cases):
        fault = _fault(rule, case)
        if fault:
            yield number, f"the case `{case.name}`: {fault}"


def _fault(rule: Rule, case: Case) -> str | None:
    try:
        found = lines_complained_of(case.record, rule=rule)
    except CaseFault as fault:
        return str(fault)
    except cel.RuleFault as fault:
        return fault.message
    if found == tuple(sorted(case.lines)):
        return None
    return f"the rule complains of {_lines(found)}, the case says {_lines(case.lines)}"


def _lines(lines: tuple[int, ...]) -> str:
    return "lines " + ", ".join(map(str, sorted(lines))) if lines else "no line"
