"""A museum's own rules, written in its policy: made ready like those of the book, faults told.

They have the shape of the book's rules and codes of their own, WM900 to WM999.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Annotated, Any

from pydantic import StringConstraints

from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.library import Library
from witnessmark.model.policy import Policy
from witnessmark.model.shape import Shaped, shape
from witnessmark.rules.case_trial import wrong_cases
from witnessmark.rules.report import Report
from witnessmark.rules.rule import Path, Rule, WrittenRule
from witnessmark.rules.rulebook import Problem, prepare
from witnessmark.rules.views import VARIABLES

UNUSABLE = "WM095"
_STAND_IN = "WM199"
"""What an own rule is called while it is made ready: the book's rules have codes WM1xx only."""

OwnCode = Annotated[str, StringConstraints(pattern=r"^WM9[0-9]{2}$")]


class WrittenOwnRule(WrittenRule):
    """A museum's own rule as it stands in the policy."""

    code: OwnCode


@dataclass(frozen=True)
class OwnRules:
    """The rules of one policy that can be used, and what is wrong with the others."""

    rules: tuple[Rule, ...] = ()
    diagnostics: tuple[Diagnostic, ...] = ()


@lru_cache(maxsize=64)
def own_rules_of(library: Library, policy: str) -> OwnRules:
    """The own rules of a policy; every fault of one is told at its line of the policy's file."""
    shaped = library.policy_files.get(policy)
    if shaped is None or shaped.value is None or not shaped.value.own_rules:
        return OwnRules()
    report = Report(shaped)
    rules: list[Rule] = []
    told: list[Diagnostic] = []
    for index, written in enumerate(shaped.value.own_rules):
        found = _made_ready(written, shaped)
        if isinstance(found, Rule):
            rules.append(found)
            continue
        for problem in found:
            path = ("own_rules", index, *problem.path)
            told.append(report.at(path, UNUSABLE, problem.message, key=True))
    told += _doubles(rules, shaped.value.own_rules, report)
    return OwnRules(tuple(sorted(rules, key=lambda rule: rule.code)), tuple(told))


def check_own_rules(library: Library) -> Iterator[Diagnostic]:
    """What is wrong with the own rules of every policy."""
    for policy in sorted(library.policy_files):
        yield from own_rules_of(library, policy).diagnostics


def _made_ready(written: Mapping[str, Any], shaped: Shaped[Policy]) -> Rule | list[Problem]:
    piece = dataclasses.replace(shaped.document, data=dict(written), problems=())
    read = shape(piece, WrittenOwnRule)
    if read.value is None or not read.whole:
        return [Problem(one.path, one.message) for one in read.diagnostics]
    prepared = prepare(read.value.model_copy(update={"code": _STAND_IN}), variables=VARIABLES)
    if not isinstance(prepared, Rule):
        return [dataclasses.replace(p, message=_sentence(p.message)) for p in prepared]
    rule = prepared.model_copy(update={"code": read.value.code})
    return [
        Problem(("cases", number), _sentence(message)) for number, message in wrong_cases(rule)
    ] or rule


def _doubles(
    rules: Iterable[Rule], written: tuple[dict[str, Any], ...], report: Report
) -> Iterator[Diagnostic]:
    """A code or an id that an earlier rule of the policy has, too; the book's ids are its own."""
    taken: set[str] = set()
    order = {str(one.get("id")): index for index, one in enumerate(written)}
    for rule in rules:
        for field, word in (("code", rule.code), ("id", rule.id)):
            if word in taken:
                path: Path = ("own_rules", order[rule.id], field)
                yield report.at(path, UNUSABLE, f"Another rule of the policy is called {word}.")
            taken.add(word)


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:].rstrip('.')}."
