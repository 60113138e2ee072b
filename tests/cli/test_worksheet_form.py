"""The printed form of every sheet: whole, in words, with an example that can be typed as it is."""

from __future__ import annotations

import json
import re
import shlex

import pytest
from click.testing import CliRunner

from witnessmark.cli.worksheet import command
from witnessmark.worksheets import built_names, describe_sheet, find_sheet
from witnessmark.worksheets.declare import Example, Sheet
from witnessmark.worksheets.signature import inputs_of, results_of

SHEETS = [find_sheet(name) for name in built_names()]
BY_NAME = pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
WRONG_IN_PRINT = [
    pytest.param(sheet, example, id=f"{sheet.id}: {example.title}")
    for sheet in SHEETS
    for example in sheet.examples
    if any(printed.is_wrong for printed in example.printed.values())
]


def shown(name: str) -> str:
    result = CliRunner().invoke(command, ["show", name])
    assert 0 == result.exit_code, result.output
    return result.output


def flat(text: str) -> str:
    """A text without the folding of its lines."""
    return " ".join(text.split()).replace("- ", "-")


@BY_NAME
def test_every_input_and_result_has_a_line(sheet: Sheet) -> None:
    lines = shown(sheet.id).splitlines()
    names = [*(taken.name for taken in inputs_of(sheet.equation)), *results_of(sheet.equation)]
    begun = {re.split(r"[:, ]", line[2:])[0] for line in lines if re.match(r"  \w", line)}
    assert [] == [name for name in names if name not in begun]


@BY_NAME
def test_the_example_of_a_form_runs_as_it_is_printed(sheet: Sheet) -> None:
    last = shown(sheet.id).splitlines()[-1]
    words = shlex.split(last)
    assert ["witnessmark", "worksheet", "run", sheet.id] == words[:4]
    result = CliRunner().invoke(command, [*words[2:], "--format", "json"])
    assert 0 == result.exit_code, result.output
    expected = describe_sheet(sheet)["examples"]
    assert isinstance(expected, list)
    assert isinstance(expected[0], dict)
    figures = expected[0]["results"]
    assert isinstance(figures, dict)
    told = json.loads(result.output)["results"]
    for figure, reached in figures.items():
        assert isinstance(reached, dict)
        assert reached["ours"] == told[figure]["value"]


@BY_NAME
def test_no_form_shows_the_insides_of_the_program(sheet: Sheet) -> None:
    form = shown(sheet.id)
    assert not [slip for slip in ("<function", "lambda", "['", "None", "Fraction(") if slip in form]
    assert "[]" not in form


@BY_NAME
def test_every_limit_is_told_in_words_once(sheet: Sheet) -> None:
    form = flat(shown(sheet.id))
    for limit in sheet.limits:
        sentence = f"{limit.result} must be {limit.side.value}"
        assert sentence in form
        keeps_to = form[form.index(" keeps to ") : form.index(" cautions ")]
        assert 1 == keeps_to.count(flat(limit.meaning))
    if not sheet.limits:
        assert "the sheet gives results and no verdict" in form


@BY_NAME
def test_every_caution_and_source_is_in_the_form(sheet: Sheet) -> None:
    form = flat(shown(sheet.id))
    assert [] == [c.text for c in sheet.cautions if flat(c.text) not in form]
    assert [] == [s.title for s in sheet.sources if flat(s.title) not in form]
    assert [] == [e.title for e in sheet.examples if flat(e.title) not in form]


@pytest.mark.parametrize(("sheet", "example"), WRONG_IN_PRINT)
def test_a_wrong_print_is_shown_as_printed_and_said_to_be_wrong(
    sheet: Sheet, example: Example
) -> None:
    form = flat(shown(sheet.id))
    for name, printed in example.printed.items():
        wrong = ", and the print is wrong" if printed.is_wrong else ""
        assert f"{name} {printed.value} there, {printed.ours} here{wrong}" in form


def test_a_repeated_input_is_repeated_in_the_example() -> None:
    sheet = find_sheet("hand-arm-vibration")
    assert 'exposure="5 m/s2 for 3 h"' in shown(sheet.id).splitlines()[-1]
