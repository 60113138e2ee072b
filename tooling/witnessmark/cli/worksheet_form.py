"""The form of a worksheet in a terminal: what it takes and gives, keeps to and rests on."""

from __future__ import annotations

import shlex
from collections.abc import Iterator, Mapping
from typing import Any

from witnessmark.cli.printing import render_paragraph, visible

Told = Mapping[str, Any]  # as `describe_sheet` gives it, or a part of that
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
    yield from _section("keeps to", [_limit(limit) for limit in told["limits"]] or [_NOT_STATED])
    yield from _section("cautions", [_caution(caution) for caution in told["cautions"]])
    yield from _section("uncertainty, where a ± is given", told["uncertainty"])
    yield from _section("sources", [_source(source) for source in told["sources"]])
    yield from _examples(told)


def render_pairs(given: Mapping[str, str | list[str]]) -> str:
    """Give inputs as they are typed after `worksheet run`; a repeated input is repeated.

    >>> render_pairs({"exposure": ["5 m/s2 for 3 h", "4 m/s2 for 1 h"], "measured": "single-axis"})
    'exposure="5 m/s2 for 3 h" exposure="4 m/s2 for 1 h" measured="single-axis"'
    """
    return " ".join(
        f"{name}={_quoted(text)}"
        for name, texts in given.items()
        for text in ([texts] if isinstance(texts, str) else texts)
    )


def _quoted(text: str) -> str:
    # Double quotes read best; a text a shell would change within them is quoted as shlex does.
    return shlex.quote(text) if set(text) & set('"$`\\!') else f'"{text}"'


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
    yield from _range(taken)
    for part in taken.get("parts", ()):
        yield f"{part['meaning']}, in {part['unit']}"
        yield from _range(part)


def _range(taken: Told) -> Iterator[str]:
    """Give what is refused and what is cautioned, each in words."""
    unit = "" if taken.get("unit") in (None, "1") else f" {taken['unit']}"
    refused = [
        *([f"over {taken['over']}{unit}"] if taken.get("over") else []),
        *([f"{taken['least']}{unit} or more"] if taken.get("least") else []),
        *([f"{taken['most']}{unit} or less"] if taken.get("most") else []),
    ]
    cautioned = [
        *([f"under {taken['cautioned_under']}{unit}"] if taken.get("cautioned_under") else []),
        *([f"over {taken['cautioned_over']}{unit}"] if taken.get("cautioned_over") else []),
    ]
    yield from [f"must be {' and '.join(refused)}"] if refused else []
    yield from [f"cautioned {' and '.join(cautioned)}"] if cautioned else []


def _unit_of(given: Told) -> str:
    if given.get("unit_by"):
        units = (f"{unit} ({word})" for word, unit in given["unit_by"]["units"].items())
        return f"in {' or '.join(units)} by {given['unit_by']['input']}"
    return {"": "a word", "1": "a plain number"}.get(given["unit"], f"in {given['unit']}")


def _limit(limit: Told) -> str:
    side = f"{limit['result']}: {limit['side']}"
    if limit["against"] == limit["meaning"]:
        return f"{side} {limit['meaning']}"
    where = f", where '{limit['against']}' is given" if limit["where_given"] else ""
    return f"{side} '{limit['against']}', {limit['meaning']}{where}"


def _caution(caution: Told) -> str:
    return str(caution["text"]) if caution["always"] else f"Where it applies: {caution['text']}"


def _cited(source: Told) -> str:
    return ", ".join(str(source[part]) for part in ("author", "title", "year", "clause"))


def _source(source: Told) -> str:
    note = f" {source['note']}" if source["note"] else ""
    return f"{_cited(source)} ({source['standing']}).{note}"


def _examples(told: Told) -> Iterator[str]:
    yield "worked elsewhere, and here"
    for example in told["examples"]:
        yield from _example(example)
    if told["none_found"]:
        yield render_paragraph(told["none_found"], indent="  ")
    if told["examples"]:
        yield "example"
        pairs = render_pairs(told["examples"][0]["given"])
        yield f"  witnessmark worksheet run {told['sheet']} {visible(pairs)}"


def _example(example: Told) -> Iterator[str]:
    figures = "; ".join(_figure(name, figure) for name, figure in example["results"].items())
    note = f" {example['note']}" if example["note"] else ""
    cited = _cited(example["source"])
    yield render_paragraph(f"{example['title']}: {figures}. [{cited}]{note}", indent="  ")


def _figure(name: str, figure: Told) -> str:
    wrong = ", and the print is wrong" if figure["print_is_wrong"] else ""
    return f"{name} {figure['printed']} there, {figure['ours_in_that_unit']} here{wrong}"
