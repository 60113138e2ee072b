"""The rule book: loaded whole or refused whole, with the file and line of every fault."""

from __future__ import annotations

from typing import TypedDict

import pytest

from witnessmark.errors import WitnessmarkError
from witnessmark.rules import cel
from witnessmark.rules.rule import HOLDS, Scope, Standing
from witnessmark.rules.rulebook import RulebookFault, load_rulebook


class Step(TypedDict):
    do: str
    part: str
    labels: list[str]


class Option(TypedDict):
    id: str
    steps: list[Step]


VARIABLES: dict[Scope, dict[str, type]] = {
    Scope.STEP: {"step": Step, "option": Option},
    Scope.OPTION: {"option": Option},
}

RULE = """\
id: removed-part-is-labelled
code: WM122
level: must
title: A removed part has a label
why: Without a label nobody can say later where it sat.
family: what-came-off
scope: step
sources:
  - text: The house
    standing: current
    confidence: own-judgement
when: step.do == 'remove'
holds: step.labels.size() > 0
message: >-
  {step.part} leaves the machine
  without a label
remedy: Give it a label.
cases:
  - name: labelled
    verdict: passes
    record: |
      do: remove
      labels: [MQ-1]
  - name: bare
    verdict: faulted
    lines: [2]
    record: |
      do: remove
      labels: []
"""
FILE = "rulebook/removed-part-is-labelled.yml"


def book() -> dict[str, bytes]:
    return {FILE: RULE.encode()}


def swapped(old: str, new: str) -> dict[str, bytes]:
    assert old in RULE
    return {FILE: RULE.replace(old, new).encode()}


def lines_of(files: dict[str, bytes]) -> tuple[str, ...]:
    with pytest.raises(RulebookFault) as caught:
        load_rulebook(files, variables=VARIABLES)
    return caught.value.lines


def test_a_sound_rule_is_loaded_and_can_be_asked() -> None:
    (rule,) = load_rulebook(book(), variables=VARIABLES).rules
    step = {"do": "remove", "part": "gear/bush", "labels": ["MQ-1"]}
    assert rule.evaluate(cel.bind({"step": step})) == HOLDS
    verdict = rule.evaluate(cel.bind({"step": step | {"labels": []}}))
    assert (verdict.standing, verdict.at) == (Standing.BROKEN, ("id",))
    assert verdict.message == "gear/bush leaves the machine without a label"


def test_the_second_engine_serves_in_place_of_the_first() -> None:
    engine = cel.second_engine()
    (rule,) = load_rulebook(book(), variables=VARIABLES, engine=engine).rules
    step = {"do": "remove", "part": "gear/bush", "labels": ["MQ-1"]}
    assert rule.evaluate(cel.bind({"step": step}, engine=engine)) == HOLDS


@pytest.mark.parametrize(
    ("old", "new", "line", "words"),
    [
        ("step.do == 'remove'", "step.doo == 'remove'", 12, "step has no field doo"),
        ("step.labels.size()", "step.lables.size()", 13, "did you mean labels?"),
        (
            "step.labels.size() > 0",
            "step.labels.exists(l, l.nope)",
            13,
            "must be a record or a map",
        ),
        (
            "step.labels.size() > 0",
            "option.steps.exists(s, s.lables == step.labels) || true",
            13,
            "in holds, at character 26: s has no field lables; did you mean labels?",
        ),
        ("{step.part}", "{step.prat}", 14, "in message, at character 7: step has no field prat"),
        ("step.labels.size() > 0", "machine.id == 'x'", 13, "nothing called machine here"),
        ("step.labels.size() > 0", "step.part == 2", 13, "cannot be compared"),
        ("scope: step", "scope: option", 12, "nothing called step here"),
        ("scope: step", "scope: finding", 7, "no record of scope finding is described"),
        ("code: WM122", "code: WM022", 2, "WM022"),
        ("level: must", "levle: must", 3, "levle"),
        ("lines: [2]", "lines: []", 24, "bare: a faulted case names"),
        ("verdict: faulted\n    lines: [2]", "verdict: passes", 19, "at least one case faulted"),
        ("id: removed-part", "id: a-removed-part", 1, "use one name"),
        ("holds: step.labels.size() > 0\n", "", 1, "holds"),
    ],
)
def test_every_fault_has_its_file_and_line(old: str, new: str, line: int, words: str) -> None:
    found = lines_of(swapped(old, new))
    assert any(text.startswith(f"{FILE}:{line}: ") and words in text for text in found), found


def test_two_rules_cannot_share_a_code_or_an_id() -> None:
    copy = RULE.replace("id: removed-part-is-labelled", "id: removed-part-is-kept")
    found = lines_of(book() | {"rulebook/removed-part-is-kept.yml": copy.encode()})
    assert (f"{FILE}:2: WM122 is already taken by rulebook/removed-part-is-kept.yml",) == found
    other = RULE.replace("WM122", "WM123").encode()
    found = lines_of(book() | {"own/removed-part-is-labelled.yml": other})
    assert f"{FILE}:2: removed-part-is-labelled is already taken by own/" in found[0]


def test_the_faults_of_all_rules_are_told_together_in_order_of_place() -> None:
    first = RULE.replace("step.do ", "step.doo ").replace("step.part", "step.prat")
    second = RULE.replace("removed-part-is-labelled", "b").replace("WM122", "WM123")
    found = lines_of(
        {FILE: first.encode(), "rulebook/b.yml": second.replace("must", "may").encode()}
    )
    assert ["rulebook/b.yml:3", f"{FILE}:12", f"{FILE}:14"] == [
        line.rpartition(": ")[0].split(": ")[0] for line in found
    ]


@pytest.mark.parametrize(
    "raw", [b"", b"- a\n", b"\xff\xfe", b"a: [", b"id: removed-part-is-labelled\n", b"x"]
)
def test_a_file_that_holds_no_rule_is_told_and_never_raises_otherwise(raw: bytes) -> None:
    assert all(line.startswith(f"{FILE}:") for line in lines_of({FILE: raw}))


def test_rules_come_in_the_order_of_their_codes_and_by_scope() -> None:
    a = (
        RULE.replace("removed-part-is-labelled", "a")
        .replace("WM122", "WM130")
        .replace("scope: step", "scope: option")
    )
    a = a.replace("step.do == 'remove'", "option.id != ''").replace(
        "step.labels.size()", "option.steps.size()"
    )
    a = a.replace("step.part", "option.id")
    rules = load_rulebook(book() | {"rulebook/a.yml": a.encode()}, variables=VARIABLES)
    assert [rule.code for rule in rules.rules] == ["WM122", "WM130"]
    assert [rule.code for rule in rules.applicable(Scope.OPTION)] == ["WM130"]
    assert [rule.code for rule in rules.applicable(Scope.MUSEUM)] == []


def test_a_faulty_rule_book_is_an_error_the_command_line_can_print() -> None:
    with pytest.raises(WitnessmarkError, match="Mend these rules"):
        load_rulebook(swapped("step.do ", "step.doo "), variables=VARIABLES)
