"""The form of a worksheet in a terminal: what it takes and gives, keeps to and rests on."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.cli.printing import render_paragraph, visible
from witnessmark.worksheets.telling import Told, as_typed, cited, limit_in_words, ranges

_NOT_STATED = "no figure is kept to: the sheet gives results and no verdict"


def render_form(told: Told) -> Iterator[str]:
    """Give the lines of a form, from what `describe_sheet` tells."""
    yield f"{told['sheet']}: {told['title']}"
    yield render_paragraph(str(told["tells"]), indent="  ")
    yield "\ntakes"
    for name, taken in told["inputs"].items():
        yield from _taken(name, taken)
    yield "gives"
    for name, given in told["results"].items():
        yield render_paragraph(f"{name}, {_unit_of(given)}: {given['meaning']}", indent="  ")
    yield "reckons"
    yield from (f"  {visible(line)}" for line in told["formula"])
    yield from _section(
        "keeps to", [limit_in_words(limit) for limit in told["limits"]] or [_NOT_STATED]
    )
    yield from _section("cautions", [_caution(caution) for caution in told["cautions"]])
    yield from _section("uncertainty, where a ± is given", told["uncertainty"])
    yield from _section("sources", [_source(source) for source in told["sources"]])
    yield from _examples(told)


def _section(title: str, lines: list[str]) -> Iterator[str]:
    yield title
    yield from (render_paragraph(line, indent="  ") for line in lines)


def _taken(name: str, taken: Told) -> Iterator[str]:
    optional = " (may be left out)" if taken["optional"] else ""
    repeated = " (may be repeated)" if taken.get("repeated") else ""
    yield render_paragraph(f"{name}{optional}{repeated}: {taken['meaning']}", indent="  ")
    yield render_paragraph("; ".join(_how_written(taken)), indent="      ")


def _how_written(taken: Told) -> Iterator[str]:
    if taken.get("words"):
        yield ", or ".join(f"{word} ({means})" for word, means in taken["words"].items())
        return
    if taken.get("rows") and not taken.get("unit"):
        yield f"a name: {', '.join(taken['rows'])}"
        return
    yield str(taken["written"])
    if taken.get("rows"):
        yield f"names: {', '.join(taken['rows'])}"
    yield from ranges(taken)
    for part in taken.get("parts", ()):
        yield f"{part['meaning']}, in {part['unit']}"
        yield from ranges(part)


def _unit_of(given: Told) -> str:
    if given.get("unit_by"):
        units = (f"{unit} ({word})" for word, unit in given["unit_by"]["units"].items())
        return f"in {' or '.join(units)} by {given['unit_by']['input']}"
    return {"": "a word", "1": "a plain number"}.get(given["unit"], f"in {given['unit']}")


def _caution(caution: Told) -> str:
    return str(caution["text"]) if caution["always"] else f"Where it applies: {caution['text']}"


def _source(source: Told) -> str:
    note = f" {source['note']}" if source["note"] else ""
    return f"{cited(source)} ({source['standing']}).{note}"


def _examples(told: Told) -> Iterator[str]:
    yield "worked elsewhere, and here"
    for example in told["examples"]:
        yield from _example(example)
    if told["none_found"]:
        yield render_paragraph(told["none_found"], indent="  ")
    if told["examples"]:
        yield "example"
        pairs = as_typed(told["examples"][0]["given"])
        yield f"  witnessmark worksheet run {told['sheet']} {visible(pairs)}"


def _example(example: Told) -> Iterator[str]:
    figures = "; ".join(_figure(name, figure) for name, figure in example["results"].items())
    note = f" {example['note']}" if example["note"] else ""
    yield render_paragraph(
        f"{example['title']}: {figures}. [{cited(example['source'])}]{note}", indent="  "
    )


def _figure(name: str, figure: Told) -> str:
    wrong = ", and the print is wrong" if figure["print_is_wrong"] else ""
    return f"{name} {figure['printed']} there, {figure['ours_in_that_unit']} here{wrong}"
