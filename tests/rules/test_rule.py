"""A rule asked of records."""

from __future__ import annotations

from typing import TypedDict

import pytest
from pydantic import ValidationError

from witnessmark.rules import cel
from witnessmark.rules.rule import HOLDS, NOT_APPLICABLE, Rule, Scope, Standing, WrittenRule
from witnessmark.rules.rulebook import Problem, prepare


class Step(TypedDict):
    do: str
    index: int
    part: str
    label: str | None


VARIABLES: dict[Scope, dict[str, type]] = {Scope.STEP: {"step": Step}}

WRITTEN = WrittenRule.model_validate(
    {
        "id": "removed-part-is-labelled",
        "code": "WM122",
        "level": "must",
        "title": "A removed part has a label",
        "why": "Without a label nobody can say later where it sat.",
        "family": "what-came-off",
        "scope": "step",
        "sources": [{"text": "The house", "standing": "current", "confidence": "own-judgement"}],
        "when": "step.do == 'remove'",
        "holds": "step.label != null && step.label != ''",
        "message": "{step.part} leaves the machine without a label",
        "remedy": "Give it a label.",
        "at": ["steps", "{step.index}", "label"],
        "cases": [
            {"name": "labelled", "verdict": "passes", "record": "do: remove\nlabel: MQ-1\n"},
            {"name": "bare", "verdict": "faulted", "record": "do: remove\n", "lines": [1]},
        ],
    }
)


def changed(**fields: object) -> WrittenRule:
    return WrittenRule.model_validate(WRITTEN.model_dump() | fields)


def ready(written: WrittenRule = WRITTEN) -> Rule:
    rule = prepare(written, variables=VARIABLES)
    assert isinstance(rule, Rule), rule
    return rule


def bound(**step: object) -> cel.Bound:
    whole = {"do": "remove", "index": 3, "part": "gear/bush", "label": "MQ-1"} | step
    return cel.bind({"step": whole})


def test_a_record_that_keeps_the_rule_holds() -> None:
    assert ready().evaluate(bound()) == HOLDS


def test_a_record_the_rule_is_not_about_is_left_alone() -> None:
    assert ready().evaluate(bound(do="fit-new", label=None)) == NOT_APPLICABLE


def test_a_broken_rule_says_what_and_where() -> None:
    verdict = ready().evaluate(bound(label=None))
    assert verdict.standing == Standing.BROKEN
    assert verdict.message == "gear/bush leaves the machine without a label"
    assert verdict.at == ("steps", 3, "label")


def test_a_rule_without_when_is_about_every_record() -> None:
    rule = ready(changed(when="true", holds="step.label != null"))
    assert rule.evaluate(bound(do="move", label=None)).standing == Standing.BROKEN


def test_a_rule_that_fails_on_a_record_names_itself() -> None:
    broken = cel.bind({"step": {"do": "remove"}})
    with pytest.raises(cel.RuleFault, match=r"rule WM122 \(removed-part-is-labelled\): .*label"):
        ready().evaluate(broken)


def test_a_record_of_another_shape_never_passes_for_one_that_holds() -> None:
    with pytest.raises(cel.RuleFault):
        ready().evaluate(cel.bind({"step": "remove"}))


def test_what_when_makes_sure_counts_in_holds() -> None:
    loose = changed(when="true", holds="step.label.size() > 2")
    assert isinstance(prepare(loose, variables=VARIABLES), tuple)
    guarded = changed(when="step.label != null", holds="step.label.size() > 2")
    assert isinstance(prepare(guarded, variables=VARIABLES), Rule)


def test_what_a_broken_rule_makes_sure_counts_in_its_message() -> None:
    written = changed(holds="step.label == null || step.label.size() > 2", message="{step.label}")
    assert ready(written).evaluate(bound(label="M")).message == "M"
    other = changed(holds="step.label != null", message="{step.label}")
    assert isinstance(prepare(other, variables=VARIABLES), tuple)


@pytest.mark.parametrize(
    ("fields", "path", "words"),
    [
        (
            {"when": "step.doo == 'remove'"},
            ("when",),
            "in when, at character 6: step has no field doo",
        ),
        ({"holds": "step.labl != null"}, ("holds",), "did you mean label?"),
        ({"holds": "step.part.contains(step.lable)"}, ("holds",), "did you mean label?"),
        ({"message": "{step.prat} has none"}, ("message",), "did you mean part?"),
        ({"at": ("steps", "{step.indx}")}, ("at", 1), "did you mean index?"),
        ({"holds": "option.chosen"}, ("holds",), "nothing called option here"),
        ({"holds": "step.part"}, ("holds",), "must be true or false"),
        ({"holds": "true"}, ("holds",), "nothing can break it"),
        ({"holds": "1 < 2"}, ("holds",), "nothing can break it"),
        ({"holds": "step.part =="}, ("holds",), "the end stands where a value should"),
        ({"scope": "museum"}, ("scope",), "no record of scope museum is described"),
        ({"cases": WRITTEN.cases[:1]}, ("cases",), "at least one case faulted"),
        ({"cases": WRITTEN.cases[1:]}, ("cases",), "at least one case that passes"),
        (
            {"cases": [case.model_dump() | {"lines": ()} for case in WRITTEN.cases]},
            ("cases", 1),
            "bare: a faulted case names the lines",
        ),
        (
            {"cases": [case.model_dump() | {"lines": (1,)} for case in WRITTEN.cases]},
            ("cases", 0),
            "labelled: a faulted case names the lines",
        ),
        ({"cases": WRITTEN.cases * 2}, ("cases", 2, "name"), "two cases are called 'labelled'"),
    ],
)
def test_a_rule_with_a_slip_cannot_be_asked(
    fields: dict[str, object], path: tuple[str | int, ...], words: str
) -> None:
    problems = prepare(changed(**fields), variables=VARIABLES)
    assert isinstance(problems, tuple)
    assert isinstance(problems[0], Problem)
    assert path == problems[0].path
    assert words in problems[0].message


@pytest.mark.parametrize(
    "fields",
    [
        {"code": "WM022"},
        {"code": "WM1234"},
        {"id": "Removed Part"},
        {"level": "may"},
        {"scope": "part"},
        {"sources": []},
        {"sources": [{"text": "x", "standing": "old", "confidence": "from-memory"}]},
        {"holds": ""},
        {"waivable": "yes"},
        {"severity": 1},
        {"at": []},
        {"cases": [{"name": "a", "verdict": "faulted", "record": "x: 1", "lines": [0]}]},
    ],
)
def test_a_rule_of_another_form_is_not_read(fields: dict[str, object]) -> None:
    with pytest.raises(ValidationError):
        changed(**fields)


def test_a_rule_that_was_not_checked_cannot_be_made() -> None:
    with pytest.raises(ValidationError, match="asked"):
        Rule.model_validate(WRITTEN.model_dump())


def test_a_rule_cannot_be_changed_after_it_was_checked() -> None:
    with pytest.raises(ValidationError, match="frozen"):
        ready().holds = "true"  # type: ignore[misc]


def test_a_bare_true_in_yaml_is_an_expression() -> None:
    assert changed(when=True).when == "true"


def test_what_is_compiled_is_no_part_of_what_was_written() -> None:
    assert WRITTEN.model_dump() == ready().model_dump()
